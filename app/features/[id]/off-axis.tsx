import { heldOn, isOff } from "../../../lib/chart/axis-spans";
import type { Span } from "../../../lib/chart/scale";
import { whole } from "../../../lib/format/numbers";
import { fill } from "../../../lib/words/fill";
import { Button } from "../../fittings/controls";
import styles from "./chart.module.css";
import type { ChartWords } from "./chart-view";

/** A point that lies beyond the ends of its axis. */
export type OffPoint = {
  /** As people count it. */
  number: number;
  value: number;
  isAbove: boolean;
  /** Axis lengths beyond the end. */
  distance: number;
};

/** The points that lie off an axis, in their order. */
export function offAxis(
  points: readonly { number: number; value: number | null }[],
  domain: Span,
): OffPoint[] {
  const length = domain.high - domain.low;
  return points.flatMap(({ number, value }) =>
    value === null || !isOff(domain, value)
      ? []
      : [
          {
            number,
            value,
            isAbove: value > domain.high,
            distance: Math.abs(value - heldOn(domain, value)) / length,
          },
        ],
  );
}

/** Says that points lie off the axis, and leads to an axis that holds them and back. Empty where all lie on it anyway. */
export function OffAxis({
  off,
  figure,
  isWhole,
  onWhole,
  words,
}: {
  /** Of the axis that is not stretched. */
  off: readonly OffPoint[];
  /** A value with its unit. */
  figure: (value: number) => string;
  isWhole: boolean;
  onWhole: (isWhole: boolean) => void;
  words: ChartWords["offAxis"];
}) {
  const [first, ...others] = off;
  if (!first) return null;
  const furthest = others.reduce((most, point) => (point.distance > most.distance ? point : most), first);
  const said = { count: whole(off.length), number: furthest.number, value: figure(furthest.value) };
  return (
    <p className={styles.offAxis} role="status">
      {isWhole ? words.whole : fill(others.length === 0 ? words.one : words.many, said)}{" "}
      <Button kind="quiet" size="dense" aria-pressed={isWhole} onClick={() => onWhole(!isWhole)}>
        {isWhole ? words.showNear : words.showWhole}
      </Button>
    </p>
  );
}

const LETTER = 7.2;
const GAP = 9;

/** The figures of points at the edge of a plot, with an arrow to where they lie; one that would touch another is left out. */
export function EdgeFigures({
  off,
  x,
  y,
  right,
  figure,
}: {
  off: readonly OffPoint[];
  x: (number: number) => number;
  /** Holds what lies off the axis at its end. */
  y: (value: number) => number;
  /** Where the plot ends. */
  right: number;
  figure: (value: number) => string;
}) {
  let takenAbove = Number.NEGATIVE_INFINITY;
  let takenBelow = Number.NEGATIVE_INFINITY;
  const labels = off.flatMap(({ number, value, isAbove }) => {
    const text = `${isAbove ? "↑" : "↓"} ${figure(value)}`;
    const width = text.length * LETTER;
    const isLeft = x(number) + GAP + width > right;
    const from = isLeft ? x(number) - GAP - width : x(number) + GAP;
    if (from < (isAbove ? takenAbove : takenBelow)) return [];
    if (isAbove) takenAbove = from + width + GAP;
    else takenBelow = from + width + GAP;
    return [{ number, text, from, y: y(value) + (isAbove ? 8 : 0) }];
  });
  return (
    <g>
      {labels.map(({ number, text, from, y: place }) => (
        <text key={number} className={styles.edgeFigure} x={from} y={place}>
          {text}
        </text>
      ))}
    </g>
  );
}
