import { requireCount, requireFinite } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { mean } from "../summary/moments";

export type ChangePoint = {
  /** Index of the first reading after the change, from 0. */
  at: number;
  meanBefore: number;
  meanAfter: number;
  /** About one mean, and about the two. */
  squaresWithout: number;
  squares: number;
  standardDeviation: number;
  /** F of the split; its largest over all splits is no F, so no p-value goes with it. */
  F: number | null;
  likelihoodRatio: number | null;
};

/**
 * Where, if anywhere, did the mean of a series change once? The split that leaves the smallest sum of squares about the
 * two means.
 *
 *   F = (SS₀ − SS) / (SS/(n − 2)),  likelihood ratio = n ln(SS₀/SS)
 *
 * The best split of a series without any change also has a large F. Judge it against simulation or leave it as a place
 * to look.
 *
 * Source: D. V. Hinkley, Biometrika 57 (1970) 1-17 (from memory).
 *
 * @param fewest readings on each side of the split
 * @returns the problem "too-few-readings" below twice the fewest (and three), "no-variation" when all are alike
 * @throws InvalidInput when a reading is not finite or `fewest` is not a whole number of at least 1
 */
export function changePoint(
  values: ArrayLike<number>,
  { fewest }: { fewest: number },
): Computed<ChangePoint> {
  const sums = prepared("changePoint", values, fewest);
  if (!sums.ok) return sums;
  const { n, before, whole } = sums.value;
  let at = fewest;
  let squares = Number.POSITIVE_INFINITY;
  for (let k = fewest; k <= n - fewest; k++) {
    const { left, right } = before(k);
    // A tie in the last bit is no better split.
    if (left.squares + right.squares < squares * (1 - 1e-14)) {
      squares = left.squares + right.squares;
      at = k;
    }
  }
  const { left, right } = before(at);
  const squaresWithout = whole.squares;
  return computed({
    at,
    meanBefore: left.mean,
    meanAfter: right.mean,
    squaresWithout,
    squares,
    standardDeviation: Math.sqrt(squares / (n - 2)),
    F: squares === 0 ? null : (squaresWithout - squares) / (squares / (n - 2)),
    likelihoodRatio: squares === 0 ? null : n * Math.log(squaresWithout / squares),
  });
}

/**
 * The same for a change of mean, spread, or both: the split with the largest likelihood of two normal series.
 *
 *   likelihood ratio = n ln σ̂² − k ln σ̂₁² − (n − k) ln σ̂₂², each σ̂² with its own number below
 *
 * At least two readings lie on each side; a side that does not vary is no candidate.
 *
 * @returns as `changePoint`; "no-variation" also when every split leaves a side without variation
 * @throws InvalidInput as `changePoint`
 */
export function changeOfMeanOrSpread(
  values: ArrayLike<number>,
  { fewest }: { fewest: number },
): Computed<{ at: number; likelihoodRatio: number }> {
  const least = Math.max(2, fewest);
  const sums = prepared("changeOfMeanOrSpread", values, least);
  if (!sums.ok) return sums;
  const { n, before, whole } = sums.value;
  let best: { at: number; cost: number } | null = null;
  for (let k = least; k <= n - least; k++) {
    const { left, right } = before(k);
    if (left.squares === 0 || right.squares === 0) continue;
    const cost = k * Math.log(left.squares / k) + (n - k) * Math.log(right.squares / (n - k));
    if (best === null || cost < best.cost) best = { at: k, cost };
  }
  if (best === null) return problem({ code: "no-variation" });
  return computed({ at: best.at, likelihoodRatio: n * Math.log(whole.squares / n) - best.cost });
}

type Segment = { mean: number; squares: number };

/** Means and sums of squares on both sides of any split, from running sums about the common mean. */
function prepared(
  where: string,
  values: ArrayLike<number>,
  fewest: number,
): Computed<{ n: number; whole: Segment; before(k: number): { left: Segment; right: Segment } }> {
  requireFinite(where, "values", values);
  requireCount(where, "fewest", fewest, 1);
  const n = values.length;
  const needed = Math.max(3, 2 * fewest);
  if (n < needed) return problem({ code: "too-few-readings", needed, got: n });
  const centre = mean(values);
  const sums = new Float64Array(n + 1);
  const squares = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    const off = values[i]! - centre;
    sums[i + 1] = sums[i]! + off;
    squares[i + 1] = squares[i]! + off * off;
  }
  const segment = (from: number, to: number): Segment => {
    const sum = sums[to]! - sums[from]!;
    const about = squares[to]! - squares[from]! - (sum * sum) / (to - from);
    return { mean: centre + sum / (to - from), squares: Math.max(0, about) };
  };
  const whole = segment(0, n);
  if (whole.squares === 0) return problem({ code: "no-variation" });
  return computed({ n, whole, before: (k) => ({ left: segment(0, k), right: segment(k, n) }) });
}
