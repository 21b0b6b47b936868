import { regularizedBeta } from "../distributions/incomplete-beta";
import { regularizedGamma } from "../distributions/incomplete-gamma";
import { normalUpperTail } from "../distributions/normal";

/** Chances of whole-number counts: X ≤ k and X > k. Both keep their digits far out. */
export type CountTails = (k: number) => { atMost: number; above: number };

/** Nonconforming pieces among n: binomial, P(X > k) = I_p(k + 1, n − k). */
export function binomialTails(n: number, p: number): CountTails {
  return (k) => {
    if (k < 0) return { atMost: 0, above: 1 };
    if (k >= n) return { atMost: 1, above: 0 };
    const { lower, upper } = regularizedBeta({ x: p, y: 1 - p, a: k + 1, b: n - k });
    return { atMost: upper, above: lower };
  };
}

/** Nonconformities with a mean of μ: Poisson, P(X > k) = γ(k + 1, μ)/Γ(k + 1). */
export function poissonTails(mean: number): CountTails {
  return (k) => {
    if (k < 0) return { atMost: 0, above: 1 };
    const { lower, upper } = regularizedGamma(k + 1, mean);
    return { atMost: upper, above: lower };
  };
}

/** Chance beyond one 3-sigma limit of a normal chart, which probability limits take over for counts. */
export const CHANCE_PER_SIDE = normalUpperTail(3);

/**
 * The widest counts that are no signal, each with at most `CHANCE_PER_SIDE` beyond it: the smallest k with
 * P(X ≤ k) above it, and the smallest k with P(X > k) not above it.
 *
 * @param near where to begin the searches; the answer does not depend on it
 */
export function probabilityLimits(
  tails: CountTails,
  near: { lower: number; upper: number },
): { lower: number; upper: number } {
  let lower = Math.max(0, Math.floor(near.lower));
  while (lower > 0 && tails(lower - 1).atMost > CHANCE_PER_SIDE) lower--;
  while (tails(lower).atMost <= CHANCE_PER_SIDE) lower++;
  let upper = Math.max(0, Math.floor(near.upper));
  while (upper > 0 && tails(upper - 1).above <= CHANCE_PER_SIDE) upper--;
  while (tails(upper).above > CHANCE_PER_SIDE) upper++;
  return { lower, upper };
}
