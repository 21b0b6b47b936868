import { type FigureWords, measured, toleranceWords, withUnit } from "../format/numbers";
import { typedNumber } from "../format/typed-number";
import { countFault, isPerUnit } from "../plan/counts";
import type { CountPlan, KnownUnit } from "../plan/feature-plan";
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
  /** Null for measured values. */
  counts: CountPlan | null;
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
  /** What is typed of the number inspected in the same row. */
  inspected = "",
): BenchCell {
  const value = typedNumber(text);
  if (value === null) return { kind: "empty" };
  if (value === undefined) return { kind: "fault", words: fill(cells.notNumber, { text: text.trim() }) };
  if (feature.counts) return readCount(value, feature.counts, inspected, cells);
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

function readCount(
  value: number,
  counts: CountPlan,
  inspected: string,
  cells: BenchCellWords["cells"],
): BenchCell {
  const size = isPerUnit(counts.chart) ? (typedNumber(inspected) ?? Number.NaN) : Number.NaN;
  const fault = countFault(value, size, counts);
  switch (fault?.kind) {
    case undefined:
    case "size-varies":
      return { kind: "value", value };
    case "no-count":
      return { kind: "fault", words: cells.noCount };
    case "many":
      return { kind: "fault", words: fill(cells.many, { size: fault.size }) };
    case "size-missing":
      return { kind: "fault", words: cells.noSize };
    case "size-broken":
      return { kind: "fault", words: fill(cells.partOfPiece, { size }) };
  }
}

/** What is typed of the number inspected comes to, for all counts of its row. */
export function readInspectedCell(text: string, { cells }: Pick<BenchCellWords, "cells">): BenchCell {
  const value = typedNumber(text);
  if (value === null) return { kind: "empty" };
  if (value === undefined) return { kind: "fault", words: fill(cells.notNumber, { text: text.trim() }) };
  return value > 0 ? { kind: "value", value } : { kind: "fault", words: cells.notAbove };
}

/** Whether a count of this feature may say on how many pieces or units it was found. */
export function mayStateInspected({ counts }: BenchFeature): boolean {
  return counts !== null && isPerUnit(counts.chart);
}
