"use client";

import { type ReactNode, useEffect, useId, useRef, useState } from "react";
import { useCommonWords } from "#common-words";
import { Button, type ButtonKind, type ButtonSize } from "./controls";
import styles from "./dialog.module.css";

/**
 * A button that opens a native dialog; Escape and its close button shut it, focus goes back to the button.
 *
 * Content is rendered only while it is open, so a form in it starts afresh. Give `isShut` from an action's
 * answer to shut it once the work is done.
 */
export function Dialog({
  label,
  title,
  kind = "plain",
  size = "touch",
  isShut = false,
  children,
}: {
  label: ReactNode;
  title: string;
  kind?: ButtonKind;
  size?: ButtonSize;
  isShut?: boolean;
  children: ReactNode;
}) {
  const { fittings } = useCommonWords();
  const dialog = useRef<HTMLDialogElement>(null);
  const [isOpen, setOpen] = useState(false);
  const titleId = useId();

  useEffect(() => {
    if (isOpen) dialog.current?.showModal();
  }, [isOpen]);

  useEffect(() => {
    if (isShut) dialog.current?.close();
  }, [isShut]);

  return (
    <>
      <Button kind={kind} size={size} aria-haspopup="dialog" onClick={() => setOpen(true)}>
        {label}
      </Button>
      <dialog ref={dialog} className={styles.dialog} aria-labelledby={titleId} onClose={() => setOpen(false)}>
        {isOpen ? (
          <>
            <header className={styles.head}>
              <h2 id={titleId}>{title}</h2>
              <Button kind="quiet" onClick={() => dialog.current?.close()}>
                {fittings.close}
              </Button>
            </header>
            <div className={styles.body}>{children}</div>
          </>
        ) : null}
      </dialog>
    </>
  );
}
