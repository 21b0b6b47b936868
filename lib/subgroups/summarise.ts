import { InvalidInput, requireFinite } from "../checks";
import type { FormedSubgroups } from "./form-subgroups";

/** What a control chart keeps of a subgroup, in the feature's unit. */
export type SubgroupSummary = {
  size: number;
  mean: number;
  /** Largest less smallest; 0 for a single reading. */
  range: number;
  /** Sample standard deviation (n − 1); 0 for a single reading, which has none. */
  sd: number;
};

/**
 * Mean, range and standard deviation of one subgroup.
 *
 * Two passes about a mean whose rounding has been taken out, as lib/summary/moments does it; readings
 * that are all alike give a range and a standard deviation of exactly 0.
 *
 * @throws InvalidInput when there is no reading or one is not a finite number
 */
export function summarise(values: ArrayLike<number>): SubgroupSummary {
  return summariseMembers(values, null, 0, values.length);
}

/**
 * The summary of one subgroup of a series, without copying its readings. `values` is the whole series that
 * the subgroups were formed from.
 *
 * @throws InvalidInput when the subgroup names a reading the series lacks or that is not a finite number
 */
export function summariseSubgroup(
  values: ArrayLike<number>,
  { start, order }: FormedSubgroups,
  number: number,
): SubgroupSummary {
  return summariseMembers(values, order, start[number]!, start[number + 1]!);
}

/** The readings values[order[from]] to values[order[to − 1]]; without an order values[from] to values[to − 1]. */
function summariseMembers(
  values: ArrayLike<number>,
  order: Uint32Array | null,
  from: number,
  to: number,
): SubgroupSummary {
  const size = to - from;
  if (size < 1) throw new InvalidInput("summarise", "values.length", size, "at least 1");
  const valueAt = (i: number) => values[order === null ? i : order[i]!]!;
  let smallest = valueAt(from);
  let largest = smallest;
  let sum = 0;
  for (let i = from; i < to; i++) {
    const value = valueAt(i);
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
    sum += value;
  }
  const range = largest - smallest;
  if (!Number.isFinite(sum) || !Number.isFinite(range)) {
    requireFinite(
      "summarise",
      "values",
      Array.from({ length: size }, (_, i) => valueAt(from + i)),
    );
    throw new InvalidInput("summarise", "values", sum, "small enough to be summed");
  }
  if (range === 0) return { size, mean: smallest, range, sd: 0 };

  const first = sum / size;
  let residual = 0;
  for (let i = from; i < to; i++) residual += valueAt(i) - first;
  const mean = first + residual / size;
  let squares = 0;
  for (let i = from; i < to; i++) squares += (valueAt(i) - mean) ** 2;
  return { size, mean, range, sd: Math.sqrt(squares / (size - 1)) };
}

/**
 * The summary of every subgroup of a series, in the order of the subgroups.
 *
 * `values` is the whole series that the subgroups were formed from.
 *
 * @throws InvalidInput when a subgroup names a reading the series lacks or that is not a finite number
 */
export function summariseSubgroups(values: ArrayLike<number>, subgroups: FormedSubgroups): SubgroupSummary[] {
  return Array.from({ length: subgroups.count }, (_, number) => summariseSubgroup(values, subgroups, number));
}
