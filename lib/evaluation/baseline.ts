import { InvalidInput } from "../checks";
import type { Computed } from "../computed";
import { type CountLimits, countLimits } from "../limits/count-limits";
import { type EstimatedLimits, estimateLimits } from "../limits/estimate-limits";
import type { LimitsEstimator } from "../limits/estimators";
import { type LotMeanLimits, lotMeanLimits } from "../limits/lot-mean-limits";
import type { FeaturePlan } from "../plan/feature-plan";
import type { SubgroupSummary } from "../subgroups/summarise";
import { summariseSubgroup } from "../subgroups/summarise";
import type { Evaluation, Points } from "./evaluation";
import type { EvaluationSetup } from "./setup";

export type Baseline = {
  /** Subgroups in the window that are not excluded. */
  subgroups: number;
  limits: Computed<BaselineLimits>;
};

export type BaselineLimits = (EstimatedLimits | CountLimits | LotMeanLimits) & { betweenLots?: number };

/**
 * Limits of a plan's chart from subgroups that count; `estimator` null for the usual one.
 *
 * @throws InvalidInput when the estimator does not go with the chart, and as the estimators do
 */
export function limitsFrom(
  { chart, counts }: Pick<FeaturePlan, "chart" | "counts">,
  subgroups: readonly SubgroupSummary[],
  estimator: LimitsEstimator | null = null,
): Computed<BaselineLimits> {
  if (counts) return countLimits(counts, subgroups);
  if (estimator === "between-lots") {
    if (chart === "i-mr") {
      throw new InvalidInput("limitsFrom", "estimator", estimator, "one of single readings");
    }
    return lotMeanLimits(chart, subgroups);
  }
  if (estimator === "binomial" || estimator === "poisson") {
    throw new InvalidInput("limitsFrom", "estimator", estimator, "one for measured values");
  }
  return estimateLimits({ chart, subgroups, estimator: estimator ?? undefined });
}

/**
 * Limits from the subgroups whose last reading lies in [from, to], without the excluded ones.
 *
 * How many subgroups make limits final is for the caller to say; `subgroups` counts them.
 */
export function baselineLimits(
  evaluation: Evaluation,
  {
    setup,
    from,
    to,
    estimator,
  }: {
    setup: EvaluationSetup;
    from: number;
    to: number;
    estimator?: LimitsEstimator | undefined;
  },
): Baseline {
  const { values, formed, points } = evaluation;
  const { counts } = setup.plan;
  const summaries = countingBetween(points, { from, to }).map((number) => {
    const summary = summariseSubgroup(values, formed, number);
    return counts ? { ...summary, size: points.size[number]! } : summary;
  });
  return {
    subgroups: summaries.length,
    limits: limitsFrom(setup.plan, summaries, estimator),
  };
}

/** The subgroups of a baseline: those whose last reading lies in [from, to] and that are not excluded. */
export function countingBetween(
  { count, at, excluded }: Pick<Points, "count" | "at" | "excluded">,
  { from, to }: { from: number; to: number },
): number[] {
  const numbers: number[] = [];
  for (let number = 0; number < count; number++) {
    if (at[number]! >= from && at[number]! <= to && excluded[number] === 0) numbers.push(number);
  }
  return numbers;
}
