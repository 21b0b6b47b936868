import { relativeRange } from "../constants/relative-range";
import type { SubgroupSummary } from "../subgroups/summarise";
import { mean } from "../summary/moments";
import { equivalentDegreesOfFreedom } from "./equivalent-degrees-of-freedom";
import type { SigmaEstimate } from "./estimators";

/**
 * Sigma from the mean range of k subgroups of equal size n.
 *
 *   σ̂ = R̄ / d2(n)        Var(σ̂)/σ² = (d3/d2)² / k
 *
 * The classic of the shop floor: it can be followed by hand, and up to about nine readings it loses
 * little against the standard deviation.
 *
 * Unit of the readings. Degrees of freedom by Patnaik's approximation.
 *
 * Source: ASTM E2587 and ISO 7870-2 (from memory).
 */
export function sigmaFromMeanRange(subgroups: readonly SubgroupSummary[], size: number): SigmaEstimate {
  const { d2, d3 } = relativeRange(size);
  return {
    sigma: mean(subgroups.map((subgroup) => subgroup.range)) / d2,
    degreesOfFreedom: equivalentDegreesOfFreedom((d3 / d2) ** 2 / subgroups.length),
  };
}
