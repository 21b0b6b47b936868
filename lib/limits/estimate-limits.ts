import { InvalidInput, requireCount, requireFiniteNumbers } from "../checks";
import { type Computed, computed, type Problem, problem } from "../computed";
import { CHART_KINDS, type ChartKind } from "../plan/feature-plan";
import type { SubgroupSummary } from "../subgroups/summarise";
import { ESTIMATORS_OF, type Estimator, type SigmaEstimate } from "./estimators";
import { sigmaFromMeanMovingRange } from "./mean-moving-range";
import { sigmaFromMeanRange } from "./mean-range";
import { sigmaFromMeanSd } from "./mean-sd";
import { sigmaFromMedianMovingRange } from "./median-moving-range";
import { sigmaFromPooledSd } from "./pooled-sd";
import { sigmaFromWeightedRange } from "./weighted-range";

/** Two subgroups at least: the centre of one says nothing about how the next will lie. */
const FEWEST = 2;

export type EstimatedLimits = {
  chart: ChartKind;
  /** Mean of all readings, in their unit. */
  centre: number;
  /** Within-subgroup sigma of single readings, in their unit; above 0. */
  sigma: number;
  estimator: Estimator;
  /** Exact for pooled-sd, otherwise those of the chi variable that scatters alike; not a whole number. */
  degreesOfFreedom: number;
  /** Readings per subgroup; null when subgroups differ in size. */
  subgroupSize: number | null;
};

/**
 * Centre and within-subgroup sigma from the subgroups of a baseline.
 *
 * The centre is the mean of all readings, so that with unequal sizes a large subgroup counts for more.
 * Sigma comes from the estimator named, or from the chart's usual one: see `ESTIMATORS_OF`. Everything
 * drawn follows from the two by `limitsForSize`.
 *
 * Leave out excluded subgroups beforehand. On a chart of means, subgroups of one count for the centre
 * but not for sigma; on a chart of single readings every subgroup is of one and the order is that of
 * time, since sigma comes from moving ranges.
 *
 * Units: those of the readings. How many subgroups make limits final is the caller's rule, not known here.
 *
 * @returns the problem "too-few-subgroups" (or "too-few-readings" for single readings) below two, and
 *   "no-variation" when sigma is 0: the gauge resolves too little to chart
 * @throws InvalidInput for an unknown chart, an estimator the chart does not offer, mean-range or
 *   mean-sd with unequal sizes, subgroups larger than one on a chart of single readings, a range chart
 *   with more than 1000 in a subgroup, or a number that is not finite
 */
export function estimateLimits({
  chart,
  subgroups,
  estimator,
}: {
  chart: ChartKind;
  subgroups: readonly SubgroupSummary[];
  estimator?: Estimator | undefined;
}): Computed<EstimatedLimits> {
  requireSummaries(chart, subgroups);
  const spreads = chart === "i-mr" ? subgroups : subgroups.filter((subgroup) => subgroup.size > 1);
  const equalSize = sizeOfAll(spreads);
  const chosen = estimator ?? usualEstimator(chart, equalSize);
  requireOffered(chart, chosen);
  if (spreads.length < FEWEST) return problem(shortage(chart, spreads.length));
  requireEqualSizes(chart, chosen, equalSize);

  const { sigma, degreesOfFreedom } = sigmaBy(chosen, spreads, equalSize ?? 0);
  if (sigma === 0) return problem({ code: "no-variation" });
  return computed({
    chart,
    centre: meanOfReadings(subgroups),
    sigma,
    estimator: chosen,
    degreesOfFreedom,
    subgroupSize: sizeOfAll(subgroups),
  });
}

function sigmaBy(estimator: Estimator, subgroups: readonly SubgroupSummary[], size: number): SigmaEstimate {
  switch (estimator) {
    case "mean-range":
      return sigmaFromMeanRange(subgroups, size);
    case "weighted-range":
      return sigmaFromWeightedRange(subgroups);
    case "mean-sd":
      return sigmaFromMeanSd(subgroups, size);
    case "pooled-sd":
      return sigmaFromPooledSd(subgroups);
    case "mean-moving-range":
      return sigmaFromMeanMovingRange(subgroups.map((subgroup) => subgroup.mean));
    case "median-moving-range":
      return sigmaFromMedianMovingRange(subgroups.map((subgroup) => subgroup.mean));
  }
}

/** Σ n·x̄ / Σ n, with the rounding of the first sum taken out by a second. */
function meanOfReadings(subgroups: readonly SubgroupSummary[]): number {
  let readings = 0;
  let sum = 0;
  for (const { size, mean } of subgroups) {
    readings += size;
    sum += size * mean;
  }
  const first = sum / readings;
  let residual = 0;
  for (const { size, mean } of subgroups) residual += size * (mean - first);
  return first + residual / readings;
}

function usualEstimator(chart: ChartKind, equalSize: number | null): Estimator {
  const [forEqual, forUnequal] = ESTIMATORS_OF[chart];
  return chart === "i-mr" || equalSize !== null ? forEqual! : forUnequal!;
}

/** The size that all subgroups share; null when they differ or there are none. */
function sizeOfAll(subgroups: readonly SubgroupSummary[]): number | null {
  const size = subgroups[0]?.size ?? null;
  return subgroups.every((subgroup) => subgroup.size === size) ? size : null;
}

function shortage(chart: ChartKind, got: number): Problem {
  return { code: chart === "i-mr" ? "too-few-readings" : "too-few-subgroups", needed: FEWEST, got };
}

function requireOffered(chart: ChartKind, estimator: Estimator): void {
  const offered = ESTIMATORS_OF[chart];
  if (!offered.includes(estimator)) {
    throw new InvalidInput("estimateLimits", "estimator", estimator, `one of ${offered.join(", ")}`);
  }
}

function requireEqualSizes(chart: ChartKind, estimator: Estimator, equalSize: number | null): void {
  const needsEqual = estimator === "mean-range" || estimator === "mean-sd";
  if (needsEqual && equalSize === null) {
    const other = ESTIMATORS_OF[chart][1]!;
    throw new InvalidInput("estimateLimits", "estimator", estimator, `${other} for unequal subgroups`);
  }
}

function requireSummaries(chart: ChartKind, subgroups: readonly SubgroupSummary[]): void {
  if (!CHART_KINDS.includes(chart)) {
    throw new InvalidInput("estimateLimits", "chart", chart, `one of ${CHART_KINDS.join(", ")}`);
  }
  const largest = chart === "i-mr" ? 1 : undefined;
  subgroups.forEach((subgroup, i) => {
    const { size, mean, range, sd } = subgroup;
    // Texts are made only for a fault: a long history passes here with every estimate.
    if (!Number.isInteger(size) || size < 1 || size > (largest ?? size)) {
      requireCount("estimateLimits", `subgroups[${i}].size`, size, 1, largest);
    }
    if (!Number.isFinite(mean + range + sd)) {
      requireFiniteNumbers(`estimateLimits (subgroups[${i}])`, { mean, range, sd });
    }
  });
}
