import { and, asc, between, desc, eq, gte, inArray, lt, min, ne, type SQL } from "drizzle-orm";
import type { AlarmEvent, AlarmEventKind, EventDetail } from "../../lib/alarms/alarm-event";
import type { AlarmFacts, AlarmState } from "../../lib/alarms/alarm-state";
import type { ExcursionRule } from "../../lib/evaluation/progress";
import type { Origin } from "../../lib/measurements/series";
import { type Connection, connectionOf, type Database } from "../connection";
import { account, signal } from "../schema";
import { alarm, alarmEvent } from "../schema-alarms";

export type AlarmRow = AlarmFacts & {
  id: number;
  featureId: number;
  /** As of the last act or measurement; see `endShelvings` for a shelving that runs out. */
  state: AlarmState;
  firstAt: number;
  latestAt: number;
  words: string;
  raisedAt: number;
  reactionPlanId: number | null;
  /** Lot and sources of the measurement that completed its first signal; null where nobody kept them. */
  origin: Partial<Origin> | null;
};

/** An event with the alarm it belongs to. */
export type AlarmEventRow = AlarmEvent & { alarmId: number };

/** Alarms, the latest first; `open` leaves out the closed ones, `since` those raised before. */
export async function listAlarms(
  database: Database,
  {
    featureId,
    open = false,
    since,
    ids,
  }: { featureId?: number; open?: boolean; since?: number; ids?: readonly number[] } = {},
): Promise<AlarmRow[]> {
  return connectionOf(database)
    .orm.select()
    .from(alarm)
    .where(
      and(
        featureId === undefined ? undefined : eq(alarm.featureId, featureId),
        since === undefined ? undefined : gte(alarm.raisedAt, since),
        open ? ne(alarm.state, "closed") : undefined,
        ids === undefined ? undefined : inArray(alarm.id, [...ids]),
      ),
    )
    .orderBy(desc(alarm.latestAt), desc(alarm.id))
    .all()
    .map(alarmRow);
}

/**
 * What fired in each alarm's excursion, each rule and side once, in the order of time; none where the signals are
 * gone. Reads the signals of the alarms' features by their key.
 */
export async function rulesOfAlarms(
  database: Database,
  alarms: readonly Pick<AlarmRow, "id" | "featureId" | "firstAt" | "latestAt">[],
): Promise<Map<number, ExcursionRule[]>> {
  const { orm } = connectionOf(database);
  const found = new Map<number, ExcursionRule[]>();
  for (const { id, featureId, firstAt, latestAt } of alarms) {
    const rows = orm
      .select({ chart: signal.chart, rule: signal.rule, direction: signal.direction })
      .from(signal)
      .where(and(eq(signal.featureId, featureId), between(signal.atTime, firstAt, latestAt)))
      .groupBy(signal.chart, signal.rule, signal.direction)
      .orderBy(min(signal.at))
      .all();
    found.set(
      id,
      rows.map((row) => row as ExcursionRule),
    );
  }
  return found;
}

/** The alarms that were closed last, the latest first. */
export async function lastClosed(database: Database, count: number): Promise<AlarmRow[]> {
  return connectionOf(database)
    .orm.select()
    .from(alarm)
    .where(eq(alarm.state, "closed"))
    .orderBy(desc(alarm.closedAt), desc(alarm.id))
    .limit(count)
    .all()
    .map(alarmRow);
}

/** Null when there is no such alarm. */
export async function alarmById(database: Database, id: number): Promise<AlarmRow | null> {
  return readAlarm(connectionOf(database), id);
}

/** For functions of db/ that are inside a transaction. */
export function readAlarm({ orm }: Connection, id: number): AlarmRow | null {
  const row = orm.select().from(alarm).where(eq(alarm.id, id)).get();
  return row ? alarmRow(row) : null;
}

function alarmRow(row: typeof alarm.$inferSelect): AlarmRow {
  return { ...row, state: row.state as AlarmState };
}

/** Everything that happened to one alarm, in order. */
export async function eventsOfAlarm(database: Database, alarmId: number): Promise<AlarmEventRow[]> {
  return readEvents(connectionOf(database), eq(alarmEvent.alarmId, alarmId));
}

/** For functions of db/ that are inside a transaction. */
export function readEventsOf(connection: Connection, alarmId: number): AlarmEventRow[] {
  return readEvents(connection, eq(alarmEvent.alarmId, alarmId));
}

/** Everything that happened to any alarm in [from, to), in order. */
export async function alarmEventsBetween(
  database: Database,
  { from, to }: { from: number; to: number },
): Promise<AlarmEventRow[]> {
  return readEvents(connectionOf(database), and(gte(alarmEvent.at, from), lt(alarmEvent.at, to)));
}

/** Most bound values in one statement that SQLite takes is 32,766; this stays far below. */
const IDS_AT_ONCE = 5_000;

/** The same for several alarms, by alarm; one without events is not in it. */
export async function eventsOfAlarms(
  database: Database,
  alarmIds: readonly number[],
): Promise<Map<number, AlarmEventRow[]>> {
  const connection = connectionOf(database);
  const events = new Map<number, AlarmEventRow[]>();
  for (let from = 0; from < alarmIds.length; from += IDS_AT_ONCE) {
    const wanted = alarmIds.slice(from, from + IDS_AT_ONCE);
    for (const event of readEvents(connection, inArray(alarmEvent.alarmId, wanted)))
      events.set(event.alarmId, [...(events.get(event.alarmId) ?? []), event]);
  }
  return events;
}

function readEvents({ orm }: Connection, where: SQL | undefined): AlarmEventRow[] {
  return orm
    .select({ event: alarmEvent, by: account.name })
    .from(alarmEvent)
    .leftJoin(account, eq(account.id, alarmEvent.accountId))
    .where(where)
    .orderBy(asc(alarmEvent.id))
    .all()
    .map(({ event, by }) => ({
      id: event.id,
      alarmId: event.alarmId,
      at: event.at,
      kind: event.kind as AlarmEventKind,
      note: event.note,
      detail: (event.detail ?? {}) as EventDetail,
      by,
    }));
}
