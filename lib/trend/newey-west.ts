import { InvalidInput, requireCount } from "../checks";
import { type Computed, computed } from "../computed";
import { normalUpperTail } from "../distributions/normal";
import { studentTUpperTail } from "../distributions/student-t";
import { fitLine } from "../regression/line";
import { mean } from "../summary/moments";

export type SteadySlope = {
  slope: number;
  standardError: number;
  z: number | null;
  /** By the normal and by Student's t with n − 2 degrees of freedom; null without any scatter. */
  pNormal: number | null;
  pT: number | null;
};

/**
 * The slope of readings over time with a standard error that holds when neighbours resemble each other.
 *
 *   V = [ Σ uₜ² + 2 Σₗ (1 − l/(lag + 1)) Σ uₜuₜ₋ₗ ] / Sₓₓ²,  uₜ = (xₜ − x̄)·residual
 *
 * with Bartlett's weights, which never make V negative. The plain standard error is far too small for a drifting
 * process: with neighbours correlated by 0.6 the variance is (1 + 0.6)/(1 − 0.6) = 4 times the plain one, and a trend
 * is found in one of three series that have none.
 *
 * Readings come in the order of time. `correction` multiplies V by n/(n − 2).
 *
 * Source: W. K. Newey and K. D. West, Econometrica 55 (1987) 703-708 (from memory).
 *
 * @returns the problems of `fitLine`
 * @throws InvalidInput when the lengths differ, a number is not finite, or the lag is not a whole number from 0 to n − 1
 */
export function neweyWestSlope({
  x,
  y,
  lag,
  correction,
}: {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  lag: number;
  correction: boolean;
}): Computed<SteadySlope> {
  const n = y.length;
  const line = fitLine({ x, y, confidence: 0.95 });
  if (!line.ok) return line;
  requireCount("neweyWestSlope", "lag", lag, 0, n - 1);

  const centre = mean(x);
  let spread = 0;
  const scores = Float64Array.from(line.value.residuals, (residual, i) => {
    const off = x[i]! - centre;
    spread += off * off;
    return off * residual;
  });
  let sum = 0;
  for (let l = 0; l <= lag; l++) {
    let products = 0;
    for (let i = l; i < n; i++) products += scores[i]! * scores[i - l]!;
    sum += (l === 0 ? 1 : 2) * (1 - l / (lag + 1)) * products;
  }
  const variance = (sum / spread ** 2) * (correction ? n / (n - 2) : 1);
  const standardError = Math.sqrt(Math.max(0, variance));
  const slope = line.value.slope.estimate;
  const z = standardError === 0 ? null : slope / standardError;
  return computed({
    slope,
    standardError,
    z,
    pNormal: z === null ? null : 2 * normalUpperTail(Math.abs(z)),
    pT: z === null ? null : 2 * studentTUpperTail(Math.abs(z), n - 2),
  });
}

/**
 * How many neighbours to take into account where nobody says: ⌊4·(n/100)^(2/9)⌋, 4 for a hundred readings.
 *
 * Source: W. K. Newey and K. D. West, Review of Economic Studies 61 (1994) 631-653 (from memory).
 *
 * @throws InvalidInput unless n is a whole number of at least 3
 */
export function usualLag(n: number): number {
  requireCount("usualLag", "n", n, 3);
  const lag = Math.floor(4 * (n / 100) ** (2 / 9));
  if (!Number.isFinite(lag)) throw new InvalidInput("usualLag", "n", n, "finite");
  return Math.min(lag, n - 1);
}
