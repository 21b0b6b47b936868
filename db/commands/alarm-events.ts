import type { AlarmEventKind, EventDetail } from "../../lib/alarms/alarm-event";
import { type Connection, once } from "../connection";

/** Appends to an alarm's history, inside the transaction of the change; returns the event's id. */
export function addEvent(
  connection: Connection,
  {
    alarmId,
    at,
    kind,
    note = "",
    detail,
    accountId = null,
  }: {
    alarmId: number;
    at: number;
    kind: AlarmEventKind;
    note?: string;
    detail?: EventDetail;
    accountId?: number | null;
  },
): number {
  const { lastInsertRowid } = insertEvent(connection).run(
    alarmId,
    at,
    kind,
    note,
    detail === undefined ? null : JSON.stringify(detail),
    accountId,
  );
  return Number(lastInsertRowid);
}

const insertEvent = once(({ sqlite }) =>
  sqlite.prepare(
    "insert into alarm_event (alarm_id, at, kind, note, detail, account_id) values (?, ?, ?, ?, ?, ?)",
  ),
);

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
