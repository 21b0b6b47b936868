import { capabilityIndices } from "../capability/indices";
import { bissellBounds } from "../capability/intervals";
import type { Origin } from "../measurements/series";
import type { Excursion, Progress, RecentSubgroup } from "./progress";
import { type EvaluationSetup, LEAST_FOR_FINAL, TRIAL_VERSION } from "./setup";

const CONFIDENCE = 0.95;
/** Subgroups shown as ticks on a tolerance strip. */
export const STRIP_SUBGROUPS = 25;

/** Where a feature stands after its latest measurement: what the shift board shows of it. */
export type Standing = {
  readings: number;
  subgroups: number;
  lastAt: number | null;
  /** Lot and sources of the latest measurement, by id. */
  latest: Origin | null;
  /** Version of the limits in force; 0 for trial limits, null for none. */
  limitsVersion: number | null;
  centre: number | null;
  sigma: number | null;
  /** As in the limits in force; null where they take no lot-to-lot variation as part of the process. */
  betweenLots: number | null;
  /** Subgroups that count so far are too few for final limits. */
  tooFewForFinal: boolean;
  excursion: Excursion | null;
  signals: number;
  /**
   * The latest subgroup means, oldest first. Counts of samples of different sizes stand as far from the centre line in
   * sigma of the usual sample as they do in their own: a strip has one pair of limits for all.
   */
  means: number[];
  /** Size of the latest subgroup, for the width of the control limits; 1 for counts. */
  size: number | null;
  /** Performance over the recent subgroups and its lower 95 % bound; null without tolerance or variation. */
  ppk: number | null;
  ppkAtLeast: number | null;
  recentReadings: number;
};

/** Sums up `progress` for the board. The figures rest on the recent subgroups it remembers. */
export function standingOf(progress: Progress, { plan }: EvaluationSetup): Standing {
  const { recent, limits } = progress;
  const performance = recentPerformance(recent, plan);
  return {
    readings: progress.readings,
    subgroups: progress.judged,
    lastAt: progress.lastAt,
    latest: progress.latest,
    limitsVersion: limits?.version ?? null,
    centre: limits?.centre ?? null,
    sigma: limits?.sigma ?? null,
    betweenLots: limits?.betweenLots ?? null,
    tooFewForFinal: limits?.version === TRIAL_VERSION && recent.length < LEAST_FOR_FINAL,
    excursion: progress.excursion,
    signals: progress.signals,
    means: recent
      .slice(-STRIP_SUBGROUPS)
      .map(([size, mean]) =>
        plan.counts && limits ? limits.centre + (mean - limits.centre) * Math.sqrt(size) : mean,
      ),
    size: plan.counts && recent.length > 0 ? 1 : (recent.at(-1)?.[0] ?? null),
    ...performance,
  };
}

function recentPerformance(
  recent: readonly RecentSubgroup[],
  plan: EvaluationSetup["plan"],
): { ppk: number | null; ppkAtLeast: number | null; recentReadings: number } {
  // Counts have no tolerance, and their sizes are those of samples.
  if (plan.counts) return { ppk: null, ppkAtLeast: null, recentReadings: recent.length };
  const pooled = momentsOf(recent);
  const none = { ppk: null, ppkAtLeast: null, recentReadings: pooled.count };
  if (pooled.count < 2) return none;
  const indices = capabilityIndices({ ...plan, mean: pooled.mean, sdOverall: pooled.sd, sigmaWithin: null });
  if (!indices.ok || indices.value.Ppk === null) return none;
  const { lowerBound } = bissellBounds({
    index: indices.value.Ppk,
    count: pooled.count,
    degreesOfFreedom: pooled.count - 1,
    confidence: CONFIDENCE,
  });
  return { ppk: indices.value.Ppk, ppkAtLeast: lowerBound, recentReadings: pooled.count };
}

/**
 * Mean and sample standard deviation of all readings, from the summaries of their subgroups:
 *
 *   Σ(x − x̄)² = Σ (nᵢ − 1)sᵢ² + Σ nᵢ(x̄ᵢ − x̄)²
 */
function momentsOf(subgroups: readonly RecentSubgroup[]): { count: number; mean: number; sd: number } {
  let count = 0;
  let sum = 0;
  for (const [size, mean] of subgroups) {
    count += size;
    sum += size * mean;
  }
  const mean = count > 0 ? sum / count : Number.NaN;
  let squares = 0;
  for (const [size, own, sd] of subgroups) squares += (size - 1) * sd ** 2 + size * (own - mean) ** 2;
  return { count, mean, sd: count > 1 ? Math.sqrt(squares / (count - 1)) : 0 };
}
