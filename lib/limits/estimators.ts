import type { ChartKind } from "../plan/feature-plan";

/** The ways to estimate the within-subgroup sigma, by the names under which limits versions keep them. */
export const ESTIMATORS = [
  "mean-range",
  "weighted-range",
  "mean-sd",
  "pooled-sd",
  "mean-moving-range",
  "median-moving-range",
] as const;
export type Estimator = (typeof ESTIMATORS)[number];

/** Beside them, what a limits version can rest on: lot means, or the distribution of counts. */
export const LIMITS_ESTIMATORS = [...ESTIMATORS, "between-lots", "binomial", "poisson"] as const;
export type LimitsEstimator = (typeof LIMITS_ESTIMATORS)[number];

/** What each chart offers; the first is taken for equal, the second for unequal subgroup sizes. */
export const ESTIMATORS_OF: Readonly<Record<ChartKind, readonly Estimator[]>> = {
  "xbar-r": ["mean-range", "weighted-range", "pooled-sd"],
  "xbar-s": ["mean-sd", "pooled-sd"],
  "i-mr": ["mean-moving-range", "median-moving-range"],
};

/** Sigma of single readings within subgroups, in their unit, with the degrees of freedom behind it. */
export type SigmaEstimate = { sigma: number; degreesOfFreedom: number };
