import type { Computed } from "../computed";
import { type EstimatedLimits, estimateLimits } from "../limits/estimate-limits";
import type { Estimator } from "../limits/estimators";
import { type SubgroupSummary, summarise } from "../subgroups/summarise";
import type { Evaluation } from "./evaluate";
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
    most = null,
    estimator,
  }: {
    setup: EvaluationSetup;
    from: number;
    to: number;
    /** No more than so many of the first; null for all. */
    most?: number | null;
    estimator?: Estimator | undefined;
  },
): Baseline {
  const { points } = evaluation;
  const summaries: SubgroupSummary[] = [];
  for (let number = 0; number < points.count && summaries.length < (most ?? points.count); number++) {
    const at = points.at[number] as number;
    if (at < from || at > to || points.excluded[number]) continue;
    summaries.push(summarise(readingsOf(evaluation, number)));
  }
  return {
    subgroups: summaries.length,
    limits: estimateLimits({ chart: setup.plan.chart, subgroups: summaries, estimator }),
  };
}

/** The charted readings of one subgroup, in time order. */
export function readingsOf({ values, formed }: Evaluation, number: number): number[] {
  const readings: number[] = [];
  for (let k = formed.start[number] as number; k < (formed.start[number + 1] as number); k++) {
    readings.push(values[formed.order[k] as number] as number);
  }
  return readings;
}
