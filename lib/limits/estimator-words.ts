import { estimators as english } from "../words/en/estimators";
import type { Estimator, LimitsEstimator } from "./estimators";

/** How the estimator of a limits version is named in a sentence or a list. */
export function limitsEstimatorName(
  estimator: LimitsEstimator,
  { within, other }: typeof english = english,
): string {
  return estimator in other ? other[estimator as keyof typeof other] : within[estimator as Estimator].name;
}
