import { asc, count, desc, eq, inArray, max } from "drizzle-orm";
import type { StudyWindow } from "../../lib/capability/feature-study";
import type { StatedReadings, StatementContent } from "../../lib/statement/content";
import { type Refused, refused } from "../../lib/words/refusal";
import { type Connection, connectionOf, type Database } from "../connection";
import { account, lot, part } from "../schema";
import { capabilityStatement, statementShare, statementView } from "../schema-statements";
import { digestOf, tokenDigest, unpackedContent, unpackedReadings } from "../statement-pack";

export type StatementRow = {
  id: number;
  title: string;
  part: { id: number; number: string; revision: string; name: string };
  frozenAt: number;
  signedBy: string | null;
  features: number;
  supersedes: number | null;
  supersededBy: number | null;
};

export type Statement = StatementRow & {
  content: StatementContent;
  contentDigest: string;
  readingsDigest: string;
  /** Both digests still are those of what is kept. */
  isWhole: boolean;
};

/** Statements, the latest first. */
export async function listStatements(
  database: Database,
  { partId }: { partId?: number } = {},
): Promise<StatementRow[]> {
  const rows = selectRows(connectionOf(database))
    .where(partId === undefined ? undefined : eq(capabilityStatement.partId, partId))
    .orderBy(desc(capabilityStatement.id))
    .all();
  const successors = successorsOf(connectionOf(database));
  return rows.map((row) => ({ ...row, supersededBy: successors.get(row.id) ?? null }));
}

/** One statement as it was signed; null when there is none. */
export async function statementById(database: Database, id: number): Promise<Statement | null> {
  const connection = connectionOf(database);
  const row = selectRows(connection).where(eq(capabilityStatement.id, id)).get();
  const kept = connection.orm.select().from(capabilityStatement).where(eq(capabilityStatement.id, id)).get();
  if (!row || !kept) return null;
  return {
    ...row,
    supersededBy: successorsOf(connection).get(id) ?? null,
    content: unpackedContent(kept.content),
    contentDigest: kept.contentDigest,
    readingsDigest: kept.readingsDigest,
    isWhole: digestOf(kept.content) === kept.contentDigest && digestOf(kept.readings) === kept.readingsDigest,
  };
}

/** The readings behind a statement, feature by feature; empty when there is no such statement. */
export async function statementReadings(database: Database, id: number): Promise<StatedReadings[]> {
  const kept = connectionOf(database)
    .orm.select({ readings: capabilityStatement.readings })
    .from(capabilityStatement)
    .where(eq(capabilityStatement.id, id))
    .get();
  return kept ? unpackedReadings(kept.readings) : [];
}

function selectRows({ orm }: Connection) {
  return orm
    .select({
      id: capabilityStatement.id,
      title: capabilityStatement.title,
      part: { id: part.id, number: part.number, revision: part.revision, name: part.name },
      frozenAt: capabilityStatement.frozenAt,
      signedBy: account.name,
      features: capabilityStatement.features,
      supersedes: capabilityStatement.supersedes,
    })
    .from(capabilityStatement)
    .innerJoin(part, eq(part.id, capabilityStatement.partId))
    .leftJoin(account, eq(account.id, capabilityStatement.accountId))
    .$dynamic();
}

function successorsOf({ orm }: Connection): Map<number, number> {
  const rows = orm
    .select({ id: capabilityStatement.id, supersedes: capabilityStatement.supersedes })
    .from(capabilityStatement)
    .all();
  return new Map(rows.flatMap(({ id, supersedes }) => (supersedes === null ? [] : [[supersedes, id]])));
}

export type ShareRow = {
  id: number;
  recipient: string;
  createdAt: number;
  expiresAt: number;
  revokedAt: number | null;
  by: string | null;
  views: number;
  lastViewAt: number | null;
};

/** The links of a statement, the latest first, with how often each was used. */
export async function sharesOf(database: Database, statementId: number): Promise<ShareRow[]> {
  return connectionOf(database)
    .orm.select({
      id: statementShare.id,
      recipient: statementShare.recipient,
      createdAt: statementShare.createdAt,
      expiresAt: statementShare.expiresAt,
      revokedAt: statementShare.revokedAt,
      by: account.name,
      views: count(statementView.id),
      lastViewAt: max(statementView.at),
    })
    .from(statementShare)
    .leftJoin(account, eq(account.id, statementShare.accountId))
    .leftJoin(statementView, eq(statementView.shareId, statementShare.id))
    .where(eq(statementShare.statementId, statementId))
    .groupBy(statementShare.id)
    .orderBy(desc(statementShare.id))
    .all();
}

export type OpenShare = { shareId: number; statementId: number; recipient: string; expiresAt: number };

/** What a token opens at a moment; null for an unknown, revoked or expired one, which are not told apart. */
export async function openShare(
  database: Database,
  { token, now }: { token: string; now: number },
): Promise<OpenShare | null> {
  const row = connectionOf(database)
    .orm.select()
    .from(statementShare)
    .where(eq(statementShare.tokenDigest, tokenDigest(token)))
    .get();
  if (!row || row.revokedAt !== null || row.expiresAt <= now) return null;
  return {
    shareId: row.id,
    statementId: row.statementId,
    recipient: row.recipient,
    expiresAt: row.expiresAt,
  };
}

/** Ids of lots by their codes; unknown codes are left out. */
export async function lotIds(database: Database, codes: readonly string[]): Promise<Map<string, number>> {
  if (codes.length === 0) return new Map();
  const rows = connectionOf(database)
    .orm.select({ id: lot.id, code: lot.code })
    .from(lot)
    .where(inArray(lot.code, [...codes]))
    .orderBy(asc(lot.id))
    .all();
  return new Map(rows.map(({ id, code }) => [code, id]));
}

/** The window of a study that a statement speaks of; refused where a lot is not known. */
export async function statementWindow(
  database: Database,
  { from, to, lots }: { from: number | null; to: number | null; lots: string[] | null },
): Promise<{ ok: true; value: StudyWindow } | (Refused & { unknown: string[] })> {
  if (lots === null) return { ok: true, value: { from, to, lots: null } };
  const ids = await lotIds(database, lots);
  const unknown = lots.filter((code) => !ids.has(code));
  if (unknown.length > 0) {
    const named = unknown.slice(0, 5);
    return { ...refused("statement-lots", named.join(", ")), unknown: named };
  }
  return { ok: true, value: { from, to, lots: new Set(ids.values()) } };
}
