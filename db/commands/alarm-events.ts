import type { AlarmEventKind, EventDetail } from "../../lib/alarms/alarm-event";
import type { Connection } from "../connection";
import { alarmEvent } from "../schema-alarms";

/** Appends to an alarm's history, inside the transaction of the change; returns the event's id. */
export function addEvent(
  { orm }: Connection,
  event: {
    alarmId: number;
    at: number;
    kind: AlarmEventKind;
    note?: string;
    detail?: EventDetail;
    accountId?: number | null;
  },
): number {
  return orm.insert(alarmEvent).values(event).returning({ id: alarmEvent.id }).get().id;
}

/** Notes that a shelving has run out, at the moment it did; false while it has not, or where there is none. */
export function endedShelving(
  connection: Connection,
  { id, shelvedUntil }: { id: number; shelvedUntil: number | null },
  at: number,
): boolean {
  if (shelvedUntil === null || shelvedUntil > at) return false;
  addEvent(connection, { alarmId: id, at: shelvedUntil, kind: "unshelved" });
  return true;
}
