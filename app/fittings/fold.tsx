import type { ReactNode } from "react";
import styles from "./fold.module.css";

/** A sheet that waits folded behind one line until somebody wants it. */
export function Fold({ summary, children }: { summary: ReactNode; children: ReactNode }) {
  return (
    <details className={styles.fold}>
      <summary>{summary}</summary>
      <div className={styles.body}>{children}</div>
    </details>
  );
}
