import quantile from "@stdlib/stats-base-dists-beta-quantile";
import { requirePositive, requireProbability } from "./checks";

/**
 * The x with P(X ≤ x) = p for X ~ Beta(α, β): exact limits of a fraction are such quantiles.
 *
 * Measured against 40-digit arithmetic, relative error of the quantile, p from 1e-12 to 0.975: 2e-15 for whole
 * α and β with a sum up to 1001, as exact limits of a fraction have them; 1.3e-14 for α and β from 0.05 to
 * 30.5, the worst of it at 0.05. Sums beyond 1001 were measured for fractions near 0 and 1 only.
 *
 * @throws InvalidInput unless 0 < p < 1 and α, β > 0
 */
export function betaQuantile(p: number, { alpha, beta }: { alpha: number; beta: number }): number {
  requireProbability("betaQuantile", "p", p);
  requirePositive("betaQuantile", { alpha, beta });
  return quantile(p, alpha, beta);
}
