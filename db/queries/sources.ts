import { and, asc, desc, eq, gte, lte } from "drizzle-orm";
import { SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import { connectionOf, type Database } from "../connection";
import { account, cause, lot, source, sourceEvent } from "../schema";

export type SourceRow = { id: number; kind: SourceKind; code: string; notes: string; retired: boolean };

export const SOURCE_EVENTS = ["changed", "repaired", "adjusted", "calibrated", "moved"] as const;
export type SourceEventKind = (typeof SOURCE_EVENTS)[number];

export type SourceEventRow = {
  id: number;
  sourceId: number;
  kind: SourceKind;
  code: string;
  at: number;
  event: SourceEventKind;
  note: string;
  by: string | null;
};

/** Sources by kind in the order fixture, tool, machine, gauge, operator, setup, then by code. */
export async function listSources(database: Database): Promise<SourceRow[]> {
  const rows = connectionOf(database).orm.select().from(source).orderBy(asc(source.code)).all();
  const typed = rows.map((row) => ({ ...row, kind: row.kind as SourceKind }));
  return typed.sort((a, b) => SOURCE_KINDS.indexOf(a.kind) - SOURCE_KINDS.indexOf(b.kind));
}

/** What was done to sources, the latest first. */
export async function sourceEvents(
  database: Database,
  { sourceId, from, to }: { sourceId?: number; from?: number; to?: number } = {},
): Promise<SourceEventRow[]> {
  return connectionOf(database)
    .orm.select({
      id: sourceEvent.id,
      sourceId: sourceEvent.sourceId,
      kind: source.kind,
      code: source.code,
      at: sourceEvent.at,
      event: sourceEvent.kind,
      note: sourceEvent.note,
      by: account.name,
    })
    .from(sourceEvent)
    .innerJoin(source, eq(source.id, sourceEvent.sourceId))
    .leftJoin(account, eq(account.id, sourceEvent.accountId))
    .where(
      and(
        sourceId === undefined ? undefined : eq(sourceEvent.sourceId, sourceId),
        from === undefined ? undefined : gte(sourceEvent.at, from),
        to === undefined ? undefined : lte(sourceEvent.at, to),
      ),
    )
    .orderBy(desc(sourceEvent.at), desc(sourceEvent.id))
    .all()
    .map((row) => ({ ...row, kind: row.kind as SourceKind, event: row.event as SourceEventKind }));
}

export async function listLots(database: Database): Promise<{ id: number; code: string }[]> {
  return connectionOf(database).orm.select().from(lot).orderBy(asc(lot.id)).all();
}

/** Assigned causes to choose from, in the order in which the shop entered them. */
export async function listCauses(database: Database): Promise<string[]> {
  return connectionOf(database)
    .orm.select({ text: cause.text })
    .from(cause)
    .orderBy(asc(cause.id))
    .all()
    .map((row) => row.text);
}
