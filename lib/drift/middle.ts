/**
 * The median of a column of numbers, by partial sorting of a copy, or of that part of it in which it lies.
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
  const { before, left } = count < MANY ? { before: 0, left: count } : narrow(copy, count, half);
  const upper = nth(copy, left, half - before);
  if (count % 2 === 1) return upper;
  let lower = Number.NEGATIVE_INFINITY;
  // What lies before the middle is no larger than it.
  for (let i = 0; i < half - before; i++) if (copy[i]! > lower) lower = copy[i]!;
  // Where all of it was left out.
  if (half === before) for (let i = from; i < to; i++) lower = below(values[i]!, upper, lower);
  return lower + (upper - lower) / 2;
}

function below(value: number, bound: number, most: number): number {
  return value < bound && value > most ? value : most;
}

/** With so many values it pays to look first where the middle lies. */
const MANY = 256;
const BUCKETS = 512;
const counts = new Int32Array(BUCKETS + 1);

/**
 * Leaves of the first `count` values, none of them NaN, at the front those of the bucket in which number n falls, of
 * equal ones from the least to the most: a pass without a branch that cannot be foreseen, where partial sorting has one
 * for each value.
 *
 * @returns how many are less than those, and how many these are
 */
function narrow(values: Float64Array, count: number, n: number): { before: number; left: number } {
  let least = values[0]!;
  let most = values[0]!;
  for (let i = 1; i < count; i++) {
    least = Math.min(least, values[i]!);
    most = Math.max(most, values[i]!);
  }
  const scale = BUCKETS / (most - least);
  if (!(scale > 0 && Number.isFinite(scale))) return { before: 0, left: count };
  counts.fill(0);
  for (let i = 0; i < count; i++) counts[Math.floor((values[i]! - least) * scale)]!++;
  let bucket = 0;
  let before = 0;
  while (before + counts[bucket]! <= n) before += counts[bucket++]!;
  let left = 0;
  for (let i = 0; i < count; i++) {
    const value = values[i]!;
    if (Math.floor((value - least) * scale) === bucket) values[left++] = value;
  }
  return { before, left };
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
