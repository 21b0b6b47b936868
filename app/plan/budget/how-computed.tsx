import { use } from "react";
import { words } from "../../language/language";
import styles from "./budget.module.css";

/** The way to the figures of the alarm budget, and what they leave out. */
export function HowBudgetComputed({ runs }: { runs: number }) {
  const { how: said } = use(words()).budget;
  return (
    <details className={styles.fold}>
      <summary>{said.title}</summary>
      <dl className={styles.lines}>
        {said.lines(runs).map(([term, how, source]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>
              {how} <span className={styles.source}>{source}</span>
            </dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
