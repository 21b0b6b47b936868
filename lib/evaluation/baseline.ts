import type { Computed } from "../computed";
import { type EstimatedLimits, estimateLimits } from "../limits/estimate-limits";
import type { Estimator } from "../limits/estimators";
import { summariseSubgroup } from "../subgroups/summarise";
import type { Evaluation, Points } from "./evaluate";
import type { EvaluationSetup } from "./setup";

export type Baseline = {
  /** Subgroups in the window that are not excluded. */
  subgroups: number;
  limits: Computed<EstimatedLimits>;
};

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
    estimator?: Estimator | undefined;
  },
): Baseline {
  const { values, formed, points } = evaluation;
  const summaries = countingBetween(points, { from, to }).map((number) =>
    summariseSubgroup(values, formed, number),
  );
  return {
    subgroups: summaries.length,
    limits: estimateLimits({ chart: setup.plan.chart, subgroups: summaries, estimator }),
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
