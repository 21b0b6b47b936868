/**
 * Indexes of values from the smallest value on, equal ones in the order in which they stand.
 *
 * Runs that rise already are found and merged, for rows come lot by lot and cell by cell in time; a sort that calls a
 * comparison for each pair took twenty times as long, and a third of laying out a part.
 *
 * Source: natural merge sort, as in Knuth, The Art of Computer Programming 3, 5.2.4 (from memory).
 */
export function risingOrder(values: ArrayLike<number>): Int32Array {
  const { length } = values;
  let order = new Int32Array(length);
  for (let i = 0; i < length; i++) order[i] = i;
  let starts = runsIn(values);
  let spare = new Int32Array(starts.length > 1 ? length : 0);
  while (starts.length > 1) {
    const merged: number[] = [];
    for (let r = 0; r < starts.length; r += 2) {
      const middle = starts[r + 1] ?? length;
      merge(values, order, { from: starts[r]!, middle, to: starts[r + 2] ?? length, into: spare });
      merged.push(starts[r]!);
    }
    [order, spare] = [spare, order];
    starts = merged;
  }
  return order;
}

function runsIn(values: ArrayLike<number>): number[] {
  const starts = [0];
  for (let i = 1; i < values.length; i++) if (values[i]! < values[i - 1]!) starts.push(i);
  return starts;
}

function merge(
  values: ArrayLike<number>,
  order: Int32Array,
  { from, middle, to, into }: { from: number; middle: number; to: number; into: Int32Array },
): void {
  let a = from;
  let b = middle;
  for (let at = from; at < to; at++) {
    const isSecond = a === middle || (b < to && values[order[b]!]! < values[order[a]!]!);
    into[at] = isSecond ? order[b++]! : order[a++]!;
  }
}

/** The same indexes sorted by a whole number from 0 to `count` − 1 of each, those with equal ones left in order. */
export function inGroups(order: Int32Array, groupOf: ArrayLike<number>, count: number): Int32Array {
  const next = new Int32Array(count + 1);
  for (let i = 0; i < order.length; i++) next[groupOf[order[i]!]! + 1]!++;
  for (let group = 0; group < count; group++) next[group + 1]! += next[group]!;
  const out = new Int32Array(order.length);
  for (let i = 0; i < order.length; i++) out[next[groupOf[order[i]!]!]!++] = order[i]!;
  return out;
}
