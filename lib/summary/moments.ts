import { medianSorted } from "simple-statistics";
import { InvalidInput, requireFinite } from "../checks";

/**
 * Location and spread of a set of readings, in their unit. Every function throws `InvalidInput` when a
 * reading is not a finite number, or when there are too few: a skipped reading would change a figure
 * unseen.
 */

/**
 * The arithmetic mean, x̄ = Σx / n.
 *
 * A second pass adds the mean of the residuals, which takes out the rounding of the first sum: with a
 * large common offset (dimensions of hundreds of millimetres, spreads of microns) this is where a plain
 * sum loses its digits.
 *
 * Source: T. F. Chan, G. H. Golub and R. J. LeVeque, The American Statistician 37 (1983) 242-247 (from
 * memory).
 *
 * @throws InvalidInput when there is no reading
 */
export function mean(values: ArrayLike<number>): number {
  requireReadings("mean", values, 1);
  return centre("mean", values);
}

/**
 * The sample variance, s² = Σ(x − x̄)² / (n − 1), in the square of the unit. Two passes, with the sum of
 * the residuals taken off, as in Chan, Golub and LeVeque (1983, from memory).
 *
 * Readings that are all alike give exactly 0.
 *
 * @throws InvalidInput below two readings
 */
export function sampleVariance(values: ArrayLike<number>): number {
  requireReadings("sampleVariance", values, 2);
  return sumOfSquares("sampleVariance", values) / (values.length - 1);
}

/**
 * The sample standard deviation, s = √s², with n − 1 below. See `sampleVariance`.
 *
 * @throws InvalidInput below two readings
 */
export function sampleStandardDeviation(values: ArrayLike<number>): number {
  requireReadings("sampleStandardDeviation", values, 2);
  return Math.sqrt(sumOfSquares("sampleStandardDeviation", values) / (values.length - 1));
}

/**
 * The middle reading, or the mean of the two middle ones.
 *
 * @throws InvalidInput when there is no reading
 */
export function median(values: ArrayLike<number>): number {
  requireReadings("median", values, 1);
  requireFinite("median", "values", values);
  // Sorted by us: a typed or frozen series is never changed, and the library asks for a plain sorted array.
  return medianSorted(Array.from(values).sort((a, b) => a - b));
}

/** @throws InvalidInput when there is no reading */
export function minimum(values: ArrayLike<number>): number {
  return extremes("minimum", values).minimum;
}

/** @throws InvalidInput when there is no reading */
export function maximum(values: ArrayLike<number>): number {
  return extremes("maximum", values).maximum;
}

/**
 * The largest reading less the smallest; 0 for a single one.
 *
 * @throws InvalidInput when there is no reading
 */
export function range(values: ArrayLike<number>): number {
  const { minimum, maximum } = extremes("range", values);
  return maximum - minimum;
}

function extremes(where: string, values: ArrayLike<number>): { minimum: number; maximum: number } {
  requireReadings(where, values, 1);
  requireFinite(where, "values", values);
  let minimum = values[0]!;
  let maximum = minimum;
  for (let i = 1; i < values.length; i++) {
    const value = values[i]!;
    if (value < minimum) minimum = value;
    else if (value > maximum) maximum = value;
  }
  return { minimum, maximum };
}

function centre(where: string, values: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  const first = sum / values.length;
  // NaN and infinity survive every addition, so one look at the sum stands for a look at each reading.
  if (!Number.isFinite(first)) refuse(where, values);
  let residual = 0;
  for (let i = 0; i < values.length; i++) residual += values[i]! - first;
  return first + residual / values.length;
}

function sumOfSquares(where: string, values: ArrayLike<number>): number {
  const middle = centre(where, values);
  let squares = 0;
  let residual = 0;
  for (let i = 0; i < values.length; i++) {
    const off = values[i]! - middle;
    squares += off * off;
    residual += off;
  }
  if (!Number.isFinite(squares)) refuse(where, values);
  return Math.max(0, squares - (residual * residual) / values.length);
}

function refuse(where: string, values: ArrayLike<number>): never {
  requireFinite(where, "values", values);
  throw new InvalidInput(where, "values", "larger ones", "small enough for their squares to be summed");
}

function requireReadings(where: string, values: ArrayLike<number>, least: number): void {
  if (values.length < least) {
    throw new InvalidInput(where, "values.length", values.length, `at least ${least}`);
  }
}
