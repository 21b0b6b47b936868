import { eq, lte, sql } from "drizzle-orm";
import { type AlarmAct, DEPENDS_ON_STATE } from "../../lib/alarms/alarm-act";
import type { AlarmEvent } from "../../lib/alarms/alarm-event";
import { type AlarmState, stateFrom } from "../../lib/alarms/alarm-state";
import { type Refused, refused } from "../../lib/words/refusal";
import { type Connection, connectionOf, type Database, write } from "../connection";
import { readEventsOf } from "../queries/alarms";
import { alarm } from "../schema-alarms";
import { carryOut } from "./alarm-acts";
import { endedShelving } from "./alarm-events";
import { type Actor, record } from "./audit";
import { tell } from "./news";

export type ActOutcome =
  | { ok: true; state: AlarmState; seen: number }
  /** `since`: what happened after the event that the person had seen; empty unless that is why. */
  | (Refused & { since: AlarmEvent[]; seen: number });

/**
 * What a person does to an alarm: one act or several that belong together, all of them or none, in one transaction
 * with their lines in the alarm's history and in the record.
 *
 * `seen` is the last event that the person had before them (0 for none). When another person did something
 * meanwhile, or measurements did where an act depends on the state, nothing is saved and the outcome says what
 * that was: two people at one alarm never undo each other's work unseen.
 */
export async function actOnAlarm(
  database: Database,
  { id, seen, acts, actor }: { id: number; seen: number; acts: readonly AlarmAct[]; actor: Actor },
): Promise<ActOutcome> {
  return write(database, (connection) => {
    const { orm } = connection;
    const stored = orm.select().from(alarm).where(eq(alarm.id, id)).get();
    if (!stored) return { ...refused("alarm-unknown", id), since: [], seen };
    const before = settled(connection, stored, actor.at);
    const events = readEventsOf(connection, id);
    const since = events.filter((event) => event.id > seen);
    const latest = events.at(-1)?.id ?? 0;
    const depends = acts.some(({ kind }) => DEPENDS_ON_STATE.has(kind));
    if (since.some(({ by }) => by !== null) || (since.length > 0 && depends))
      return { ...refused("alarm-changed"), since, seen: latest };

    orm.run(sql`savepoint acts`);
    let row = before;
    let lastEvent = latest;
    for (const act of acts) {
      const done = carryOut(connection, { row, events: readEventsOf(connection, id), act, actor });
      if (!done.ok) {
        orm.run(sql`rollback to acts`);
        return { ...done, since: [], seen: latest };
      }
      const state = stateFrom({ ...row, ...done.changes }, actor.at);
      record(connection, actor, {
        action: done.action,
        subject: `alarm ${id}`,
        before: row.state,
        after: { state, ...done.detail },
        reason: done.note,
      });
      row = { ...row, ...done.changes, state };
      lastEvent = done.eventId;
    }
    const { acknowledgedAt, shelvedUntil, closedAt } = row;
    const state = stateFrom(row, actor.at);
    orm.update(alarm).set({ state, acknowledgedAt, shelvedUntil, closedAt }).where(eq(alarm.id, id)).run();
    tell(connection, { kind: "alarm", what: "changed", alarmId: id, featureId: row.featureId });
    return { ok: true, state, seen: lastEvent };
  });
}

/** Brings shelvings that have run out back; returns how many. Takes the write lock only when there are any. */
export async function endShelvings(database: Database, { now }: { now: number }): Promise<number> {
  if (dueShelvings(connectionOf(database), now).length === 0) return 0;
  return write(database, (connection) => {
    const due = dueShelvings(connection, now);
    for (const row of due) {
      settled(connection, row, now);
      tell(connection, { kind: "alarm", what: "changed", alarmId: row.id, featureId: row.featureId });
    }
    return due.length;
  });
}

function dueShelvings({ orm }: Connection, now: number): (typeof alarm.$inferSelect)[] {
  return orm.select().from(alarm).where(lte(alarm.shelvedUntil, now)).all();
}

/** The alarm as it stands at this moment, its shelving ended where that has run out. */
function settled(
  connection: Connection,
  row: typeof alarm.$inferSelect,
  at: number,
): typeof alarm.$inferSelect {
  if (!endedShelving(connection, row, at)) return row;
  const state = stateFrom({ ...row, shelvedUntil: null }, at);
  connection.orm.update(alarm).set({ shelvedUntil: null, state }).where(eq(alarm.id, row.id)).run();
  return { ...row, shelvedUntil: null, state };
}
