import { asc, eq, inArray, max } from "drizzle-orm";
import type { Decision } from "../../lib/alarms/alarm-event";
import { type Connection, connectionOf, type Database } from "../connection";
import { account, piece } from "../schema";
import { alarm, alarmEvent, containment } from "../schema-alarms";

/** The decision that holds for one piece under one alarm. */
export type PieceDecision = {
  alarmId: number;
  featureId: number;
  pieceId: number;
  serial: string;
  decision: Decision;
  at: number;
  by: string | null;
  note: string;
};

/** What holds for the pieces of one alarm, in the order of decisions. */
export async function decisionsOf(database: Database, alarmId: number): Promise<PieceDecision[]> {
  return readDecisions(connectionOf(database), alarmId);
}

/** For functions of db/ that are inside a transaction. */
export function readDecisions(connection: Connection, alarmId: number): PieceDecision[] {
  const latest = latestOf(connection)
    .where(eq(containment.alarmId, alarmId))
    .groupBy(containment.pieceId)
    .all();
  return decisionsWith(connection, latest);
}

/** Every piece that is held by any alarm, the longest held first. */
export async function holdsOutstanding(database: Database): Promise<PieceDecision[]> {
  const connection = connectionOf(database);
  const latest = latestOf(connection).groupBy(containment.alarmId, containment.pieceId).all();
  return decisionsWith(connection, latest).filter(({ decision }) => decision === "hold");
}

function latestOf({ orm }: Connection) {
  return orm
    .select({ id: max(containment.id) })
    .from(containment)
    .$dynamic();
}

/** Most bound values in one statement that SQLite takes is 32,766; this stays far below. */
const IDS_AT_ONCE = 5_000;

function decisionsWith({ orm }: Connection, latest: { id: number | null }[]): PieceDecision[] {
  const ids = latest.flatMap(({ id }) => id ?? []);
  const found: PieceDecision[] = [];
  for (let from = 0; from < ids.length; from += IDS_AT_ONCE) {
    const rows = orm
      .select({
        alarmId: containment.alarmId,
        featureId: alarm.featureId,
        pieceId: containment.pieceId,
        serial: piece.serial,
        decision: containment.decision,
        at: alarmEvent.at,
        by: account.name,
        note: alarmEvent.note,
      })
      .from(containment)
      .innerJoin(alarmEvent, eq(alarmEvent.id, containment.eventId))
      .innerJoin(alarm, eq(alarm.id, containment.alarmId))
      .innerJoin(piece, eq(piece.id, containment.pieceId))
      .leftJoin(account, eq(account.id, alarmEvent.accountId))
      .where(inArray(containment.id, ids.slice(from, from + IDS_AT_ONCE)))
      .orderBy(asc(containment.id))
      .all();
    for (const row of rows) found.push({ ...row, decision: row.decision as Decision });
  }
  return found;
}
