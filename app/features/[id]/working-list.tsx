import { type ReactNode, use } from "react";
import type { Assumption } from "../../../lib/evaluation/assumptions";
import { words } from "../../language/language";
import styles from "./panels.module.css";

/** Terms with their working: a formula and the feature's own figures in it. */
export function WorkingList({ lines }: { lines: readonly (readonly [term: string, working: ReactNode])[] }) {
  return (
    <dl className={styles.working}>
      {lines.map(([term, working]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{working}</dd>
        </div>
      ))}
    </dl>
  );
}

/** What a chart takes for granted, each with whether it holds; shape and word, no colour needed. */
export function AssumptionList({ assumptions }: { assumptions: readonly Assumption[] }) {
  const { assumptions: said } = use(words());
  return (
    <section>
      <h3>{said.title}</h3>
      <ul className={styles.assumptions}>
        {assumptions.map(({ name, holds, words: reason }) => {
          const standing = holds === null ? "open" : holds ? "yes" : "no";
          return (
            <li key={name}>
              <span className={styles[standing]}>{said.standings[standing]}</span>
              <span>
                {name}. <span className={styles.soft}>{reason}</span>
              </span>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
