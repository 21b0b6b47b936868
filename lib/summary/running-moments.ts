import { InvalidInput } from "../checks";

/** Count, mean and sum of squared deviations so far: plain data, so that it can be stored and resumed. */
export type RunningMoments = { n: number; mean: number; m2: number };

export function startMoments(): RunningMoments {
  return { n: 0, mean: 0, m2: 0 };
}

/**
 * Takes one more reading into `moments`, which it changes.
 *
 *   mean ← mean + (x − mean)/n        m2 ← m2 + (x − old mean)(x − new mean)
 *
 * For series that arrive one by one. Where all readings are at hand, lib/summary/moments is a little
 * more accurate.
 *
 * Source: B. P. Welford, Technometrics 4 (1962) 419-420 (from memory).
 *
 * @throws InvalidInput when the value is not a finite number
 */
export function add(moments: RunningMoments, value: number): void {
  if (!Number.isFinite(value)) throw new InvalidInput("add", "value", value, "a finite number");
  moments.n += 1;
  const before = value - moments.mean;
  moments.mean += before / moments.n;
  moments.m2 += before * (value - moments.mean);
}

/**
 * The sample variance, m2/(n − 1), of what was added so far.
 *
 * @throws InvalidInput below two readings
 */
export function sampleVarianceOf(moments: RunningMoments): number {
  if (moments.n < 2) throw new InvalidInput("sampleVarianceOf", "moments.n", moments.n, "at least 2");
  return moments.m2 / (moments.n - 1);
}
