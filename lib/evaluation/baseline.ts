import type { Computed } from "../computed";
import { type EstimatedLimits, estimateLimits } from "../limits/estimate-limits";
import type { Estimator } from "../limits/estimators";
import { type SubgroupSummary, summariseSubgroup } from "../subgroups/summarise";
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
    estimator,
  }: {
    setup: EvaluationSetup;
    from: number;
    to: number;
    estimator?: Estimator | undefined;
  },
): Baseline {
  const { values, formed, points } = evaluation;
  const summaries: SubgroupSummary[] = [];
  for (let number = 0; number < points.count; number++) {
    const at = points.at[number] as number;
    if (at < from || at > to || points.excluded[number]) continue;
    summaries.push(summariseSubgroup(values, formed, number));
  }
  return {
    subgroups: summaries.length,
    limits: estimateLimits({ chart: setup.plan.chart, subgroups: summaries, estimator }),
  };
}
