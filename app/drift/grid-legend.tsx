import { use } from "react";
import { words } from "../language/language";
import { STRENGTHS } from "./grid-view";
import styles from "./source-grid.module.css";

const SHADES = ["low4", "low3", "low2", "low1", "level", "high1", "high2", "high3", "high4"] as const;

/** What the shades and marks of the grid stand for. */
export function GridLegend() {
  const { grid: said } = use(words()).driftPage;
  const strongest = STRENGTHS[STRENGTHS.length - 1] ?? 0;
  return (
    <div className={styles.legend}>
      <span className={styles.scale}>
        <span>{said.lower(strongest)}</span>
        <span className={styles.swatches} aria-hidden="true">
          {SHADES.map((shade) => (
            <span key={shade} className={`${styles.swatch} ${styles[shade]}`} />
          ))}
        </span>
        <span>{said.higher(strongest)}</span>
      </span>
      <span className={styles.mark}>
        <span className={`${styles.swatch} ${styles.alone}`} aria-hidden="true" /> {said.ranAlone}
      </span>
      <span className={styles.mark}>
        <span className={styles.sign} aria-hidden="true">
          <svg className={styles.tickStart} viewBox="0 0 10 8" focusable="false">
            <title>{said.wedge}</title>
            <path d="M0 0h10L5 8Z" />
          </svg>
        </span>
        {said.doneBefore}
      </span>
      <span className={styles.mark}>
        <span className={`${styles.swatch} ${styles.since}`} aria-hidden="true" /> {said.movedSince}
      </span>
      <span>{said.isEmpty}</span>
    </div>
  );
}
