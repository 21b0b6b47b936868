import { InvalidInput, requireFinite } from "../checks";

/** Readings sorted into groups, with the moments that every comparison of groups needs. */
export type Groups = {
  /** The id of each group, in the order in which it first appears. */
  ids: number[];
  /** For each reading, the index of its group. */
  groupOf: Uint32Array;
  counts: Float64Array;
  means: Float64Array;
  /** Σ(x − group mean)² of each group. */
  squares: Float64Array;
};

/**
 * Sorts readings by the id beside each and takes each group's mean and sum of squares, in two passes:
 * sums are of differences from the group's first reading, so a large common offset costs no digits.
 *
 * @throws InvalidInput when the lengths differ or a reading is not a finite number
 */
export function groupReadings(where: string, values: ArrayLike<number>, ids: ArrayLike<number>): Groups {
  if (ids.length !== values.length) {
    throw new InvalidInput(where, "ids.length", ids.length, `the number of readings, ${values.length}`);
  }
  requireFinite(where, "values", values);

  const indexOf = new Map<number, number>();
  const groupOf = new Uint32Array(values.length);
  const firsts: number[] = [];
  for (let i = 0; i < values.length; i++) {
    let group = indexOf.get(ids[i]!);
    if (group === undefined) {
      group = firsts.length;
      indexOf.set(ids[i]!, group);
      firsts.push(values[i]!);
    }
    groupOf[i] = group;
  }

  const counts = new Float64Array(firsts.length);
  const sums = new Float64Array(firsts.length);
  for (let i = 0; i < values.length; i++) {
    const group = groupOf[i]!;
    counts[group]!++;
    sums[group]! += values[i]! - firsts[group]!;
  }
  // The mean as an offset from the first reading: both are kept apart until the residuals are taken.
  const offsets = sums.map((sum, group) => sum / counts[group]!);
  const squares = new Float64Array(firsts.length);
  const residuals = new Float64Array(firsts.length);
  for (let i = 0; i < values.length; i++) {
    const group = groupOf[i]!;
    const residual = values[i]! - firsts[group]! - offsets[group]!;
    squares[group]! += residual * residual;
    residuals[group]! += residual;
  }
  for (let group = 0; group < firsts.length; group++) {
    squares[group] = Math.max(0, squares[group]! - residuals[group]! ** 2 / counts[group]!);
  }
  return {
    ids: [...indexOf.keys()],
    groupOf,
    counts,
    means: offsets.map((offset, group) => firsts[group]! + offset),
    squares,
  };
}
