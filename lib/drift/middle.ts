/**
 * The median of a column of numbers, by partial sorting of a copy.
 *
 * The scan takes tens of thousands of medians, some over a hundred thousand tests; sorting each in full was a
 * fifth of its time.
 *
 * Source: C. A. R. Hoare, Algorithm 65: Find, Communications of the ACM 4 (1961) 321-322 (from memory).
 *
 * @returns NaN for an empty column
 */
export function middleOf(values: ArrayLike<number>): number {
  return middleBetween(values, 0, values.length);
}

/** The same of the values `from` to `to` − 1. */
export function middleBetween(values: ArrayLike<number>, from: number, to: number): number {
  const count = to - from;
  if (count === 0) return Number.NaN;
  const copy = copied(values, from, to);
  const half = count >> 1;
  const upper = nth(copy, count, half);
  if (count % 2 === 1) return upper;
  // What lies before the middle is no larger than it.
  let lower = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < half; i++) if (copy[i]! > lower) lower = copy[i]!;
  return lower + (upper - lower) / 2;
}

/** Mean of the `count` smallest of some values. */
export function meanOfSmallest(values: Float64Array, count: number): number {
  const copy = copied(values, 0, values.length);
  nth(copy, values.length, count - 1);
  let sum = 0;
  for (let i = 0; i < count; i++) sum += copy[i]!;
  return sum / count;
}

/** One copy serves all: each caller is done with it before the next begins. */
let kept = new Float64Array(64);
function copied(values: ArrayLike<number>, from: number, to: number): Float64Array {
  if (kept.length < to - from) kept = new Float64Array(2 * (to - from));
  for (let i = from; i < to; i++) kept[i - from] = values[i]!;
  return kept;
}

/** Value n of the first `count` in order; none before it is larger, none behind it smaller. */
function nth(values: Float64Array, count: number, n: number): number {
  let left = 0;
  let right = count - 1;
  while (left < right) {
    const pivot = middleOfThree(values[left]!, values[(left + right) >> 1]!, values[right]!);
    let i = left;
    let j = right;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const kept = values[i]!;
      values[i++] = values[j]!;
      values[j--] = kept;
    }
    if (n <= j) right = j;
    else if (n >= i) left = i;
    else break;
  }
  return values[n]!;
}

function middleOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
