import type { ReactNode } from "react";
import styles from "./note.module.css";

/**
 * What stands where a figure or a list would stand, or beside an action that was taken or refused.
 *
 * not-yet: something everyday is missing · empty: nothing is here · refused: nothing was saved ·
 * saved: it was · broken: a fault · remark: worth knowing.
 */
export type NoteKind = "not-yet" | "empty" | "refused" | "saved" | "broken" | "remark";

export function Note({
  kind,
  title,
  children,
  actions,
}: {
  kind: NoteKind;
  title?: ReactNode;
  children?: ReactNode;
  actions?: ReactNode;
}) {
  const isAnswer = kind === "refused" || kind === "saved" || kind === "broken";
  return (
    <div className={`${styles.note} ${styles[kind]}`} role={isAnswer ? "status" : undefined}>
      <Sign kind={kind} />
      <div className={styles.words}>
        {title ? <p className={styles.title}>{title}</p> : null}
        {children ? <div className={styles.body}>{children}</div> : null}
        {actions ? <div className={styles.actions}>{actions}</div> : null}
      </div>
    </div>
  );
}

/** One shape for each kind, so that none is told by colour alone. */
function Sign({ kind }: { kind: NoteKind }) {
  return (
    <svg className={styles.sign} viewBox="0 0 20 20" aria-hidden="true" focusable="false">
      {kind === "refused" || kind === "broken" ? (
        <path d="M10 2.5 17.5 10 10 17.5 2.5 10Z M10 6v5 M10 13.2v.8" />
      ) : null}
      {kind === "saved" ? <path d="M3.5 10.5 8 15 16.5 5.5" /> : null}
      {kind === "not-yet" ? <path d="M3 10h3 M8.5 10h3 M14 10h3" /> : null}
      {kind === "empty" ? <path d="M4 4h12v12H4Z" strokeDasharray="3 2.4" /> : null}
      {kind === "remark" ? <path d="M4 5h12 M4 10h12 M4 15h7" /> : null}
    </svg>
  );
}
