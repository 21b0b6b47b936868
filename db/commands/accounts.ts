import { eq, lte } from "drizzle-orm";
import type { Role } from "../../lib/people/roles";
import { fault, type Refusal, type Refused, refused, refusedAs } from "../../lib/words/refusal";
import { type Connection, type Database, write } from "../connection";
import { hashPassword, passwordFault } from "../people/password";
import { digestOf, newToken } from "../people/token";
import { hasAccounts, mayBeSetUp, SET_UP_SETTING, type SetUpLink, setUpLinkOf } from "../queries/accounts";
import { account, session, setting } from "../schema";
import { type Actor, record } from "./audit";

/** A shift and the handover after it: nobody is asked to sign in twice in one shift. */
export const SESSION_MS = 12 * 60 * 60 * 1000;

/** The link is printed in a terminal, and terminals are scrolled through later: it ends after a day. */
export const SET_UP_MS = 24 * 60 * 60 * 1000;

export type AccountEntry = {
  login: string;
  name: string;
  /** Null for a person who chooses one with a link. */
  password: string | null;
  roles: readonly Role[];
  demo?: boolean;
  /** Of the demo's people; everybody else sets their own. */
  pin?: string;
};

export type AccountSaved = { ok: true; id: number } | Refused;

/** Adds a person. Refused, in words, when the login is taken or the entry will not do. */
export async function createAccount(
  database: Database,
  { entry, actor }: { entry: AccountEntry; actor: Actor },
): Promise<AccountSaved> {
  const fault = faultOf(entry);
  if (fault) return refusedAs(fault);
  const passwordHash = entry.password === null ? "" : await hashPassword(entry.password);
  const pinHash = entry.pin === undefined ? null : await hashPassword(entry.pin);
  return write(database, (connection) => add(connection, { entry, passwordHash, pinHash, actor }));
}

/**
 * Makes the link that sets up the first account, and returns its secret; null when there are accounts.
 *
 * Only its digest is stored. A newer link takes the place of the one before.
 */
export async function openSetUp(database: Database, { now }: { now: number }): Promise<string | null> {
  if (await hasAccounts(database)) return null;
  const token = newToken();
  const link: SetUpLink = { digest: digestOf(token), expiresAt: now + SET_UP_MS };
  const value = JSON.stringify(link);
  await write(database, ({ orm }) => {
    orm
      .insert(setting)
      .values({ key: SET_UP_SETTING, value })
      .onConflictDoUpdate({ target: setting.key, set: { value } })
      .run();
  });
  return token;
}

/** Creates the first account, an admin and engineer, with the secret of the set-up link, which then ends. */
export async function setUp(
  database: Database,
  {
    token,
    entry,
    at,
  }: { token: string; entry: Pick<AccountEntry, "login" | "name"> & { password: string }; at: number },
): Promise<AccountSaved> {
  const fault = faultOf({ ...entry, roles: ["admin"] });
  if (fault) return refusedAs(fault);
  if (!(await mayBeSetUp(database, { token, now: at }))) return refused("set-up-ended");
  const passwordHash = await hashPassword(entry.password);
  return write(database, (connection) => {
    const { orm } = connection;
    const link = orm.select().from(setting).where(eq(setting.key, SET_UP_SETTING)).get();
    // Between the first look and here the password was digested, and somebody else may have been quicker.
    if (setUpLinkOf(link)?.digest !== digestOf(token)) return refused("set-up-ended");
    orm.delete(setting).where(eq(setting.key, SET_UP_SETTING)).run();
    return add(connection, {
      entry: { ...entry, roles: ["admin", "engineer"] },
      passwordHash,
      actor: { accountId: null, at },
    });
  });
}

/** Begins a session and returns its token, which is stored only as a digest. Ended sessions are swept out. */
export async function createSession(
  database: Database,
  { accountId, device = "", now }: { accountId: number; device?: string; now: number },
): Promise<{ token: string; expiresAt: number }> {
  const token = newToken();
  const expiresAt = now + SESSION_MS;
  await write(database, ({ orm }) => {
    orm.delete(session).where(lte(session.expiresAt, now)).run();
    orm
      .insert(session)
      .values({ tokenDigest: digestOf(token), accountId, createdAt: now, expiresAt, device })
      .run();
  });
  return { token, expiresAt };
}

/** Ends a session; ending it twice is no fault. */
export async function endSession(database: Database, { token }: { token: string }): Promise<void> {
  await write(database, ({ orm }) => {
    orm
      .delete(session)
      .where(eq(session.tokenDigest, digestOf(token)))
      .run();
  });
}

function add(
  connection: Connection,
  {
    entry,
    passwordHash,
    pinHash = null,
    actor,
  }: { entry: AccountEntry; passwordHash: string; pinHash?: string | null; actor: Actor },
): AccountSaved {
  const { orm } = connection;
  const login = entry.login.trim().toLowerCase();
  const there = orm.select({ id: account.id }).from(account).where(eq(account.login, login)).get();
  if (there) return refused("login-taken", login);
  const row = {
    login,
    name: entry.name.trim(),
    roles: [...entry.roles],
    demo: entry.demo ?? false,
    createdAt: actor.at,
  };
  const { id } = orm
    .insert(account)
    .values({ ...row, passwordHash, pinHash })
    .returning({ id: account.id })
    .get();
  record(connection, actor, { action: "add account", subject: login, after: row });
  return { ok: true, id };
}

/** What will not do in an entry; null when all is well. */
function faultOf({ login, name, password, roles }: AccountEntry): Refusal | null {
  if (!/^[a-z0-9][a-z0-9._-]{0,39}$/.test(login.trim().toLowerCase())) return fault("login-letters");
  if (name.trim() === "" || name.trim().length > 80) return fault("name-length");
  if (roles.length === 0) return fault("roles-none");
  return password === null ? null : passwordFault(password);
}
