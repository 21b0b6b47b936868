import { bayesFactorAtZero, bayesFactorFrom } from "./bayes-factor";
import { SPREAD_SLAB } from "./settings";

/*
 * Do some pieces scatter more than all others?
 *
 * The cube root of a variance ratio is nearly normal: z = ((1 − v_b) q − (1 − v_a)) / √(v_b q² + v_a),
 * q = (s²_a/s²_b)^(1/3), v = 2κ/(9 ν), where κ (1 to 2) corrects the degrees of freedom ν for tails heavier than normal.
 *
 * Source: E. B. Wilson and M. M. Hilferty, Proc. Nat. Acad. Sci. 17 (1931) 684-688 (from memory).
 */

const PIECES_AFTER = 4;
const PIECES_BESIDE = 8;
const LEAST_VARIANCE = 1e-6;

/** Degrees of freedom too few to compare. */
export function tooFew(after: number, beside: number): boolean {
  return !(after > PIECES_AFTER && beside > PIECES_BESIDE);
}

/** q, from two variances. */
export function rootOfRatio(after: number, beside: number): number {
  return Math.cbrt(Math.max(after, LEAST_VARIANCE) / Math.max(beside, LEAST_VARIANCE));
}

/** v: the variance of the cube root of a variance of expectation 1. */
export function uncertaintyOf(freedom: number, tails: number): number {
  return (2 * tails) / (9 * freedom);
}

/** z, positive where the pieces scatter more than the others. */
export function scatterScore(q: number, va: number, vb: number): number {
  return ((1 - vb) * q - (1 - va)) / Math.sqrt(vb * q * q + va);
}

const MORE = Math.log(1.6);
const LESS = Math.log(0.4);

/** Log Bayes factor of more scatter. One-sided: less scatter speaks against, but never strongly. */
export function scatterFactor(z: number, information: number, inflation: number): number {
  const g = SPREAD_SLAB * information;
  return scatterFactorFrom(bayesFactorAtZero(g), z / inflation, g);
}

/** The same from the value at z = 0 of a Bayes factor, which all features of a hypothesis have in common. */
export function scatterFactorFrom(atZero: number, z: number, g: number): number {
  return z > 0 ? bayesFactorFrom(atZero, z, g) + MORE : atZero + LESS;
}
