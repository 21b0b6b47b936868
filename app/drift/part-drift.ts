import "server-only";
import type { Database } from "../../db/connection";
import type { PartRow } from "../../db/queries/features";
import { type PartHistory, partHistories } from "../../db/queries/part-histories";
import type { SourceEventRow } from "../../db/queries/sources";
import { chartedValues } from "../../lib/evaluation/charted-values";
import { SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import type { SourceRows } from "../../lib/sources/lot-cells";
import { type Change, type RecentChanges, recentChanges } from "../../lib/sources/recent-change";

/** The sources of one kind on a part. */
export type KindDrift = { kind: SourceKind; rows: SourceRows[]; changes: RecentChanges };

export type PartDrift = { part: PartRow; histories: PartHistory[]; kinds: KindDrift[] };

/** Searches every kind of source of a part; kinds that no measurement states are left out. */
export async function readPartDrift(
  database: Database,
  { part, events }: { part: PartRow; events: readonly SourceEventRow[] },
): Promise<PartDrift> {
  const histories = await partHistories(database, part.id);
  const values = histories.map(({ series, setup }) => chartedValues(series, setup));
  const kinds = SOURCE_KINDS.map((kind): KindDrift => {
    const rows = histories.map(({ feature, series }, place) => ({
      feature: feature.id,
      takenAt: series.takenAt,
      values: values[place]!,
      lots: series.lot,
      sources: series[kind],
    }));
    return {
      kind,
      rows,
      changes: recentChanges({ features: rows, isTool: kind === "tool", events: eventsOf(kind, events) }),
    };
  });
  return { part, histories, kinds: kinds.filter(({ changes }) => changes.sources.length > 0) };
}

export function eventsOf(
  kind: SourceKind,
  events: readonly SourceEventRow[],
): { source: number; at: number }[] {
  return events.filter((one) => one.kind === kind).map(({ sourceId, at }) => ({ source: sourceId, at }));
}

/** A source that moved, with its kind. */
export type Moved = { kind: SourceKind; source: number; change: Change };

/** Moved sources of a part, the clearest first. */
export function movedOf({ kinds }: PartDrift): Moved[] {
  return kinds
    .flatMap(({ kind, changes }) =>
      changes.sources.flatMap((one) =>
        one.state === "moved" ? [{ kind, source: one.source, change: one.change }] : [],
      ),
    )
    .sort((a, b) => errorsOf(b.change) - errorsOf(a.change));
}

/** The part with the clearest change; when nothing has moved anywhere, the one with most sources compared. */
export function strongestPart(drifts: readonly PartDrift[]): PartDrift | undefined {
  const strength = (drift: PartDrift) => {
    const [first] = movedOf(drift);
    return first ? 1 + errorsOf(first.change) : 1 - 1 / (1 + comparedIn(drift));
  };
  return drifts.reduce<PartDrift | undefined>(
    (best, drift) => (best === undefined || strength(drift) > strength(best) ? drift : best),
    undefined,
  );
}

function comparedIn({ kinds }: PartDrift): number {
  return kinds.flatMap(({ changes }) => changes.sources.filter(({ state }) => state === "quiet")).length;
}

function errorsOf({ difference, standardError }: Change): number {
  return Math.abs(difference) / standardError;
}
