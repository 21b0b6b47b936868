import { type Computed, computed } from "../computed";
import { ESTIMATORS, type Estimator } from "../limits/estimators";
import type { FeaturePlan, LimitsVersion } from "../plan/feature-plan";
import type { SubgroupSummary } from "../subgroups/summarise";
import { limitsFrom } from "./baseline";
import { TRIAL_VERSION } from "./setup";

/** Earlier than any measurement: what is in force from here judges everything. */
export const FROM_THE_START = Number.MIN_SAFE_INTEGER;

/** Limits from the given subgroups that nobody has frozen; every page calls them trial limits. */
export function trialLimits(
  plan: Pick<FeaturePlan, "chart" | "counts">,
  subgroups: readonly SubgroupSummary[],
): Computed<LimitsVersion> {
  const estimated = limitsFrom(plan, subgroups);
  if (!estimated.ok) return estimated;
  const { chart, centre, sigma, estimator } = estimated.value;
  return computed({ version: TRIAL_VERSION, effectiveFrom: FROM_THE_START, chart, centre, sigma, estimator });
}

/** The name of an estimator as it was stored, checked. */
export function isEstimator(name: string): name is Estimator {
  return (ESTIMATORS as readonly string[]).includes(name);
}
