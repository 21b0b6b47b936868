import type { StripDrawing } from "./strip-drawing";
import styles from "./tolerance-strip.module.css";

/** A tolerance strip. Plain SVG: a board shows a hundred. */
export function DrawnStrip({ drawing: { label, paths } }: { drawing: StripDrawing }) {
  return (
    <svg className={styles.strip} viewBox="0 0 240 26" role="img" aria-label={label}>
      {paths.map(([look, d]) => (
        <path key={look} className={styles[look]} d={d} />
      ))}
    </svg>
  );
}
