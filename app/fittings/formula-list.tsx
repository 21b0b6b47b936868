import type { ReactNode } from "react";
import styles from "./formula-list.module.css";

/** A figure and the way to it: each line of working, and where the formula is from. */
export type Working = { figure: string; lines: readonly string[]; source: ReactNode; rests?: ReactNode };

/** The way to each figure. */
export function FormulaList({ workings }: { workings: readonly Working[] }) {
  return (
    <dl className={styles.formulas}>
      {workings.map(({ figure, lines, source, rests }) => (
        <div key={figure}>
          <dt>{figure}</dt>
          <dd>
            {lines.map((line) => (
              <span key={line} className={styles.formula}>
                {line}
              </span>
            ))}
            <span className={styles.source}>{source}</span>
            {rests}
          </dd>
        </div>
      ))}
    </dl>
  );
}
