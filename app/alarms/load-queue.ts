import "server-only";
import { endShelvings } from "../../db/commands/alarms";
import {
  type AlarmEventRow,
  eventsOfAlarms,
  lastClosed,
  listAlarms,
  rulesOfAlarms,
} from "../../db/queries/alarms";
import { holdsOutstanding } from "../../db/queries/containment";
import type { FeatureRow } from "../../db/queries/features";
import { latestOf } from "../../lib/alarms/alarm-event";
import { nextStepWords } from "../../lib/alarms/alarm-state";
import type { AlarmGroup } from "../../lib/alarms/group-alarms";
import { happenedInShort } from "../../lib/alarms/what-happened";
import { storedExcursionIn } from "../../lib/evaluation/excursion-words";
import { database } from "../database";
import { words } from "../language/language";
import { plant } from "../plant";
import { boardShown } from "../shown/lengths";
import { groupOpen, type NamedAlarm, withCodes } from "./grouping";

export type QueuedAlarm = NamedAlarm & {
  feature: FeatureRow;
  events: AlarmEventRow[];
  /** What fired, in a sentence. */
  happened: string;
  /** Pieces on hold under it. */
  held: number;
  /** What is still wanted of a person. */
  next: string;
};

export type AlarmQueue = {
  groups: AlarmGroup<QueuedAlarm>[];
  shelved: QueuedAlarm[];
  closed: QueuedAlarm[];
  features: number;
};

const CLOSED_SHOWN = 15;

/** Every open alarm, grouped under the source that may be behind it, and the last ones that were closed. */
export async function loadQueue(): Promise<AlarmQueue> {
  const db = await database();
  const { now } = await plant();
  const { alarms, rules: ruleWords } = await words();
  await endShelvings(db, { now });
  const open = await withCodes(db, await listAlarms(db, { open: true }));
  const closed = await withCodes(db, await lastClosed(db, CLOSED_SHOWN));
  const board = await boardShown(db);
  const features = new Map(board.map(({ feature }) => [feature.id, feature]));
  const events = await eventsOfAlarms(
    db,
    [...open, ...closed].map(({ id }) => id),
  );
  const rules = await rulesOfAlarms(db, [...open, ...closed]);
  const held = new Map<number, number>();
  for (const { alarmId } of await holdsOutstanding(db)) held.set(alarmId, (held.get(alarmId) ?? 0) + 1);

  const queued = (row: NamedAlarm): QueuedAlarm[] => {
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
        happened: happenedInShort(
          rules.get(row.id) ?? [],
          {
            chart: feature.plan.counts ? "counts" : feature.plan.chart,
            words: storedExcursionIn(row.words, ruleWords),
          },
          alarms.happened,
        ),
        next: nextStepWords({ ...row, ...facts }, alarms),
      },
    ];
  };
  const all = open.flatMap(queued);
  const waiting = all.filter(({ state }) => state !== "shelved");
  return {
    groups: await groupOpen(db, { alarms: waiting, board }),
    shelved: all.filter(({ state }) => state === "shelved"),
    closed: closed.flatMap(queued),
    features: board.length,
  };
}
