import { relativeRange } from "../constants/relative-range";
import type { SubgroupSummary } from "../subgroups/summarise";
import { equivalentDegreesOfFreedom } from "./equivalent-degrees-of-freedom";
import type { SigmaEstimate } from "./estimators";

/**
 * Sigma from the ranges of subgroups of unequal size.
 *
 *   σ̂ = Σ w·R/d2(n) / Σ w,   w = (d2(n)/d3(n))²        Var(σ̂)/σ² = 1 / Σ w
 *
 * Each R/d2(n) estimates σ without bias and with the variance (d3/d2)²σ², so these are the weights of
 * least variance. With equal sizes the result is the mean range over d2.
 *
 * Unit of the readings. Degrees of freedom by Patnaik's approximation. Subgroups of one are left out by
 * the caller: they have no range.
 *
 * Source: I. W. Burr, Control charts for measurements with varying sample sizes, Journal of Quality
 * Technology 1 (1969) 163-167 (from memory).
 */
export function sigmaFromWeightedRange(subgroups: readonly SubgroupSummary[]): SigmaEstimate {
  let weighted = 0;
  let weights = 0;
  for (const { size, range } of subgroups) {
    const { d2, d3 } = relativeRange(size);
    const weight = (d2 / d3) ** 2;
    weighted += (weight * range) / d2;
    weights += weight;
  }
  return { sigma: weighted / weights, degreesOfFreedom: equivalentDegreesOfFreedom(1 / weights) };
}
