import { and, eq, isNull } from "drizzle-orm";
import type { Refusal } from "../../lib/intake/batch";
import { compareMeasurements, merged } from "../../lib/measurements/order";
import { freshOf, type Resolution, resolve } from "../../lib/measurements/resolve";
import {
  emptySeries,
  inspectedAt,
  type MeasurementSeries,
  noneInspected,
} from "../../lib/measurements/series";
import { countRefusal } from "../../lib/plan/count-refusal";
import type { CountPlan } from "../../lib/plan/feature-plan";
import type { Actor } from "../commands/audit";
import type { Connection } from "../connection";
import type { ArrivalRow } from "../measurements/arrivals";
import { addMeasurements, takenTail } from "../measurements/store";
import { correction } from "../schema";
import type { Stored } from "./store-staged";

/** Stores rows of one feature beside what is stored of it: new ones, corrected ones, and none twice. */
export function storeRows(
  connection: Connection,
  {
    featureId,
    counts,
    latest,
    rows,
    actor,
    isKnownFile,
    total,
    tail,
    arrivals,
  }: {
    featureId: number;
    counts: CountPlan | null;
    /** When the feature's latest stored measurement was taken; null when it has none. */
    latest: number | null;
    rows: MeasurementSeries;
    actor: Actor;
    isKnownFile: boolean;
    total: Stored;
    tail: (feature: number, at: number) => MeasurementSeries;
    arrivals: ArrivalRow;
  },
): Resolution & { appended: boolean; arrival: number | null; lastBefore: number | null } {
  const first = rows.takenAt[0] as number;
  // Nothing stored is as late as the first new row: the usual case, in which the history need not be read.
  const isAfterAll = latest === null || first > latest;
  const stored = isAfterAll ? emptySeries(0) : tail(featureId, first);
  // Two pieces of one second, where a machine counts in seconds: the later intake puts the new one last. A file that
  // was begun before a post and stored after it is the earlier intake.
  const isLatest =
    isAfterAll || (first === latest && compareMeasurements(stored, stored.count - 1, rows, 0) <= 0);
  const resolution = resolve(stored, rows);
  if (isKnownFile) {
    const news = resolution.corrections.filter(
      (found) =>
        !hasBeenCorrected(connection, {
          featureId,
          takenAt: stored.takenAt[found.stored] as number,
          pieceId: stored.piece[found.stored] as number,
          value: rows.value[found.incoming] as number,
          inspected: statedInspected(rows, found.incoming),
        }),
    );
    const corrected = resolution.corrections.length - news.length;
    resolution.corrections = news;
    resolution.duplicates += corrected;
    total.corrected += corrected;
  }
  if (counts !== null) refuseCorrections(resolution, { stored, rows, counts, refusals: total.refusals });
  total.accepted += resolution.fresh.length;
  total.duplicates += resolution.duplicates;
  total.corrections += resolution.corrections.length;
  total.late += resolution.late;
  for (const { incoming, first: kept } of resolution.conflicts) {
    total.refusals.push({
      line: rows.line[incoming] as number,
      field: "value",
      reason:
        `The same piece, feature and time as line ${rows.line[kept]}, with another value (${rows.value[incoming]} instead of ` +
        `${rows.value[kept]}). The first was taken. If the piece was measured twice, give the readings different times.`,
      raw: String(rows.value[incoming]),
    });
  }

  const fresh = freshOf(rows, resolution);
  let arrival: number | null = null;
  if (resolution.corrections.length > 0) {
    correct(connection, { featureId, stored, rows, resolution, fresh, actor });
  } else {
    arrival = addMeasurements(connection, arrivals, { feature: featureId, news: fresh, isLatest });
  }
  return { ...resolution, appended: isLatest, arrival, lastBefore: latest };
}

/** A count that states no sample of its own is held against the one that stands, for that will go on standing. */
function refuseCorrections(
  resolution: Resolution,
  {
    stored,
    rows,
    counts,
    refusals,
  }: { stored: MeasurementSeries; rows: MeasurementSeries; counts: CountPlan; refusals: Refusal[] },
): void {
  resolution.corrections = resolution.corrections.filter(({ stored: at, incoming }) => {
    if (statedInspected(rows, incoming) !== null) return true;
    const value = rows.value[incoming] as number;
    const wrong = countRefusal(value, inspectedAt(stored, at), counts);
    if (wrong !== null) refusals.push({ line: rows.line[incoming] as number, ...wrong, raw: String(value) });
    return wrong === null;
  });
}

/** Whether the incoming value is one that a standing correction has replaced. */
function hasBeenCorrected(
  { orm }: Connection,
  {
    featureId,
    takenAt,
    pieceId,
    value,
    inspected,
  }: { featureId: number; takenAt: number; pieceId: number; value: number; inspected: number | null },
): boolean {
  const replaced = orm
    .select({ id: correction.id })
    .from(correction)
    .where(
      and(
        eq(correction.featureId, featureId),
        eq(correction.takenAt, takenAt),
        eq(correction.pieceId, pieceId),
        eq(correction.oldValue, value),
        // A file that does not state it says nothing of it.
        inspected === null ? undefined : eq(correction.oldInspected, inspected),
        isNull(correction.undoneAt),
      ),
    )
    .get();
  return replaced !== undefined;
}

/** On how many a count was found; null where it does not say. */
function statedInspected(series: MeasurementSeries, position: number): number | null {
  const inspected = inspectedAt(series, position);
  return Number.isNaN(inspected) ? null : inspected;
}

/** Puts corrected values in the place of the old ones, which stay in the record, and adds what is new. */
function correct(
  connection: Connection,
  {
    featureId,
    stored,
    rows,
    resolution,
    fresh,
    actor,
  }: {
    featureId: number;
    stored: MeasurementSeries;
    rows: MeasurementSeries;
    resolution: Resolution;
    fresh: MeasurementSeries;
    actor: Actor;
  },
): void {
  const { tail, putBack } = takenTail(connection, featureId, rows.takenAt[0] as number);
  const offset = tail.count - stored.count; // `stored` is the end of it.
  for (const { stored: at, incoming } of resolution.corrections) {
    const position = offset + at;
    connection.orm
      .insert(correction)
      .values({
        featureId,
        takenAt: tail.takenAt[position] as number,
        pieceId: tail.piece[position] as number,
        oldValue: tail.value[position] as number,
        oldIntakeId: tail.intake[position] as number,
        newValue: rows.value[incoming] as number,
        newIntakeId: rows.intake[incoming] as number,
        oldInspected: statedInspected(tail, position),
        newInspected: statedInspected(rows, incoming) ?? statedInspected(tail, position),
        at: actor.at,
      })
      .run();
    // Its place among measurements of the same moment stays: only the value changes hands.
    tail.value[position] = rows.value[incoming] as number;
    const inspected = statedInspected(rows, incoming);
    if (inspected !== null) {
      tail.inspected ??= noneInspected(tail.count);
      tail.inspected[position] = inspected;
    }
  }
  putBack(merged(tail, fresh));
}
