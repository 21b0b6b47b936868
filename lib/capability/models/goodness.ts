import type { Distribution } from "../../distributions/distribution";

/** What stands for the logarithm of a tail that is 0 in a double: far out, and no infinity. */
const LEAST_LOG = -1e3;

/**
 * How far sorted readings lie from a distribution:
 *
 *   A² = −n − (1/n) Σ (2i − 1) [ln F(xᵢ) + ln(1 − F(xₙ₊₁₋ᵢ))]
 *
 * The weight of the logarithms makes it look at the tails, where tolerance limits lie.
 *
 * Source: T. W. Anderson and D. A. Darling, Annals of Mathematical Statistics 23 (1952) 193-212 (from memory).
 */
export function andersonDarlingStatistic(sorted: ArrayLike<number>, distribution: Distribution): number {
  const n = sorted.length;
  let sum = 0;
  for (let i = 0; i < n; i++) {
    const below = logOf(distribution.cdf(sorted[i]!));
    const above = logOf(distribution.upperTail(sorted[i]!));
    sum += (2 * i + 1) * below + (2 * (n - i) - 1) * above;
  }
  return -n - sum / n;
}

/**
 * The same when readings that share a value of the gauge's grid are spread evenly, as the distribution itself
 * would spread them, over the cell of one step about it. Coarse readings lie far from any smooth curve; this asks
 * only whether the cells are filled as the distribution fills them.
 *
 * The cell of a reading of 0 is the part of it in which the distribution can lie.
 */
export function andersonDarlingOverGrid(
  sorted: ArrayLike<number>,
  { distribution, step }: { distribution: Distribution; step: number },
): number {
  const n = sorted.length;
  let sum = 0;
  for (let first = 0; first < n; ) {
    let next = first + 1;
    while (next < n && sorted[next] === sorted[first]) next++;
    const from = sorted[first]! - step / 2;
    const to = sorted[first]! + step / 2;
    const below = distribution.cdf(from);
    const above = distribution.upperTail(to);
    const inside = below < 0.5 ? distribution.cdf(to) - below : distribution.upperTail(from) - above;
    for (let i = first; i < next; i++) {
      const share = (i - first + 0.5) / (next - first);
      sum += (2 * i + 1) * logOf(below + share * inside);
      sum += (2 * (n - i) - 1) * logOf(above + (1 - share) * inside);
    }
    first = next;
  }
  return -n - sum / n;
}

function logOf(tail: number): number {
  return tail > 0 ? Math.max(Math.log(tail), LEAST_LOG) : LEAST_LOG;
}
