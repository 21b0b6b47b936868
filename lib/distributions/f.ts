import betaCdf from "@stdlib/stats-base-dists-beta-cdf";
import { requirePositive } from "./checks";

/**
 * P(F > x) for a ratio of mean squares, the p-value of an analysis of variance.
 *
 *   P(F > x) = I_w(d₂/2, d₁/2),  w = d₂ / (d₂ + d₁x)
 *
 * The incomplete beta function with swapped arguments gives the upper tail itself, so p = 1e-30 keeps its
 * digits; where the tail is near 1 the lower one is the small one and is taken instead. (The library's own
 * F distribution returns 0 for x = 1e-24 and has no upper tail.)
 *
 * Source: Abramowitz and Stegun, 26.6.2 (from memory).
 *
 * @throws InvalidInput when x is not a number or the degrees of freedom are not positive
 */
export function fUpperTail(
  x: number,
  { numerator, denominator }: { numerator: number; denominator: number },
): number {
  requirePositive("fUpperTail", { numerator, denominator });
  if (x <= 0) return 1;
  if (x === Number.POSITIVE_INFINITY) return 0;
  const scaled = numerator * x;
  return scaled < denominator
    ? 1 - betaCdf(scaled / (denominator + scaled), numerator / 2, denominator / 2)
    : betaCdf(denominator / (denominator + scaled), denominator / 2, numerator / 2);
}
