import { and, asc, desc, eq, gte, like, lt, lte, or, type SQL } from "drizzle-orm";
import { connectionOf, type Database } from "../connection";
import { account, audit } from "../schema";
import { apiKey } from "../schema-live";

export type RecordLine = {
  id: number;
  at: number;
  /** Name of the person, "key …" for a machine, "the program" otherwise. */
  who: string;
  action: string;
  subject: string;
  before: string | null;
  after: string | null;
  reason: string;
  digest: string;
};

export type RecordFilter = {
  /** Found in action, subject, reason, or what was before and after. */
  text?: string;
  accountId?: number | null;
  /** UTC milliseconds, both included. */
  from?: number | null;
  to?: number | null;
};

/** Lines of the record, the newest first, older than line `before`. Reads by the primary key. */
export async function recordLines(
  database: Database,
  { filter, before, count }: { filter: RecordFilter; before?: number | null; count: number },
): Promise<RecordLine[]> {
  const { orm } = connectionOf(database);
  const rows = orm
    .select({ line: audit, person: account.name, key: apiKey.name })
    .from(audit)
    .leftJoin(account, eq(account.id, audit.accountId))
    .leftJoin(apiKey, eq(apiKey.id, audit.keyId))
    .where(and(...conditions(filter), before ? lt(audit.id, before) : undefined))
    .orderBy(desc(audit.id))
    .limit(count)
    .all();
  return rows.map(({ line: { accountId: _, keyId: __, ...line }, person, key }) => ({
    ...line,
    who: person ?? (key === null ? "the program" : `key ${key}`),
  }));
}

/** Everybody whose name the record can carry, for a choice. */
export async function peopleOfRecord(database: Database): Promise<{ id: number; name: string }[]> {
  return connectionOf(database)
    .orm.select({ id: account.id, name: account.name })
    .from(account)
    .orderBy(asc(account.name))
    .all();
}

function conditions({ text, accountId, from, to }: RecordFilter): (SQL | undefined)[] {
  return [
    text ? wordsIn(text) : undefined,
    accountId ? eq(audit.accountId, accountId) : undefined,
    from ? gte(audit.at, from) : undefined,
    to ? lte(audit.at, to) : undefined,
  ];
}

/** "%" and "_" of the text mean themselves nowhere else than in LIKE, where they find a little more. */
function wordsIn(text: string): SQL | undefined {
  const pattern = `%${text}%`;
  const columns = [audit.action, audit.subject, audit.reason, audit.before, audit.after];
  return or(...columns.map((column) => like(column, pattern)));
}
