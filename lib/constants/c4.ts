import gammaln from "@stdlib/math-base-special-gammaln";
import { InvalidInput, requireCount } from "../checks";

/** From here on the series is exact to double precision; below it log-gamma loses no more than 1e-14. */
const SERIES_FROM = 40;

/**
 * The mean of a sample standard deviation over σ for n readings from a normal process; a pure number.
 *
 *   c4 = √(2/(n−1)) · Γ(n/2) / Γ((n−1)/2)
 *
 * Any n from 2 on.
 *
 * Source: ASTM E2587, factors for control limits (from memory).
 *
 * @throws InvalidInput when n is not a whole number of at least 2
 */
export function c4(n: number): number {
  requireCount("c4", "n", n, 2);
  return Math.exp(logMeanChi(n - 1));
}

/**
 * SD(s)/E(s) = √(1 − c4²)/c4 for n readings, through −expm1 so that a c4 near 1 costs no digits.
 *
 * @throws InvalidInput when n is not a whole number of at least 2
 */
export function relativeSpreadOfSd(n: number): number {
  requireCount("relativeSpreadOfSd", "n", n, 2);
  return Math.sqrt(relativeVarianceOfChi(n - 1));
}

/**
 * Var(χ)/E(χ)² of a chi variable with ν degrees of freedom, ν real and above 0.
 *
 * It decreases from infinity towards 1/(2ν), which is what makes an equivalent ν unique.
 *
 * @throws InvalidInput when ν is not a finite number above 0
 */
export function relativeVarianceOfChi(degreesOfFreedom: number): number {
  return Math.expm1(-2 * logMeanChi(degreesOfFreedom));
}

/**
 * ln E(χ/√ν). For large ν the two log-gammas are large and nearly equal, so the difference is taken
 * from its own series; Abramowitz and Stegun 6.1.47 with a = 1/2, b = 0 (from memory).
 */
function logMeanChi(degreesOfFreedom: number): number {
  if (!Number.isFinite(degreesOfFreedom) || degreesOfFreedom <= 0) {
    throw new InvalidInput("logMeanChi", "degreesOfFreedom", degreesOfFreedom, "a finite number above 0");
  }
  const a = degreesOfFreedom / 2;
  if (degreesOfFreedom < SERIES_FROM) return gammaln(a + 0.5) - gammaln(a) - Math.log(a) / 2;
  const q = 1 / (a * a);
  return (-1 / 8 + q * (1 / 192 + q * (-1 / 640 + q * (17 / 14336 - (q * 31) / 18432)))) / a;
}
