import { InvalidInput, requireFinite } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { normalUpperQuantile } from "../distributions/normal";
import { median } from "../summary/moments";
import { tiesOf } from "./mann-kendall";

export type TheilSen = {
  slope: number;
  /** Median of y − slope·x: the line through the middle of the readings. */
  intercept: number;
  interval: [lower: number, upper: number];
  /** Slopes of pairs behind it. */
  pairs: number;
};

/** Every pair is looked at: eight million at this size. */
const MOST = 4000;

/**
 * A slope that outliers do not bend: the median of the slopes of all pairs of readings.
 *
 * Its interval takes the sorted slopes at the ranks round((N − z√V)/2) and round((N + z√V)/2) + 1, counted from 1, with
 * V the variance of Kendall's S. Up to 29 % of the readings may be wrong without carrying the slope away.
 *
 * Source: P. K. Sen, J. American Statistical Association 63 (1968) 1379-1389 (from memory).
 *
 * @returns the problem "too-few-readings" below four, "no-variation" when all x are alike
 * @throws InvalidInput when the lengths differ, a number is not finite, there are more than 4000 readings, or unless
 *   0 < confidence < 1
 */
export function theilSen({
  x,
  y,
  confidence,
}: {
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  confidence: number;
}): Computed<TheilSen> {
  const where = "theilSen";
  const n = y.length;
  if (x.length !== n) throw new InvalidInput(where, "x.length", x.length, `that of y, ${n}`);
  requireFinite(where, "x", x);
  requireFinite(where, "y", y);
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput(where, "confidence", confidence, "a probability between 0 and 1");
  }
  if (n > MOST) throw new InvalidInput(where, "y.length", n, `at most ${MOST}`);
  if (n < 4) return problem({ code: "too-few-readings", needed: 4, got: n });

  const all = new Float64Array((n * (n - 1)) / 2);
  let pairs = 0;
  for (let i = 0; i < n; i++) {
    for (let j = i + 1; j < n; j++) {
      if (x[j] !== x[i]) all[pairs++] = (y[j]! - y[i]!) / (x[j]! - x[i]!);
    }
  }
  if (pairs === 0) return problem({ code: "no-variation" });
  const slopes = all.subarray(0, pairs).sort();
  const slope = median(slopes);
  const half = normalUpperQuantile((1 - confidence) / 2) * Math.sqrt(tiesOf(y).variance);
  const at = (rank: number) => slopes[Math.min(Math.max(rank, 0), pairs - 1)]!;
  return computed({
    slope,
    intercept: median(Float64Array.from(y, (value, i) => value - slope * x[i]!)),
    interval: [at(Math.round((pairs - half) / 2) - 1), at(Math.round((pairs + half) / 2))],
    pairs,
  });
}
