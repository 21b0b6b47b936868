import { InvalidInput, requireFinite } from "../checks";
import { type Computed, computed, problem } from "../computed";
import type { Tolerance } from "../plan/feature-plan";
import { sampleStandardDeviation } from "../summary/moments";
import { gridStep } from "./resolution";

/** Readings with from ≤ x < to; `outside` of them lie beyond a tolerance limit. */
export type Bin = { from: number; to: number; count: number; outside: number };

export type Histogram = {
  /** Neighbours without a gap, the first and the last not empty. */
  bins: Bin[];
  /** Of each bin, in the unit of the readings. */
  width: number;
  /** Step between possible readings, of which the width is a whole multiple; null when there is none to see. */
  step: number | null;
  /** The width that the rule gave before it was made round. */
  ruleWidth: number;
  rule: "freedman-diaconis" | "scott";
};

/** One reading far off must not cut the rest into thousands of bins. */
const MOST_BINS = 80;

/**
 * How often readings fell where, in bins that flatter nobody.
 *
 *   width = 2 · IQR / ∛n          Freedman and Diaconis
 *         = 3.49 · s / ∛n         Scott, when half of the readings are alike and the first gives nothing
 *
 * rounded to the nearest of 1, 2, 5, 10 … steps. On a grid (a gauge reads in steps of 0.001) every bin then
 * holds equally many possible readings, and its edges lie half a step between them: any other width gives
 * bins of two and of three steps by turns, a comb that the process does not have. Readings on no grid of
 * their own, or on one a hundred times finer than the gauge states (reduced to 20 °C), take the stated
 * resolution as their step where the rule's width is at least half of it.
 *
 * The interquartile range is that of the readings' own order, without interpolation. More than 80 bins are
 * never made; the width grows instead.
 *
 * Source: D. Freedman and P. Diaconis, Z. Wahrscheinlichkeitstheorie verw. Gebiete 57 (1981) 453-476; D. W.
 * Scott, Biometrika 66 (1979) 605-610 (both from memory). Whole steps: common practice, no source.
 *
 * @returns the problem "too-few-readings" below two, "no-variation" when all are alike
 * @throws InvalidInput when a reading or limit is not finite, or the resolution is not above 0
 */
export function histogram({
  values,
  resolution,
  tolerance,
}: {
  values: ArrayLike<number>;
  /** The gauge's stated step; null when not stated. */
  resolution: number | null;
  tolerance: Tolerance;
}): Computed<Histogram> {
  requireFinite("histogram", "values", values);
  requireStep(resolution);
  const count = values.length;
  if (count < 2) return problem({ code: "too-few-readings", needed: 2, got: count });
  const sorted = Float64Array.from(values).sort();
  const low = sorted[0]!;
  const high = sorted[count - 1]!;
  if (low === high) return problem({ code: "no-variation" });

  const { rule, ruleWidth } = ruledWidth(sorted);
  const grid = gridOf(sorted, { resolution, ruleWidth });
  const unit = grid?.step ?? 1;
  let steps = roundSteps(ruleWidth / unit, { isWhole: grid !== null });
  while ((high - low) / (steps * unit) > MOST_BINS - 1) steps = nextSteps(steps);

  const bins = filled(sorted, { steps, unit, grid, tolerance });
  return computed({ bins, width: steps * unit, step: grid?.step ?? null, ruleWidth, rule });
}

/** Possible readings lie at phase + whole multiples of step. */
type Grid = { step: number; phase: number };

function ruledWidth(sorted: Float64Array): Pick<Histogram, "rule" | "ruleWidth"> {
  const count = sorted.length;
  const at = (share: number) => sorted[Math.min(count - 1, Math.floor(share * count))]!;
  const range = at(0.75) - at(0.25);
  const root = Math.cbrt(count);
  return range > 0
    ? { rule: "freedman-diaconis", ruleWidth: (2 * range) / root }
    : { rule: "scott", ruleWidth: (3.49 * sampleStandardDeviation(sorted)) / root };
}

function gridOf(
  sorted: Float64Array,
  { resolution, ruleWidth }: { resolution: number | null; ruleWidth: number },
): Grid | null {
  const seen = gridStep(sorted);
  const isComputed = resolution !== null && (seen === null || resolution > 100 * seen);
  if (isComputed && ruleWidth >= resolution / 2) return { step: resolution, phase: 0 };
  if (seen === null) return null;
  const first = sorted[0]!;
  return { step: seen, phase: first - Math.round(first / seen) * seen };
}

/** The nearest of 1, 2, 5 times a power of ten, by ratio; on a grid one step at least. */
function roundSteps(wanted: number, { isWhole }: { isWhole: boolean }): number {
  const power = Math.floor(Math.log10(wanted));
  const choices = [1, 2, 5, 10].map((factor) => times(factor, power));
  const distance = (choice: number) => Math.abs(Math.log(choice / wanted));
  const nearest = choices.reduce((best, each) => (distance(each) < distance(best) ? each : best));
  return isWhole ? Math.max(1, nearest) : nearest;
}

function nextSteps(steps: number): number {
  const power = Math.floor(Math.log10(steps) + 1e-9);
  return [2, 5, 10].map((factor) => times(factor, power)).find((each) => each > steps * 1.001)!;
}

/** a·10ᵖ with one rounding. */
function times(factor: number, power: number): number {
  return power >= 0 ? factor * 10 ** power : factor / 10 ** -power;
}

function filled(
  sorted: Float64Array,
  { steps, unit, grid, tolerance }: { steps: number; unit: number; grid: Grid | null; tolerance: Tolerance },
): Bin[] {
  const width = steps * unit;
  // On a grid a reading is counted by the number of its grid value, so that no rounding moves it.
  const numberOf = (value: number) =>
    grid === null ? Math.floor(value / width) : Math.floor(Math.round((value - grid.phase) / unit) / steps);
  const edge = (number: number) =>
    grid === null ? number * width : grid.phase + (number * steps - 0.5) * unit;
  const first = numberOf(sorted[0]!);
  const last = numberOf(sorted[sorted.length - 1]!);
  const bins = Array.from(
    { length: last - first + 1 },
    (_, i): Bin => ({ from: edge(first + i), to: edge(first + i + 1), count: 0, outside: 0 }),
  );
  const { lower, upper } = tolerance;
  for (const value of sorted) {
    const bin = bins[numberOf(value) - first]!;
    bin.count++;
    if ((lower !== null && value < lower) || (upper !== null && value > upper)) bin.outside++;
  }
  return bins;
}

function requireStep(resolution: number | null): void {
  if (resolution === null || (resolution > 0 && Number.isFinite(resolution))) return;
  throw new InvalidInput("histogram", "resolution", resolution, "above 0");
}
