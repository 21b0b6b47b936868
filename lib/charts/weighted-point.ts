import { InvalidInput, requireFiniteNumbers } from "../checks";
import { requireSigma } from "../limits/limits-for-size";

/**
 * A plotted mean of `size` readings, 1 for a single reading; of a count, its sample in usual ones. Null where missing or
 * excluded.
 */
export type MeanPoint = { mean: number; size: number } | null;

/** Where the process should be: `sigma` is that of single readings within subgroups, as limits versions have it. */
export type ProcessBasis = { centre: number; sigma: number };

export type Side = "up" | "down";

export function requireBasis(where: string, { centre, sigma }: ProcessBasis): void {
  requireFiniteNumbers(where, { centre });
  requireSigma(where, sigma);
}

export function requirePoint(where: string, { mean, size }: { mean: number; size: number }): void {
  if (!Number.isFinite(mean)) throw new InvalidInput(where, "mean", mean, "a finite number");
  if (!(size > 0)) throw new InvalidInput(where, "size", size, "above 0");
}
