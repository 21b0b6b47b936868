import { requireCount } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { chiSquareUpperTail } from "../distributions/chi-square";
import { mean, sampleVariance } from "../summary/moments";

/**
 * Do readings resemble those one to `lags` before them, taken together?
 *
 *   Q = n(n + 2) Σ rₖ²/(n − k),  chi-square with `lags` degrees of freedom
 *
 * Source: G. M. Ljung and G. E. P. Box, Biometrika 65 (1978) 297-303 (from memory).
 *
 * @returns the problem "too-few-readings" unless there are more readings than lags and at least three,
 *   "no-variation" when all are alike
 * @throws InvalidInput when a value is not finite or `lags` is not a whole number of at least 1
 */
export function ljungBox(
  values: ArrayLike<number>,
  { lags }: { lags: number },
): Computed<{ statistic: number; p: number }> {
  requireCount("ljungBox", "lags", lags, 1);
  const n = values.length;
  const needed = Math.max(3, lags + 1);
  if (n < needed) return problem({ code: "too-few-readings", needed, got: n });
  const centre = mean(values);
  const off = Float64Array.from(values, (value) => value - centre);
  let squares = 0;
  for (const one of off) squares += one * one;
  if (squares === 0) return problem({ code: "no-variation" });
  let sum = 0;
  for (let k = 1; k <= lags; k++) {
    let products = 0;
    for (let i = k; i < n; i++) products += off[i]! * off[i - k]!;
    sum += (products / squares) ** 2 / (n - k);
  }
  const statistic = n * (n + 2) * sum;
  return computed({ statistic, p: chiSquareUpperTail(statistic, lags) });
}

/**
 * Σ (eₜ − eₜ₋₁)² / Σ eₜ² of the residuals of a regression: about 2 when neighbours are independent, towards 0 when they
 * resemble each other, towards 4 when they swing.
 *
 * Source: J. Durbin and G. S. Watson, Biometrika 37 (1950) 409-428 (from memory).
 *
 * @returns the problem "too-few-readings" below two, "no-variation" when all residuals are 0
 */
export function durbinWatson(residuals: ArrayLike<number>): Computed<number> {
  const n = residuals.length;
  if (n < 2) return problem({ code: "too-few-readings", needed: 2, got: n });
  let squares = residuals[0]! ** 2;
  let steps = 0;
  for (let i = 1; i < n; i++) {
    squares += residuals[i]! ** 2;
    steps += (residuals[i]! - residuals[i - 1]!) ** 2;
  }
  return squares === 0 ? problem({ code: "no-variation" }) : computed(steps / squares);
}

/**
 * Mean square of the steps between neighbours over the variance: 2 when they are independent, less for a drift.
 *
 * Source: J. von Neumann, Annals of Mathematical Statistics 12 (1941) 367-395 (from memory).
 *
 * @returns the problem "too-few-readings" below two, "no-variation" when all are alike
 * @throws InvalidInput when a value is not a finite number
 */
export function vonNeumannRatio(values: ArrayLike<number>): Computed<number> {
  const n = values.length;
  if (n < 2) return problem({ code: "too-few-readings", needed: 2, got: n });
  const variance = sampleVariance(values);
  if (variance === 0) return problem({ code: "no-variation" });
  let steps = 0;
  for (let i = 1; i < n; i++) steps += (values[i]! - values[i - 1]!) ** 2;
  return computed(steps / (n - 1) / variance);
}
