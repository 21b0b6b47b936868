import { and, asc, eq, gt, isNotNull } from "drizzle-orm";
import { isRole, type Role } from "../../lib/people/roles";
import { connectionOf, type Database } from "../connection";
import { digestOf } from "../people/token";
import { account, session, setting } from "../schema";
import { plantSettings } from "./settings";

export type Account = { id: number; login: string; name: string; roles: Role[]; demo: boolean };

/** False while the first account still has to be set up. */
export async function hasAccounts(database: Database): Promise<boolean> {
  return connectionOf(database).orm.select({ id: account.id }).from(account).limit(1).get() !== undefined;
}

/** The demo's accounts in the order in which they were created; none outside demo mode. */
export async function demoAccounts(database: Database): Promise<Account[]> {
  if (!(await plantSettings(database)).demo) return [];
  return connectionOf(database)
    .orm.select()
    .from(account)
    .where(eq(account.demo, true))
    .orderBy(asc(account.id))
    .all()
    .map(accountRow);
}

/** An account that may act; null for one that is not there, is deactivated, or is the demo's outside a demo. */
export async function accountById(database: Database, id: number): Promise<Account | null> {
  const row = connectionOf(database).orm.select().from(account).where(eq(account.id, id)).get();
  return row ? admitted(database, row) : null;
}

/** Those who can put their name to an act by a PIN, by name. */
export async function accountsWithPin(database: Database): Promise<Account[]> {
  const rows = connectionOf(database)
    .orm.select()
    .from(account)
    .where(isNotNull(account.pinHash))
    .orderBy(asc(account.name))
    .all();
  const admittedOnes = await Promise.all(rows.map((row) => admitted(database, row)));
  return admittedOnes.filter((each) => each !== null);
}

/** Whose session this token opens at `now`; null when it has ended or never was. */
export async function accountOfSession(
  database: Database,
  { token, now }: { token: string; now: number },
): Promise<Account | null> {
  const row = connectionOf(database)
    .orm.select({ account })
    .from(session)
    .innerJoin(account, eq(account.id, session.accountId))
    .where(and(eq(session.tokenDigest, digestOf(token)), gt(session.expiresAt, now)))
    .get();
  return row ? admitted(database, row.account) : null;
}

/** Key of the setting that holds the digest of the link for the first account. */
export const SET_UP_SETTING = "set-up-link";
/** What is stored of a link: the digest of its secret, and when it ends. */
export type SetUpLink = { digest: string; expiresAt: number };

export function setUpLinkOf(row: { value: string } | undefined): SetUpLink | null {
  return row ? (JSON.parse(row.value) as SetUpLink) : null;
}

/** Whether this token is the one of the link that sets up the first account, and that is still to be done. */
export async function mayBeSetUp(
  database: Database,
  { token, now }: { token: string; now: number },
): Promise<boolean> {
  const row = connectionOf(database)
    .orm.select({ value: setting.value })
    .from(setting)
    .where(eq(setting.key, SET_UP_SETTING))
    .get();
  const link = setUpLinkOf(row);
  const holds = link?.digest === digestOf(token) && now < link.expiresAt;
  return holds && !(await hasAccounts(database));
}

/** Refused are accounts that are deactivated, and those of the demo outside demo mode. */
async function admitted(database: Database, row: typeof account.$inferSelect): Promise<Account | null> {
  if (row.deactivatedAt !== null) return null;
  return !row.demo || (await plantSettings(database)).demo ? accountRow(row) : null;
}

function accountRow(row: typeof account.$inferSelect): Account {
  const { id, login, name, demo } = row;
  return { id, login, name, demo, roles: row.roles.filter(isRole) };
}
