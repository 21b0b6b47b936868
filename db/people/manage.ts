import { and, asc, desc, eq, gt, isNull, ne } from "drizzle-orm";
import { isRole, type Role } from "../../lib/people/roles";
import { type Refused, refused, refusedAs } from "../../lib/words/refusal";
import { type AccountSaved, createAccount } from "../commands/accounts";
import { type Actor, record } from "../commands/audit";
import { type Connection, connectionOf, type Database, write } from "../connection";
import { account, session } from "../schema";
import { invitation } from "../schema-people";
import { hashPassword, passwordFault } from "./password";
import { digestOf, newToken } from "./token";

/** Long enough for somebody on the other shift. */
export const INVITATION_MS = 7 * 24 * 60 * 60 * 1000;

export type PersonRow = {
  id: number;
  login: string;
  name: string;
  roles: Role[];
  demo: boolean;
  hasPassword: boolean;
  hasPin: boolean;
  deactivatedAt: number | null;
};

export type SessionRow = {
  id: string;
  device: string;
  createdAt: number;
  expiresAt: number;
  isThis: boolean;
};

type Done = { ok: true } | Refused;

/** Everybody who has or had an account, by name. */
export async function listPeople(database: Database): Promise<PersonRow[]> {
  return connectionOf(database)
    .orm.select()
    .from(account)
    .orderBy(asc(account.name), asc(account.id))
    .all()
    .map((row) => ({
      id: row.id,
      login: row.login,
      name: row.name,
      roles: row.roles.filter(isRole),
      demo: row.demo,
      hasPassword: row.passwordHash !== "",
      hasPin: row.pinHash !== null,
      deactivatedAt: row.deactivatedAt,
    }));
}

/** Adds a person who chooses a password with a one-time link; the secret of that link is shown once. */
export async function addInvited(
  database: Database,
  { entry, actor }: { entry: { login: string; name: string; roles: readonly Role[] }; actor: Actor },
): Promise<(AccountSaved & { ok: true; token: string }) | Refused> {
  const saved = await createAccount(database, { entry: { ...entry, password: null }, actor });
  if (!saved.ok) return saved;
  const invited = await invite(database, { id: saved.id, actor });
  return invited.ok ? { ...saved, token: invited.token } : invited;
}

/** A new link for a person: for the first password, or for one that was forgotten. The old password and sessions end. */
export async function invite(
  database: Database,
  { id, actor }: { id: number; actor: Actor },
): Promise<{ ok: true; token: string } | Refused> {
  const token = newToken();
  return write(database, (connection) => {
    const { orm } = connection;
    const row = orm.select().from(account).where(eq(account.id, id)).get();
    if (!row || row.deactivatedAt !== null) return refused("account-inactive");
    orm.update(account).set({ passwordHash: "", pinHash: null }).where(eq(account.id, id)).run();
    orm.delete(session).where(eq(session.accountId, id)).run();
    const link = { tokenDigest: digestOf(token), expiresAt: Date.now() + INVITATION_MS };
    orm
      .insert(invitation)
      .values({ accountId: id, ...link })
      .onConflictDoUpdate({ target: invitation.accountId, set: link })
      .run();
    record(connection, actor, { action: "give link for a password", subject: row.login });
    return { ok: true, token };
  });
}

/** Sets the password with the link's secret, which then ends; gives the account's id. */
export async function acceptInvitation(
  database: Database,
  { token, password, now }: { token: string; password: string; now: number },
): Promise<AccountSaved> {
  const fault = passwordFault(password);
  if (fault) return refusedAs(fault);
  const passwordHash = await hashPassword(password);
  return write(database, (connection) => {
    const { orm } = connection;
    const link = orm
      .select()
      .from(invitation)
      .where(and(eq(invitation.tokenDigest, digestOf(token)), gt(invitation.expiresAt, now)))
      .get();
    const row = link && orm.select().from(account).where(eq(account.id, link.accountId)).get();
    if (!row || row.deactivatedAt !== null) return refused("invitation-ended");
    orm.delete(invitation).where(eq(invitation.accountId, row.id)).run();
    orm.update(account).set({ passwordHash }).where(eq(account.id, row.id)).run();
    record(connection, { accountId: row.id, at: now }, { action: "choose password", subject: row.login });
    return { ok: true, id: row.id };
  });
}

/** Changes a person's own password and ends their other sessions. The caller has checked the old one. */
export async function changePassword(
  database: Database,
  { id, password, keep, actor }: { id: number; password: string; keep: string; actor: Actor },
): Promise<Done> {
  const fault = passwordFault(password);
  if (fault) return refusedAs(fault);
  const passwordHash = await hashPassword(password);
  return write(database, (connection) => {
    const { orm } = connection;
    const row = orm.select().from(account).where(eq(account.id, id)).get();
    if (!row) return refused("account-gone");
    orm.update(account).set({ passwordHash }).where(eq(account.id, id)).run();
    orm
      .delete(session)
      .where(and(eq(session.accountId, id), ne(session.tokenDigest, digestOf(keep))))
      .run();
    record(connection, actor, { action: "change password", subject: row.login });
    return { ok: true };
  });
}

/** Changes name, roles and whether the account is active. One active admin always stays. */
export async function changePerson(
  database: Database,
  {
    id,
    changes,
    reason,
    actor,
  }: {
    id: number;
    changes: { name: string; roles: readonly Role[]; isActive: boolean };
    reason: string;
    actor: Actor;
  },
): Promise<Done> {
  const name = changes.name.trim();
  if (name === "" || name.length > 80) return refused("name-length");
  if (changes.roles.length === 0) return refused("roles-none-left");
  return write(database, (connection) => {
    const { orm } = connection;
    const row = orm.select().from(account).where(eq(account.id, id)).get();
    if (!row) return refused("account-gone");
    const staysAdmin = changes.isActive && changes.roles.includes("admin");
    if (
      row.roles.includes("admin") &&
      row.deactivatedAt === null &&
      !staysAdmin &&
      otherAdmins(connection, id) === 0
    )
      return refused("only-admin");
    const deactivatedAt = changes.isActive ? null : (row.deactivatedAt ?? actor.at);
    const roles = [...changes.roles];
    orm.update(account).set({ name, roles, deactivatedAt }).where(eq(account.id, id)).run();
    if (!changes.isActive) {
      orm.delete(session).where(eq(session.accountId, id)).run();
      orm.delete(invitation).where(eq(invitation.accountId, id)).run();
    }
    record(connection, actor, {
      action: "change account",
      subject: row.login,
      before: { name: row.name, roles: row.roles, isActive: row.deactivatedAt === null },
      after: { name, roles, isActive: changes.isActive },
      reason,
    });
    return { ok: true };
  });
}

function otherAdmins({ orm }: Connection, id: number): number {
  const rows = orm
    .select()
    .from(account)
    .where(and(ne(account.id, id), isNull(account.deactivatedAt)))
    .all();
  return rows.filter(({ roles }) => roles.includes("admin")).length;
}

/** A person's open sessions, the newest first. `token` is the one that asks. */
export async function sessionsOf(
  database: Database,
  { accountId, token, now }: { accountId: number; token: string; now: number },
): Promise<SessionRow[]> {
  const own = digestOf(token);
  return connectionOf(database)
    .orm.select()
    .from(session)
    .where(and(eq(session.accountId, accountId), gt(session.expiresAt, now)))
    .orderBy(desc(session.createdAt))
    .all()
    .map(({ tokenDigest, device, createdAt, expiresAt }) => ({
      id: tokenDigest,
      device: device || "a browser",
      createdAt,
      expiresAt,
      isThis: tokenDigest === own,
    }));
}

/** Ends one of a person's own sessions; false when it is not theirs or has ended. */
export async function endSessionById(
  database: Database,
  { accountId, id, actor }: { accountId: number; id: string; actor: Actor },
): Promise<boolean> {
  return write(database, (connection) => {
    const { changes } = connection.orm
      .delete(session)
      .where(and(eq(session.tokenDigest, id), eq(session.accountId, accountId)))
      .run();
    if (changes > 0) record(connection, actor, { action: "end session", subject: `account ${accountId}` });
    return changes > 0;
  });
}
