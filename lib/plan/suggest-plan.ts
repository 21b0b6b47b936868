import { gridStep } from "../capability/resolution";
import type { MeasurementSeries } from "../measurements/series";
import { RULE_SETS } from "../rules/known-rules";
import type { ChartKind, CountPlan, FeatureKind } from "./feature-plan";

/** Rules of a feature that nobody has chosen any for: few false alarms, and a lasting shift is still seen. */
export const USUAL_RULES: readonly string[] = ["beyond-3s", "nine-one-side"];

/** Means and standard deviations from this subgroup size on: the range wastes what the readings know. */
const LEAST_FOR_SD = 10;
const LARGEST_FROM_LOTS = 25;
const USUAL_SIZE = 5;

/**
 * Chart and subgroup size for a feature that a file brings and the plan does not know.
 *
 * Labelled subgroups give their usual size. Without labels a lot of 2 to 25 readings, always as many, is
 * the subgroup; readings without lots, or one a lot, are charted singly; anything else in fives. Common
 * practice, no source: a person changes it in the control plan.
 */
export function suggestChart(series: MeasurementSeries): { chart: ChartKind; subgroupSize: number } {
  const labelled = sizesOf(series.count, (i) =>
    series.subgroup[i] ? (series.lot[i] as number) * LABELS + (series.subgroup[i] as number) : 0,
  );
  if (labelled.length > 0) return chartFor(usual(labelled));
  const lots = sizesOf(series.count, (i) => series.lot[i] as number);
  if (lots.length === 0 || usual(lots) === 1) return chartFor(1);
  const size = usual(lots);
  const even = lots.filter((count) => count === size).length >= 0.9 * lots.length;
  return chartFor(even && size <= LARGEST_FROM_LOTS ? size : USUAL_SIZE);
}

export function chartFor(subgroupSize: number): { chart: ChartKind; subgroupSize: number } {
  const chart = subgroupSize === 1 ? "i-mr" : subgroupSize < LEAST_FOR_SD ? "xbar-r" : "xbar-s";
  return { chart, subgroupSize };
}

/** More labels than any file or plant names, so that a lot and a label make one whole number. */
const LABELS = 2 ** 26;

/** How many measurements each group has; those with the key 0 are in none. */
function sizesOf(count: number, keyAt: (i: number) => number): number[] {
  const sizes = new Map<number, number>();
  // Groups come in runs: the map is asked once a run, not once a measurement.
  let from = 0;
  for (let i = 1; i <= count; i++) {
    const key = keyAt(from);
    if (i < count && keyAt(i) === key) continue;
    if (key !== 0) sizes.set(key, (sizes.get(key) ?? 0) + i - from);
    from = i;
  }
  return [...sizes.values()];
}

/** The most frequent number; of equally frequent ones the smaller. */
function usual(sizes: readonly number[]): number {
  const tally = new Map<number, number>();
  for (const size of sizes) tally.set(size, (tally.get(size) ?? 0) + 1);
  const [best] = [...tally.entries()].sort(([a, n], [b, m]) => m - n || a - b);
  return best?.[0] ?? 1;
}

const KIND_WORDS: readonly [FeatureKind, RegExp][] = [
  ["runout", /run-?out/i],
  ["profile", /profile/i],
  ["position", /position|\bpos\b|concentric|coaxial/i],
  ["orientation", /perpendicular|parallel|angularity|squareness/i],
  ["form", /flatness|roundness|circularity|straightness|cylindricity|sphericity/i],
];

/** The kind of a feature from its name; a size where the drawing gives a nominal. */
export function suggestKind(name: string, nominal: number | null): FeatureKind {
  const found = KIND_WORDS.find(([, words]) => words.test(name));
  if (found) return found[0];
  return nominal === null ? "other" : "size";
}

/** 0 for a deviation that cannot be negative and has no lower limit above it; null otherwise. */
export function suggestNaturalBound(kind: FeatureKind, lower: number | null, least: number): number | null {
  const bounded = kind === "form" || kind === "position" || kind === "orientation" || kind === "runout";
  return bounded && (lower === null || lower === 0) && least >= 0 ? 0 : null;
}

/** Zones and runs presume symmetry, which a bounded deviation does not have. */
export function suggestRules(naturalBound: number | null): readonly string[] {
  return naturalBound === null ? USUAL_RULES : RULE_SETS.LIMITS_ONLY;
}

/** The step of the readings' grid; null when they lie on none. */
export function suggestResolution(values: ArrayLike<number>): number | null {
  return gridStep(values);
}

/**
 * The chart of counts for a feature that a file brings with the number inspected in every row: p where no count is
 * above it and all sizes are whole, else u. Null for what is measured: values that are not whole, or rows without the number.
 * Common practice, no source.
 */
export function suggestCounts({ count, value, inspected }: MeasurementSeries): CountPlan | null {
  if (inspected === null) return null;
  let ofPieces = true;
  for (let i = 0; i < count; i++) {
    const found = value[i] as number;
    const on = inspected[i] as number;
    if (Number.isNaN(on) || !Number.isInteger(found) || found < 0) return null;
    if (found > on || !Number.isInteger(on)) ofPieces = false;
  }
  return { chart: ofPieces ? "p" : "u", size: null };
}
