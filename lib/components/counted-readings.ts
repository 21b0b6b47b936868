import type { Evaluation } from "../evaluation/evaluation";

/** Readings of the subgroups that count, in the order of the chart. */
export type CountedReadings = {
  /** Positions in the series. */
  positions: Uint32Array;
  /** The subgroup of each reading of the series; readings in none have 0 here and are not among `positions`. */
  subgroupOf: Uint32Array;
};

/**
 * Every reading that stands in a judged subgroup which is not left out; of a long history the latest `most`
 * or so, whole subgroups only.
 */
export function countedReadings(
  { formed, points, values }: Pick<Evaluation, "formed" | "points" | "values">,
  { most }: { most: number },
): CountedReadings {
  let first = points.count;
  let readings = 0;
  while (first > 0 && readings < most) {
    first--;
    if (points.excluded[first] === 0) readings += formed.start[first + 1]! - formed.start[first]!;
  }
  const positions = new Uint32Array(readings);
  const subgroupOf = new Uint32Array(values.length);
  let next = 0;
  for (let number = first; number < points.count; number++) {
    if (points.excluded[number] === 1) continue;
    for (let k = formed.start[number]!; k < formed.start[number + 1]!; k++) {
      positions[next++] = formed.order[k]!;
      subgroupOf[formed.order[k]!] = number;
    }
  }
  return { positions, subgroupOf };
}
