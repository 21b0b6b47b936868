import type { Evaluation } from "../evaluation/evaluation";
import { estimateLimits } from "../limits/estimate-limits";
import { type ControlLimits, limitsForSize } from "../limits/limits-for-size";
import { standardiseLocation } from "../limits/standardise";
import type { MeasurementSeries } from "../measurements/series";
import { TIE } from "../rules/judge";
import { summarise } from "../subgroups/summarise";
import { groupReadings } from "./groups";
import type { SourceTest } from "./variation";

/** Fewer lots than this say too little of how lots vary. */
const FEWEST_LOTS = 8;
/** "Nearly every lot" begins at this share of lots with a point beyond its limits. */
const NEARLY_EVERY = 0.6;
/** Neither side may hold more than this share of them: else the process has moved, and lots are not to blame. */
const MOST_ON_ONE_SIDE = 0.8;
const SURELY = 0.001;

export type LotSignals = {
  lots: number;
  /** Lots that hold a mean beyond its limits. */
  beyond: number;
  /**
   * Limits for the means of whole lots, from the moving ranges between neighbouring lots; null when these
   * are all alike.
   */
  limits: (ControlLimits & { sigma: number }) | null;
};

/**
 * Whether nearly every lot signals because lots truly differ from one another.
 *
 * Limits from within subgroups see only what varies inside a lot. Where lots differ by more than that, as
 * castings or material batches do, nearly every lot lies beyond them on one side or the other: one fact
 * about the process, not a fault a lot. True when
 *
 *   - there are at least 8 lots, and at least 60 % of them hold a mean beyond its limits,
 *   - at most 80 % of these lie on one side, else the process has moved, and
 *   - the one-way test of lots gives p < 0.001.
 *
 * Lots stand in the order in which they first appear. The limits offered treat a lot's mean as a single
 * reading: x̄ ± 3·MR̄/d2(2).
 *
 * Source of the limits: NIST/SEMATECH e-Handbook, 6.3.2.2 (from memory); of the rule and its numbers:
 * common practice, no source.
 *
 * @returns null when it is not so, when lots are not stated, or when nothing has been judged
 */
export function lotSignals(
  evaluation: Evaluation,
  {
    series,
    positions,
    tests,
  }: { series: MeasurementSeries; positions: ArrayLike<number>; tests: readonly SourceTest[] },
): LotSignals | null {
  const test = tests.find(({ kind }) => kind === "lot")?.test;
  if (!test?.ok || test.value.p === null || test.value.p >= SURELY) return null;
  const stated = Array.from(positions).filter((at) => series.lot[at] !== 0);
  const byLot = groupReadings(
    "lotSignals",
    stated.map((at) => evaluation.values[at]!),
    stated.map((at) => series.lot[at]!),
  );
  const lots = byLot.ids.length;
  const { above, below } = lotsBeyond(evaluation, series);
  const beyond = new Set([...above, ...below]).size;
  if (lots < FEWEST_LOTS || beyond < NEARLY_EVERY * lots) return null;
  if (Math.max(above.size, below.size) > MOST_ON_ONE_SIDE * beyond) return null;

  const estimated = estimateLimits({
    chart: "i-mr",
    subgroups: Array.from(byLot.means, (mean) => summarise([mean])),
    estimator: "mean-moving-range",
  });
  if (!estimated.ok) return { lots, beyond, limits: null };
  const { location } = limitsForSize(estimated.value, 1);
  return { lots, beyond, limits: { ...location, sigma: estimated.value.sigma } };
}

/** Lots with a mean beyond its limits, by side. */
function lotsBeyond(
  { points, formed, versions }: Evaluation,
  series: MeasurementSeries,
): { above: Set<number>; below: Set<number> } {
  const above = new Set<number>();
  const below = new Set<number>();
  for (let number = 0; number < points.count; number++) {
    const version = versions[points.limits[number]!];
    if (!version || version.sigma <= 0 || points.excluded[number] === 1) continue;
    const z = standardiseLocation(version, { mean: points.mean[number]!, size: points.size[number]! });
    if (Math.abs(z) <= 3 + TIE) continue;
    for (let k = formed.start[number]!; k < formed.start[number + 1]!; k++) {
      const lot = series.lot[formed.order[k]!]!;
      if (lot !== 0) (z > 0 ? above : below).add(lot);
    }
  }
  return { above, below };
}
