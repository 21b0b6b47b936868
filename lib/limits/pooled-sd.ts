import type { SubgroupSummary } from "../subgroups/summarise";
import type { SigmaEstimate } from "./estimators";

/**
 * Sigma pooled over subgroups of any size.
 *
 *   σ̂ = √( Σ (n−1)·s² / ν ),   ν = Σ (n−1)
 *
 * σ̂² is unbiased and ν·σ̂²/σ² is exactly chi-square, which is what intervals of capability indices rest
 * on. Therefore no c4 is taken: σ̂ itself is low by the factor c4(ν+1), about 1 − 1/(4ν), which is 0.25 %
 * at 100 degrees of freedom. Books that divide by c4(ν+1) differ by that much.
 *
 * Unit of the readings. Subgroups of one add nothing.
 *
 * Source: ASTM E2587 (from memory); NIST/SEMATECH e-Handbook, pooled standard deviation (from memory).
 */
export function sigmaFromPooledSd(subgroups: readonly SubgroupSummary[]): SigmaEstimate {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const { size, sd } of subgroups) {
    squares += (size - 1) * sd * sd;
    degreesOfFreedom += size - 1;
  }
  return { sigma: Math.sqrt(squares / degreesOfFreedom), degreesOfFreedom };
}
