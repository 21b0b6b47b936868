import { STRENGTHS } from "./grid-view";
import styles from "./source-grid.module.css";

const SHADES = ["low4", "low3", "low2", "low1", "level", "high1", "high2", "high3", "high4"] as const;

/** What the shades and marks of the grid stand for. */
export function GridLegend() {
  const strongest = STRENGTHS[STRENGTHS.length - 1];
  return (
    <div className={styles.legend}>
      <span className={styles.scale}>
        <span>lower, −{strongest} sigma and beyond</span>
        <span className={styles.swatches} aria-hidden="true">
          {SHADES.map((shade) => (
            <span key={shade} className={`${styles.swatch} ${styles[shade]}`} />
          ))}
        </span>
        <span>higher, +{strongest} and beyond</span>
      </span>
      <span className={styles.mark}>
        <span className={`${styles.swatch} ${styles.alone}`} aria-hidden="true" /> ran alone: nothing to
        compare it with in the lot
      </span>
      <span className={styles.mark}>
        <span className={styles.sign} aria-hidden="true">
          <svg className={styles.tickStart} viewBox="0 0 10 8" focusable="false">
            <title>wedge</title>
            <path d="M0 0h10L5 8Z" />
          </svg>
        </span>
        something was done to it before this lot
      </span>
      <span className={styles.mark}>
        <span className={`${styles.swatch} ${styles.since}`} aria-hidden="true" /> moved since this lot
      </span>
      <span>empty: did not run</span>
    </div>
  );
}
