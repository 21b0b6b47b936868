import { InvalidInput, requireCount, requireFinite, requireFiniteNumbers } from "../checks";
import { betaQuantile } from "../distributions/beta";
import { normalCdf, normalUpperTail } from "../distributions/normal";
import type { Tolerance } from "../plan/feature-plan";
import type { Interval } from "./intervals";

/** Per side of the tolerance; null where there is no limit. */
export type PerSide<T> = { below: T | null; above: T | null };

/**
 * Fractions expected outside each tolerance limit if the process is normal.
 *
 * Far tails keep their digits: 1e-12 is 1e-12, not 0. Multiply by 10⁶ for parts per million.
 *
 * @throws InvalidInput when a number is not finite or sigma is not positive
 */
export function expectedOutside({
  mean,
  sigma,
  tolerance,
}: {
  mean: number;
  sigma: number;
  tolerance: Tolerance;
}): PerSide<number> {
  requireFiniteNumbers("expectedOutside", { mean, sigma });
  if (sigma <= 0) throw new InvalidInput("expectedOutside", "sigma", sigma, "positive");
  return {
    below: tolerance.lower === null ? null : normalCdf((tolerance.lower - mean) / sigma),
    above: tolerance.upper === null ? null : normalUpperTail((tolerance.upper - mean) / sigma),
  };
}

/**
 * Readings counted outside each tolerance limit. A reading on the limit is inside.
 *
 * @throws InvalidInput when a reading is not a finite number
 */
export function observedOutside({
  values,
  tolerance,
}: {
  values: ArrayLike<number>;
  tolerance: Tolerance;
}): PerSide<number> {
  requireFinite("observedOutside", "values", values);
  const { lower, upper } = tolerance;
  let below = 0;
  let above = 0;
  for (let i = 0; i < values.length; i++) {
    if (lower !== null && values[i]! < lower) below++;
    else if (upper !== null && values[i]! > upper) above++;
  }
  return { below: lower === null ? null : below, above: upper === null ? null : above };
}

/**
 * Exact two-sided interval of a fraction of which `count` were seen among `of`.
 *
 *   lower = Beta quantile((1 − c)/2; k, n − k + 1),  upper = Beta quantile((1 + c)/2; k + 1, n − k)
 *
 * None seen is not none there: 0 of 100 leaves up to 3.6 % at 95 % confidence.
 *
 * Source: C. J. Clopper and E. S. Pearson, Biometrika 26 (1934) 404-413 (from memory).
 *
 * @throws InvalidInput when count exceeds `of` or the confidence is not between 0 and 1
 */
export function clopperPearson({
  count,
  of,
  confidence,
}: {
  count: number;
  of: number;
  confidence: number;
}): Interval {
  requireCount("clopperPearson", "of", of, 1);
  requireCount("clopperPearson", "count", count, 0);
  if (count > of) throw new InvalidInput("clopperPearson", "count", count, `at most ${of}`);
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput("clopperPearson", "confidence", confidence, "a probability between 0 and 1");
  }
  const tail = (1 - confidence) / 2;
  return [
    count === 0 ? 0 : betaQuantile(tail, { alpha: count, beta: of - count + 1 }),
    count === of ? 1 : betaQuantile(1 - tail, { alpha: count + 1, beta: of - count }),
  ];
}
