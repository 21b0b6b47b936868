"use client";

import type { ReactNode } from "react";
import { useCommonWords } from "#common-words";
import { Button, LinkButton } from "./fittings/controls";
import { notStoredIn } from "./fittings/not-stored";
import { Note } from "./fittings/note";
import styles from "./fittings/page-frame.module.css";

/**
 * A fault of the program while a page was put together. Pages only read, and actions store all or nothing,
 * so nothing can have been half saved.
 */
export default function PageFault({
  error,
  reset,
}: {
  error: Error & { digest?: string };
  reset: () => void;
}) {
  const { fittings } = useCommonWords();
  const { fault } = fittings;
  const notStored = error.digest === undefined ? null : notStoredIn(error.digest, fittings);
  if (notStored !== null) {
    return (
      <FaultFrame title={fault.notSaved}>
        <Note kind="broken" title={fault.notTaken} actions={<Button onClick={reset}>{fault.back}</Button>}>
          <p>{notStored}</p>
          <p>{fault.sendAgain}</p>
        </Note>
      </FaultFrame>
    );
  }
  return (
    <FaultFrame title={fault.title}>
      <Note
        kind="broken"
        title={fault.ours}
        actions={
          <>
            <Button kind="main" onClick={reset}>
              {fault.again}
            </Button>
            <LinkButton href="/">{fault.toBoard}</LinkButton>
          </>
        }
      >
        <p>{fault.whole}</p>
        {error.digest ? (
          <p>
            {fault.number} <code>{error.digest}</code>
          </p>
        ) : null}
      </Note>
    </FaultFrame>
  );
}

/** The head of every page, but without its way to the glossary: this stands in the scripts of all pages, and would bring the glossary along. */
function FaultFrame({ title, children }: { title: string; children: ReactNode }) {
  return (
    <main id="content" tabIndex={-1} className={styles.page}>
      <header className={styles.head}>
        <h1>{title}</h1>
      </header>
      {children}
    </main>
  );
}
