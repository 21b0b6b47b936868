/**
 * A continuous distribution with its parameters filled in, over the unit of its argument.
 *
 * Both tails are computed by themselves and never as one minus the other, so that a part in 10¹² keeps its
 * digits. Outside its support a distribution has density 0 and tails of 0 and 1.
 */
export type Distribution = {
  /** P(X ≤ x). */
  cdf(x: number): number;
  /** P(X > x). */
  upperTail(x: number): number;
  density(x: number): number;
  /** ln of the density, also where the density is below the smallest double. */
  logDensity(x: number): number;
  /** The x with P(X ≤ x) = p; throws `InvalidInput` unless 0 < p < 1. */
  quantile(p: number): number;
  /** The x with P(X > x) = q, exact for tiny q where 1 − q would lose its digits. */
  upperQuantile(q: number): number;
};
