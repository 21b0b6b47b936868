import { niceTicks, type Span } from "../../../../lib/chart/scale";
import { fixed } from "../../../../lib/format/numbers";
import styles from "./study.module.css";

/** Size of the pictures of a study, in units of their own. */
export const PLOT = { width: 760, height: 320, left: 78, right: 744, top: 20, bottom: 262 };

/** Hundredths of a unit are finer than any screen. */
export function at(value: number): number {
  return Math.round(100 * value) / 100;
}

/** Lines across at round figures, with their figures at the left, and what they count. */
export function ValueGrid({ span, y, title }: { span: Span; y: (value: number) => number; title: string }) {
  const { values, places } = niceTicks(span, 6);
  const middle = (PLOT.top + PLOT.bottom) / 2;
  return (
    <g>
      {values.map((value) => (
        <g key={value}>
          <line
            className={value === 0 ? styles.zero : styles.grid}
            x1={PLOT.left}
            x2={PLOT.right}
            y1={at(y(value))}
            y2={at(y(value))}
          />
          <text className={styles.tick} x={PLOT.left - 7} y={at(y(value)) + 4} textAnchor="end">
            {fixed(value, places)}
          </text>
        </g>
      ))}
      <text
        className={styles.axisTitle}
        x={14}
        y={middle}
        textAnchor="middle"
        transform={`rotate(-90 14 ${middle})`}
      >
        {title}
      </text>
    </g>
  );
}

/** What runs along the bottom. */
export function BottomTitle({ title }: { title: string }) {
  return (
    <text
      className={styles.axisTitle}
      x={(PLOT.left + PLOT.right) / 2}
      y={PLOT.bottom + 44}
      textAnchor="middle"
    >
      {title}
    </text>
  );
}
