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
  const size = values.length;
  if (size < 1) throw new InvalidInput("summarise", "values.length", size, "at least 1");
  let smallest = values[0]!;
  let largest = smallest;
  let sum = 0;
  for (let i = 0; i < size; i++) {
    const value = values[i]!;
    if (value < smallest) smallest = value;
    if (value > largest) largest = value;
    sum += value;
  }
  const range = largest - smallest;
  if (!Number.isFinite(sum) || !Number.isFinite(range)) {
    requireFinite("summarise", "values", values);
    throw new InvalidInput("summarise", "values", sum, "small enough to be summed");
  }
  if (range === 0) return { size, mean: smallest, range, sd: 0 };

  const first = sum / size;
  let residual = 0;
  for (let i = 0; i < size; i++) residual += values[i]! - first;
  const mean = first + residual / size;
  let squares = 0;
  for (let i = 0; i < size; i++) squares += (values[i]! - mean) ** 2;
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
  const summaries: SubgroupSummary[] = [];
  const members: number[] = [];
  for (let s = 0; s < subgroups.count; s++) {
    const from = subgroups.start[s]!;
    members.length = subgroups.start[s + 1]! - from;
    for (let i = 0; i < members.length; i++) members[i] = values[subgroups.order[from + i]!]!;
    summaries.push(summarise(members));
  }
  return summaries;
}
