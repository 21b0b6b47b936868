import type { Computed } from "../computed";
import { c4 } from "../constants/c4";
import { D2_OF_TWO, MEDIAN_MOVING_RANGE } from "../constants/control-chart-constants";
import { relativeRange } from "../constants/relative-range";
import { type EstimatedLimits, estimateLimits } from "../limits/estimate-limits";
import { ESTIMATORS_OF, type Estimator } from "../limits/estimators";
import { movingRanges } from "../limits/moving-ranges";
import type { LimitsVersion } from "../plan/feature-plan";
import { type SubgroupSummary, summariseSubgroup } from "../subgroups/summarise";
import { sizeTally } from "../subgroups/usual-size";
import { mean, median } from "../summary/moments";
import { countingBetween } from "./baseline";
import type { BaselineWindow } from "./baseline-preview";
import type { Evaluation, Points } from "./evaluation";
import { type EvaluationSetup, TRIAL_SUBGROUPS, TRIAL_VERSION } from "./setup";
import { isEstimator } from "./trial-limits";

/** The way from a baseline's readings to its limits, to be shown with a feature's own figures. */
export type LimitsWorking = {
  version: LimitsVersion;
  estimator: Estimator;
  isTrial: boolean;
  /** First and last subgroup of the baseline that count; null when none is left. */
  window: BaselineWindow | null;
  subgroups: number;
  readings: number;
  /** Sizes of the subgroups that count, the most frequent first. */
  sizes: { size: number; subgroups: number }[];
  /** The mean (or median) spread and what it is divided by; null for estimators that are no quotient. */
  quotient: { spread: number; divisor: number } | null;
  /**
   * What the same baseline gives today by the same estimator; null when chart or subgroup size in the
   * plan have changed, so that it cannot be taken again.
   */
  today: Computed<EstimatedLimits> | null;
  /** Today's figures are those in force, to nine digits. */
  agrees: boolean;
};

/** Differences below this share of sigma come from rounding. */
const SAME = 1e-9;

/**
 * How the limits in force came about. Null while there are none.
 *
 * Frozen limits are kept as they were frozen. Exclusions, corrections or late measurements can change
 * what their baseline would give; `agrees` tells, so that a page never shows a calculation beside a
 * result that does not follow from it.
 *
 * @param frozen baselines of the frozen versions, as moments of last readings
 */
export function limitsWorking(
  evaluation: Evaluation,
  {
    setup,
    frozen,
  }: {
    setup: EvaluationSetup;
    frozen: readonly FrozenBaseline[];
  },
): LimitsWorking | null {
  const { points, progress, values, formed } = evaluation;
  const version = progress.limits;
  if (!version || !isEstimator(version.estimator)) return null;
  const estimator = version.estimator;
  const isTrial = version.version === TRIAL_VERSION;
  const numbers = baselineNumbers(points, { version, frozen });
  const summaries = numbers.map((number) => summariseSubgroup(values, formed, number));
  const sizes = sizeTally(summaries.map(({ size }) => size));
  const today = canBeTakenAgain(version, { setup, estimator, sizes })
    ? estimateLimits({ chart: setup.plan.chart, subgroups: summaries, estimator })
    : null;
  return {
    version,
    estimator,
    isTrial,
    window: numbers.length > 0 ? { from: numbers[0]!, to: numbers.at(-1)! } : null,
    subgroups: summaries.length,
    readings: summaries.reduce((sum, { size }) => sum + size, 0),
    sizes,
    quotient: today?.ok ? quotientOf(estimator, summaries) : null,
    today,
    agrees: today?.ok === true && isSame(today.value, version),
  };
}

/** What a frozen version of the limits rests on, as moments of last readings. */
export type FrozenBaseline = { version: number; baselineFrom: number; baselineTo: number };

/** The subgroups that a version of the limits rests on. */
export function baselineNumbers(
  points: Points,
  {
    version,
    frozen,
  }: {
    version: LimitsVersion;
    frozen: readonly FrozenBaseline[];
  },
): number[] {
  return version.version === TRIAL_VERSION ? firstCounting(points) : baselineOf(points, { version, frozen });
}

function firstCounting({ count, excluded }: Points): number[] {
  const numbers: number[] = [];
  for (let number = 0; number < count && numbers.length < TRIAL_SUBGROUPS; number++) {
    if (excluded[number] === 0) numbers.push(number);
  }
  return numbers;
}

function baselineOf(
  points: Points,
  {
    version,
    frozen,
  }: {
    version: LimitsVersion;
    frozen: readonly FrozenBaseline[];
  },
): number[] {
  const row = frozen.find((one) => one.version === version.version);
  return row ? countingBetween(points, { from: row.baselineFrom, to: row.baselineTo }) : [];
}

function canBeTakenAgain(
  version: LimitsVersion,
  {
    setup,
    estimator,
    sizes,
  }: { setup: EvaluationSetup; estimator: Estimator; sizes: LimitsWorking["sizes"] },
): boolean {
  const { chart } = setup.plan;
  if (version.chart !== chart || !ESTIMATORS_OF[chart].includes(estimator)) return false;
  const needsEqual = estimator === "mean-range" || estimator === "mean-sd";
  return !needsEqual || sizes.filter(({ size }) => size > 1).length === 1;
}

/** Subgroups of one count for the centre only, as in `estimateLimits`. */
function quotientOf(estimator: Estimator, summaries: readonly SubgroupSummary[]): LimitsWorking["quotient"] {
  const spreads = summaries.filter(({ size }) => size > 1);
  const size = spreads[0]?.size ?? 1;
  const singles = summaries.map((summary) => summary.mean);
  switch (estimator) {
    case "mean-range":
      return { spread: mean(spreads.map(({ range }) => range)), divisor: relativeRange(size).d2 };
    case "mean-sd":
      return { spread: mean(spreads.map(({ sd }) => sd)), divisor: c4(size) };
    case "mean-moving-range":
      return { spread: mean(movingRanges(singles)), divisor: D2_OF_TWO };
    case "median-moving-range":
      return { spread: median(movingRanges(singles)), divisor: MEDIAN_MOVING_RANGE };
    case "weighted-range":
    case "pooled-sd":
      return null;
  }
}

function isSame(today: EstimatedLimits, { centre, sigma }: LimitsVersion): boolean {
  return Math.abs(today.sigma - sigma) <= SAME * sigma && Math.abs(today.centre - centre) <= SAME * sigma;
}
