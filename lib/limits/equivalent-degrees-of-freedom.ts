import { InvalidInput } from "../checks";
import { relativeVarianceOfChi } from "../constants/c4";

const FEWEST = 1e-3;
const MOST = 1e12;

/**
 * The degrees of freedom ν of the chi variable that scatters as a sigma estimate does.
 *
 * An estimate built from ranges is nearly distributed as c·χ_ν/√ν. Matching mean and variance gives ν
 * as the root of
 *
 *   Var(χ_ν)/E(χ_ν)² = Var(σ̂)/E(σ̂)²
 *
 * solved exactly here rather than by the usual first terms of a series. With it the chi-square and t
 * intervals made for a sample standard deviation serve a range estimate as well.
 *
 * Source: P. B. Patnaik, Biometrika 37 (1950) 78-87 (from memory).
 *
 * @param relativeVariance Var(σ̂)/E(σ̂)², a pure number
 * @throws InvalidInput when it is not above 0, or so near 0 or so large that no ν fits
 */
export function equivalentDegreesOfFreedom(relativeVariance: number): number {
  const fits =
    relativeVariance < relativeVarianceOfChi(FEWEST) && relativeVariance > relativeVarianceOfChi(MOST);
  if (!fits) {
    throw new InvalidInput(
      "equivalentDegreesOfFreedom",
      "relativeVariance",
      relativeVariance,
      "between 5e-13 and 600",
    );
  }
  // Bisection on ln ν: the left side falls steadily, and sixty halvings reach the last digit.
  let low = Math.log(FEWEST);
  let high = Math.log(MOST);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (relativeVarianceOfChi(Math.exp(middle)) > relativeVariance) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
