import { type FigureWords, measured, toleranceWords, withUnit } from "../format/numbers";
import { typedNumber } from "../format/typed-number";
import type { KnownUnit } from "../plan/feature-plan";
import { fill } from "../words/fill";
import type { Words } from "../words/words";
import { FAR_WIDTHS, nearSpan } from "./far-values";

export type BenchFeature = {
  id: number;
  name: string;
  unit: KnownUnit;
  resolution: number | null;
  nominal: number | null;
  lower: number | null;
  upper: number | null;
};

/** What is said of a cell, in the browser as well. */
export type BenchCellWords = { cells: Words["bench"]["sheet"]["cells"]; figures: FigureWords };

/**
 * What a typed cell comes to, said at once: nothing typed, a value within its tolerance, a value outside it (which
 * is stored all the same: it was measured), so far outside that it is asked for once more, or no number (which keeps the
 * sheet from being stored).
 */
export type BenchCell =
  | { kind: "empty" }
  | { kind: "value"; value: number }
  | { kind: "outside"; value: number; words: string }
  | { kind: "far"; value: number; words: string }
  | { kind: "fault"; words: string };

export function readBenchCell(
  text: string,
  feature: BenchFeature,
  { cells, figures }: BenchCellWords,
): BenchCell {
  const value = typedNumber(text);
  if (value === null) return { kind: "empty" };
  if (value === undefined) return { kind: "fault", words: fill(cells.notNumber, { text: text.trim() }) };
  const { lower, upper, unit, resolution } = feature;
  const tolerance = toleranceWords({ lower, upper }, { resolution, unit }, figures);
  const by = (distance: number) => withUnit(measured(distance, { resolution, extra: 1 }), unit);
  const near = nearSpan(feature);
  const isFar = near !== null && (value < near.low || value > near.high);
  const said = (outside: string) =>
    isFar
      ? ({ kind: "far", value, words: fill(cells.far, { outside, widths: FAR_WIDTHS }) } as const)
      : ({ kind: "outside", value, words: outside } as const);
  if (upper !== null && value > upper)
    return said(fill(cells.above, { distance: by(value - upper), tolerance }));
  if (lower !== null && value < lower)
    return said(fill(cells.below, { distance: by(lower - value), tolerance }));
  return { kind: "value", value };
}
