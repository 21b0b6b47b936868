import "server-only";
import { endShelvings } from "../../db/commands/alarms";
import {
  type AlarmEventRow,
  type AlarmRow,
  eventsOfAlarms,
  lastClosed,
  listAlarms,
} from "../../db/queries/alarms";
import { shiftBoard } from "../../db/queries/board";
import { holdsOutstanding } from "../../db/queries/containment";
import type { FeatureRow } from "../../db/queries/features";
import { latestOf } from "../../lib/alarms/alarm-event";
import { nextStepWords } from "../../lib/alarms/alarm-state";
import { type AlarmGroup, groupAlarms, type SourceId } from "../../lib/alarms/group-alarms";
import { database } from "../database";
import { plant } from "../plant";
import { type SourceNames, sourceNames } from "./alarm-names";

export type QueuedAlarm = AlarmRow & {
  feature: FeatureRow;
  events: AlarmEventRow[];
  /** Pieces on hold under it. */
  held: number;
  /** What is still wanted of a person. */
  next: string;
};

export type AlarmQueue = {
  groups: AlarmGroup<QueuedAlarm>[];
  shelved: QueuedAlarm[];
  closed: QueuedAlarm[];
  nameOf: SourceNames;
  features: number;
};

const CLOSED_SHOWN = 15;

/** Every open alarm, grouped under the source that may be behind it, and the last ones that were closed. */
export async function loadQueue(): Promise<AlarmQueue> {
  const db = await database();
  const { now } = await plant();
  await endShelvings(db, { now });
  const open = await listAlarms(db, { open: true });
  const closed = await lastClosed(db, CLOSED_SHOWN);
  const board = await shiftBoard(db);
  const features = new Map(board.map(({ feature }) => [feature.id, feature]));
  const events = await eventsOfAlarms(
    db,
    [...open, ...closed].map(({ id }) => id),
  );
  const held = new Map<number, number>();
  for (const { alarmId } of await holdsOutstanding(db)) held.set(alarmId, (held.get(alarmId) ?? 0) + 1);

  const queued = (row: AlarmRow): QueuedAlarm[] => {
    const feature = features.get(row.featureId);
    if (!feature) return [];
    const own = events.get(row.id) ?? [];
    const facts = { hasCause: latestOf(own, "cause") !== null, hasAction: latestOf(own, "action") !== null };
    return [
      {
        ...row,
        feature,
        events: own,
        held: held.get(row.id) ?? 0,
        next: nextStepWords({ ...row, ...facts }),
      },
    ];
  };
  const all = open.flatMap(queued);
  const waiting = all.filter(({ state }) => state !== "shelved");
  return {
    groups: groupAlarms(waiting, { featuresOf: featuresPerSource(board, waiting) }),
    shelved: all.filter(({ state }) => state === "shelved"),
    closed: closed.flatMap(queued),
    nameOf: await sourceNames(
      db,
      all.map(({ origin }) => origin?.lot ?? 0),
    ),
    features: board.length,
  };
}

/**
 * How many features are made or measured with a source, as their latest measurements have it. Lots and fixtures
 * take turns, so for them every feature of the parts that were last made in any counts.
 */
export function featuresPerSource(
  board: Awaited<ReturnType<typeof shiftBoard>>,
  alarms: readonly AlarmRow[],
): (source: SourceId) => number {
  const parts = new Map(board.map(({ feature }) => [feature.id, feature.partId]));
  const latest = board.flatMap(({ feature, standing }) =>
    standing?.latest ? [{ partId: feature.partId, origin: standing.latest }] : [],
  );
  return ({ kind, id }) => {
    if (kind !== "lot" && kind !== "fixture")
      return latest.filter(({ origin }) => origin[kind] === id).length;
    const made = new Set(
      alarms.flatMap(({ featureId, origin }) => (origin?.[kind] === id ? (parts.get(featureId) ?? []) : [])),
    );
    return latest.filter(({ partId, origin }) => made.has(partId) && origin[kind] !== 0).length;
  };
}
