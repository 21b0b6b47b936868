import { c4, relativeSpreadOfSd } from "../constants/c4";
import type { SubgroupSummary } from "../subgroups/summarise";
import { mean } from "../summary/moments";
import { equivalentDegreesOfFreedom } from "./equivalent-degrees-of-freedom";
import type { SigmaEstimate } from "./estimators";

/**
 * Sigma from the mean standard deviation of k subgroups of equal size n.
 *
 *   σ̂ = s̄ / c4(n)        Var(σ̂)/σ² = (1 − c4²)/c4² / k
 *
 * A single disturbed subgroup enters with its standard deviation, not with its square, so it weighs
 * less here than in the pooled estimate.
 *
 * Unit of the readings. Degrees of freedom by matching mean and variance to a chi variable, as for
 * ranges.
 *
 * Source: ASTM E2587 and ISO 7870-2 (from memory).
 */
export function sigmaFromMeanSd(subgroups: readonly SubgroupSummary[], size: number): SigmaEstimate {
  return {
    sigma: mean(subgroups.map((subgroup) => subgroup.sd)) / c4(size),
    degreesOfFreedom: equivalentDegreesOfFreedom(relativeSpreadOfSd(size) ** 2 / subgroups.length),
  };
}
