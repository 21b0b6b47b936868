/**
 * |xᵢ − xᵢ₋₁| for each value but the first, in the unit of the values.
 *
 * Leave out excluded values beforehand: the range then spans the gap, as if the value had never been
 * measured. Empty below two values.
 */
export function movingRanges(values: ArrayLike<number>): number[] {
  const ranges: number[] = [];
  for (let i = 1; i < values.length; i++) ranges.push(Math.abs(values[i]! - values[i - 1]!));
  return ranges;
}
