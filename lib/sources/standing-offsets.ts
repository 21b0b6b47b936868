import { NAMED } from "./find-step";
import { type LotAdjusted, lotAdjusted } from "./lot-adjusted";
import type { HistoryEvent, SourceRows } from "./lot-cells";
import type { RecentChanges } from "./recent-change";

/** Where a source has always stood on one feature, against the others in the same lots. */
export type StandingOffset = {
  source: number;
  feature: number;
  lots: number;
  /** In the unit of the feature. */
  deviation: number;
  standardError: number;
  deviationInSigma: number;
};

/**
 * Differences between sources that are there without anything having moved, largest ratio to its error first.
 *
 * Only what lies beyond 4 standard errors is listed. Left out are readings before a source's latest event and
 * those of a source since it moved: neither tells where it usually stands.
 */
export function standingOffsets({
  features,
  events,
  changes,
}: {
  features: readonly SourceRows[];
  events: readonly HistoryEvent[];
  changes: RecentChanges;
}): StandingOffset[] {
  const from = new Map<number, number>();
  for (const { source, at } of events) from.set(source, Math.max(at, from.get(source) ?? at));
  const until = new Map(
    changes.sources.flatMap((one) =>
      one.state === "moved" ? [[one.source, one.change.sinceAt] as const] : [],
    ),
  );
  const isKept = (source: number, at: number) =>
    at >= (from.get(source) ?? Number.NEGATIVE_INFINITY) &&
    at < (until.get(source) ?? Number.POSITIVE_INFINITY);
  return features
    .flatMap((rows) => {
      const adjusted = lotAdjusted({ ...rows, sources: keptSources(rows, isKept) });
      return adjusted.sources.flatMap((one) => offsetOf(rows.feature, one) ?? []);
    })
    .sort((a, b) => errorsOf(b) - errorsOf(a));
}

/** Sources of the readings, 0 ("not stated") where a reading is left out. */
function keptSources(
  { sources, takenAt }: SourceRows,
  isKept: (source: number, at: number) => boolean,
): Uint32Array {
  const kept = new Uint32Array(sources.length);
  for (let i = 0; i < kept.length; i++) {
    if (isKept(sources[i]!, takenAt[i]!)) kept[i] = sources[i]!;
  }
  return kept;
}

function offsetOf(feature: number, one: LotAdjusted["sources"][number]): StandingOffset | null {
  const { source, lots, deviation, standardError, deviationInSigma } = one;
  if (deviation === null || !standardError || deviationInSigma === null || lots < NAMED.lotsBefore)
    return null;
  if (Math.abs(deviation) <= NAMED.errors * standardError) return null;
  return { source, feature, lots, deviation, standardError, deviationInSigma };
}

function errorsOf({ deviation, standardError }: StandingOffset): number {
  return Math.abs(deviation) / standardError;
}
