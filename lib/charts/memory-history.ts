import type { Evaluation } from "../evaluation/evaluation";
import type { MemoryChart } from "../plan/feature-plan";
import { type MemoryPoint, type MemoryState, nextMemory, startMemory } from "./memory-chart";

/**
 * A chart with a memory over a feature's whole history, one entry a subgroup: null where one is left out, where
 * no limits judged it, or where these show no variation.
 *
 * It begins anew with every version of the limits. Where the chart is the one of the control plan, its signals
 * are those that were judged.
 *
 * @throws InvalidInput as `startMemory` does
 */
export function memoryHistory(
  { points, versions }: Pick<Evaluation, "points" | "versions">,
  chart: MemoryChart,
): (MemoryPoint | null)[] {
  let state: MemoryState | null = null;
  let phase = -1;
  return Array.from({ length: points.count }, (_, number) => {
    const at = points.limits[number]!;
    const limits = versions[at];
    if (at !== phase) state = null;
    phase = at;
    if (!limits || limits.sigma <= 0 || points.excluded[number] === 1) return null;
    state ??= startMemory(chart, limits);
    const subgroup = { mean: points.mean[number]!, size: points.size[number]! };
    return nextMemory(chart, { limits, state, subgroup });
  });
}
