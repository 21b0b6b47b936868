import { type Computed, computed, problem } from "../computed";
import { normalQuantile, normalUpperTail } from "../distributions/normal";
import { mean } from "../summary/moments";

export type ShapiroWilk = { W: number; p: number };

const FEWEST = 3;

/** The approximation was made and tried up to here. */
const MOST = 5000;

/** Coefficients of the polynomials in Royston's approximation, constant term first. */
const LAST_WEIGHT = [0, 0.221157, -0.147981, -2.07119, 4.434685, -2.706056];
const SECOND_WEIGHT = [0, 0.042981, -0.293762, -1.752461, 5.682633, -3.582633];
const SMALL = {
  mean: [0.544, -0.39978, 0.025054, -6.714e-4],
  logSigma: [1.3822, -0.77857, 0.062767, -0.0020322],
};
const LARGE = {
  mean: [-1.5861, -0.31082, -0.083751, 0.0038915],
  logSigma: [-0.4803, -0.082676, 0.0030302],
};
const GAMMA = [-2.273, 0.459];
const SMALL_UP_TO = 11;

/**
 * Could these readings come from a normal process? The test of Shapiro and Wilk, by the correlation of the sorted
 * readings with what a normal process would give; a second opinion beside Anderson-Darling, sharper on few
 * readings.
 *
 *   W = (Σ aᵢ x₍ᵢ₎)² / Σ (x − x̄)²
 *
 * Weights and p-value by Royston's polynomials.
 *
 * Source: S. S. Shapiro and M. B. Wilk, Biometrika 52 (1965) 591-611; P. Royston, Applied Statistics 44 (1995)
 * 547-551, algorithm AS R94 (both from memory).
 *
 * @returns the problem "too-few-readings" below three, "no-variation" when all are alike; null above 5000 readings,
 *   for which the approximation was not made
 * @throws InvalidInput when a reading is not a finite number
 */
export function shapiroWilk(values: ArrayLike<number>): Computed<ShapiroWilk | null> {
  const n = values.length;
  if (n < FEWEST) return problem({ code: "too-few-readings", needed: FEWEST, got: n });
  const centre = mean(values);
  if (n > MOST) return computed(null);
  const sorted = Float64Array.from(values).sort();
  if (sorted[0] === sorted[n - 1]) return problem({ code: "no-variation" });

  const weights = halfWeights(n);
  let squares = 0;
  for (const value of sorted) squares += (value - centre) ** 2;
  let slope = 0;
  for (let i = 0; i < weights.length; i++) slope += weights[i]! * (sorted[n - 1 - i]! - sorted[i]!);
  const W = Math.min(1, slope ** 2 / squares);
  return computed({ W, p: pValue(W, n) });
}

/** Weights of the differences between the i-th largest and the i-th smallest reading. */
function halfWeights(n: number): number[] {
  if (n === 3) return [Math.SQRT1_2];
  const half = Math.floor(n / 2);
  const scores = Array.from({ length: half }, (_, i) => -normalQuantile((i + 1 - 0.375) / (n + 0.25)));
  const total = 2 * scores.reduce((sum, score) => sum + score * score, 0);
  const root = 1 / Math.sqrt(n);
  const last = polynomial(LAST_WEIGHT, root) + scores[0]! / Math.sqrt(total);
  if (n <= 5) {
    const factor = Math.sqrt((total - 2 * scores[0]! ** 2) / (1 - 2 * last ** 2));
    return scores.map((score, i) => (i === 0 ? last : score / factor));
  }
  const second = polynomial(SECOND_WEIGHT, root) + scores[1]! / Math.sqrt(total);
  const factor = Math.sqrt(
    (total - 2 * scores[0]! ** 2 - 2 * scores[1]! ** 2) / (1 - 2 * last ** 2 - 2 * second ** 2),
  );
  return scores.map((score, i) => (i === 0 ? last : i === 1 ? second : score / factor));
}

function pValue(W: number, n: number): number {
  // For three readings the distribution of W is known exactly.
  if (n === 3) return Math.max(0, (6 / Math.PI) * (Math.asin(Math.sqrt(W)) - Math.PI / 3));
  const y = Math.log1p(-W);
  if (n <= SMALL_UP_TO) {
    const gamma = polynomial(GAMMA, n);
    if (y >= gamma) return 0;
    const z = (-Math.log(gamma - y) - polynomial(SMALL.mean, n)) / Math.exp(polynomial(SMALL.logSigma, n));
    return normalUpperTail(z);
  }
  const logN = Math.log(n);
  return normalUpperTail((y - polynomial(LARGE.mean, logN)) / Math.exp(polynomial(LARGE.logSigma, logN)));
}

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}
