import { use } from "react";
import type { Span } from "../../../lib/chart/scale";
import { fixed, unitName } from "../../../lib/format/numbers";
import type { Tolerance } from "../../../lib/plan/feature-plan";
import { words } from "../../language/language";
import styles from "./detail.module.css";
import { at, axisTicks, FIGURE, horizontal, isWithin, placedLabels } from "./figure-places";

export type LimitMarks = { tolerance: Tolerance; naturalBound: number | null };

/** The axis of measured values under both pictures of the distribution. */
export function ValueAxis({ span, unit, isReduced }: { span: Span; unit: string; isReduced: boolean }) {
  const { capability, figures } = use(words());
  const { pictures: said } = capability;
  const x = horizontal(span, FIGURE);
  const { values, places } = axisTicks(span, { room: FIGURE.right - FIGURE.left, most: 8 });
  return (
    <g>
      <line
        className={styles.axis}
        x1={FIGURE.left}
        x2={FIGURE.right}
        y1={FIGURE.bottom}
        y2={FIGURE.bottom}
      />
      {values.map((value) => (
        <g key={value}>
          <line
            className={styles.axis}
            x1={at(x(value))}
            x2={at(x(value))}
            y1={FIGURE.bottom}
            y2={FIGURE.bottom + 5}
          />
          <text className={styles.tick} x={at(x(value))} y={FIGURE.bottom + 19} textAnchor="middle">
            {fixed(value, places)}
          </text>
        </g>
      ))}
      <text
        className={styles.axisTitle}
        x={(FIGURE.left + FIGURE.right) / 2}
        y={FIGURE.bottom + 40}
        textAnchor="middle"
      >
        {said.reading(unitName(unit, figures), isReduced)}
      </text>
    </g>
  );
}

/** What lies beyond the tolerance, shaded: it belongs behind everything else. */
export function BeyondTolerance({ span, tolerance }: { span: Span; tolerance: Tolerance }) {
  const x = horizontal(span, FIGURE);
  const height = FIGURE.bottom - FIGURE.top;
  const from = (value: number) => Math.min(FIGURE.right, Math.max(FIGURE.left, x(value)));
  return (
    <g className={styles.beyondTolerance}>
      {tolerance.lower === null ? null : (
        <rect
          x={FIGURE.left}
          y={FIGURE.top}
          width={at(from(tolerance.lower) - FIGURE.left)}
          height={height}
        />
      )}
      {tolerance.upper === null ? null : (
        <rect
          x={at(from(tolerance.upper))}
          y={FIGURE.top}
          width={at(FIGURE.right - from(tolerance.upper))}
          height={height}
        />
      )}
    </g>
  );
}

/** Tolerance limits as full lines, the natural bound as a dotted one, each with its name and value. */
export function LimitLines({
  span,
  marks: { tolerance, naturalBound },
  shown,
}: {
  span: Span;
  marks: LimitMarks;
  /** A limit as people write it. */
  shown: (value: number) => string;
}) {
  const { pictures: said } = use(words()).capability;
  const x = horizontal(span, FIGURE);
  const lines = [
    { value: tolerance.lower, name: said.lowerLimit, isBound: false },
    { value: tolerance.upper, name: said.upperLimit, isBound: false },
    { value: naturalBound, name: said.naturalBound, isBound: true },
  ].flatMap(({ value, name, isBound }) =>
    value !== null && isWithin(span, value) ? [{ value, name, isBound }] : [],
  );
  const labels = placedLabels(
    lines.map(({ value, name }) => ({ text: `${name} ${shown(value)}`, at: x(value) })),
    { left: 2, right: FIGURE.width - 2 },
  );
  return (
    <g>
      {lines.map(({ value, name, isBound }) => (
        <line
          key={name}
          className={isBound ? styles.bound : styles.limit}
          x1={at(x(value))}
          x2={at(x(value))}
          y1={FIGURE.top - 8}
          y2={FIGURE.bottom}
        />
      ))}
      {labels.map(({ text, x: place, row }) => (
        <text
          key={text}
          className={styles.limitName}
          x={at(place)}
          y={FIGURE.top - 14 - 17 * row}
          textAnchor="middle"
        >
          {text}
        </text>
      ))}
    </g>
  );
}
