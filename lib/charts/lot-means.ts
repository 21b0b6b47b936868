import { countedReadings } from "../components/counted-readings";
import type { Computed } from "../computed";
import { problem } from "../computed";
import type { Evaluation } from "../evaluation/evaluation";
import { type BetweenLots, type BetweenLotsWords, betweenLots } from "../limits/between-lot";
import { sigmaFromPooledSd } from "../limits/pooled-sd";
import type { MeasurementSeries } from "../measurements/series";
import { type SubgroupSummary, summarise } from "../subgroups/summarise";

/** A lot of readings that count; `id` as in the series, `lastAt` when its last one was taken. */
export type LotOfReadings = SubgroupSummary & { id: number; lastAt: number };

/** More of the latest readings than this change no verdict, and cost the page its time. */
const MOST_READINGS = 50_000;

/** Lots of a history in the order in which they first appear; readings without a lot, or left out, are in none. */
export function lotsOf(evaluation: Evaluation, series: MeasurementSeries): LotOfReadings[] {
  const { positions } = countedReadings(evaluation, { most: MOST_READINGS });
  const members = new Map<number, number[]>();
  // Subgroups with labels can overlap in time; lots are to stand as they were made.
  for (const at of positions.slice().sort()) {
    const id = series.lot[at]!;
    if (id === 0) continue;
    const own = members.get(id);
    if (own) own.push(at);
    else members.set(id, [at]);
  }
  return [...members].map(([id, own]) => ({
    ...summarise(own.map((at) => evaluation.values[at]!)),
    id,
    lastAt: series.takenAt[own.at(-1)!]!,
  }));
}

/**
 * Whether lots differ by more than the readings within them explain, and limits for their means if they do.
 *
 * Sigma within lots is pooled, σ̂² = Σ(n − 1)s²/Σ(n − 1), so that the test is the one-way analysis of variance,
 * exactly; it holds all that varies within a lot, subgroup to subgroup included. For the rest see `betweenLots`.
 *
 * @returns the problems of `betweenLots`, and "no-variation" when nothing varies within lots
 */
export function lotMeans(lots: readonly LotOfReadings[], words?: BetweenLotsWords): Computed<BetweenLots> {
  const readings = lots.reduce((sum, { size }) => sum + size, 0);
  if (lots.length > 0 && readings === lots.length) {
    return problem({ code: "too-few-readings", needed: lots.length + 1, got: readings });
  }
  const within = sigmaFromPooledSd(lots);
  if (lots.length > 0 && within.sigma === 0) return problem({ code: "no-variation" });
  if (lots.length === 0) return problem({ code: "too-few-subgroups", needed: FEWEST_LOTS, got: 0 });
  return betweenLots({ lots, within, words });
}

const FEWEST_LOTS = 3;
