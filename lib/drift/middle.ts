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
  const copy = Float64Array.from(values);
  if (copy.length === 0) return Number.NaN;
  const half = copy.length >> 1;
  const upper = nth(copy, half);
  if (copy.length % 2 === 1) return upper;
  // What lies before the middle is no larger than it.
  let lower = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < half; i++) if (copy[i]! > lower) lower = copy[i]!;
  return lower + (upper - lower) / 2;
}

function nth(values: Float64Array, n: number): number {
  let left = 0;
  let right = values.length - 1;
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
