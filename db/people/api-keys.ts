import { and, desc, eq, isNull, sql } from "drizzle-orm";
import { isScope, type Scope } from "../../lib/people/scopes";
import { type Refused, refused } from "../../lib/words/refusal";
import { type Actor, record } from "../commands/audit";
import { type Connection, connectionOf, type Database, once, write } from "../connection";
import { account } from "../schema";
import { apiKey } from "../schema-live";
import { digestOf, newToken } from "./token";

/*
 * Keys of machines. A secret is 32 random bytes behind a few letters that tell what it is, so that one left in
 * a log or a file is recognised; as nobody can guess it, its plain SHA-256 is enough to keep.
 */

export type ApiKey = {
  id: number;
  name: string;
  /** The first characters of the secret. */
  hint: string;
  scopes: Scope[];
  createdAt: number;
  /** Who made it; null for the command line. */
  createdBy: string | null;
  expiresAt: number | null;
  lastUsedAt: number | null;
  revokedAt: number | null;
};

export type KeyEntry = { name: string; scopes: readonly Scope[]; expiresAt: number | null };

/** Why a secret lets nobody in: it is of no key, or of one that was ended or has run out. */
export type KeyFound =
  | { ok: true; key: ApiKey }
  | { ok: false; why: "unknown" }
  | { ok: false; why: "expired" | "revoked"; name: string; at: number };

const PREFIX = "srk_";
const HINT_LENGTH = PREFIX.length + 4;

/** Marking each use would add a write to every request. */
const USE_IS_MARKED_EVERY_MS = 60_000;

/** Makes a key and returns its secret, which is shown once and kept nowhere. */
export async function createApiKey(
  database: Database,
  { entry, actor }: { entry: KeyEntry; actor: Actor },
): Promise<{ ok: true; id: number; secret: string } | Refused> {
  const name = entry.name.trim();
  if (name === "" || name.length > 80) return refused("key-name");
  if (entry.scopes.length === 0) return refused("key-scopes");
  if (entry.expiresAt !== null && entry.expiresAt <= actor.at) return refused("key-past");
  const secret = `${PREFIX}${newToken()}`;
  return write(database, (connection) => {
    const row = {
      name,
      hint: secret.slice(0, HINT_LENGTH),
      scopes: [...entry.scopes],
      createdAt: actor.at,
      accountId: actor.accountId,
      expiresAt: entry.expiresAt,
    };
    const taken = connection.orm
      .select({ id: apiKey.id })
      .from(apiKey)
      .where(and(eq(apiKey.name, name), isNull(apiKey.revokedAt)))
      .get();
    if (taken) return refused("key-name-taken", name);
    const { id } = connection.orm
      .insert(apiKey)
      .values({ ...row, secretDigest: digestOf(secret) })
      .returning({ id: apiKey.id })
      .get();
    record(connection, actor, { action: "make key", subject: `key ${name}`, after: { id, ...row } });
    return { ok: true, id, secret };
  });
}

/** Ends a key at once and for good. */
export async function revokeApiKey(
  database: Database,
  { id, actor }: { id: number; actor: Actor },
): Promise<{ ok: true; name: string } | Refused> {
  return write(database, (connection) => {
    const row = connection.orm
      .update(apiKey)
      .set({ revokedAt: actor.at })
      .where(and(eq(apiKey.id, id), isNull(apiKey.revokedAt)))
      .returning({ name: apiKey.name })
      .get();
    if (!row) return refused("key-ended");
    record(connection, actor, { action: "end key", subject: `key ${row.name}`, after: { id } });
    return { ok: true, name: row.name };
  });
}

/** All keys, the newest first, ended ones included. */
export async function listApiKeys(database: Database): Promise<ApiKey[]> {
  return connectionOf(database)
    .orm.select({ key: apiKey, createdBy: account.name })
    .from(apiKey)
    .leftJoin(account, eq(account.id, apiKey.accountId))
    .orderBy(desc(apiKey.id))
    .all()
    .map(({ key, createdBy }) => keyRow(key, createdBy));
}

/** The key with this secret as it stands at `now`. Reads the index over digests. */
export async function apiKeyOf(
  database: Database,
  { secret, now }: { secret: string; now: number },
): Promise<KeyFound> {
  const row = bySecret(connectionOf(database)).get({ digest: digestOf(secret) });
  if (!row) return { ok: false, why: "unknown" };
  const { name, revokedAt, expiresAt } = row;
  if (revokedAt !== null) return { ok: false, why: "revoked", name, at: revokedAt };
  if (expiresAt !== null && expiresAt <= now) return { ok: false, why: "expired", name, at: expiresAt };
  return { ok: true, key: keyRow(row, null) };
}

/** Whether a key still lets in; for a stream that a key has opened. */
export async function isKeyInForce(
  database: Database,
  { id, now }: { id: number; now: number },
): Promise<boolean> {
  const row = connectionOf(database).orm.select().from(apiKey).where(eq(apiKey.id, id)).get();
  return row !== undefined && row.revokedAt === null && (row.expiresAt === null || row.expiresAt > now);
}

const bySecret = once(({ orm }) =>
  orm
    .select()
    .from(apiKey)
    .where(eq(apiKey.secretDigest, sql.placeholder("digest")))
    .prepare(),
);

/** Notes that a key was used, to the minute; inside the caller's transaction. */
export function markUse({ orm }: Connection, { id, lastUsedAt }: ApiKey, now: number): void {
  if (lastUsedAt !== null && now - lastUsedAt < USE_IS_MARKED_EVERY_MS) return;
  orm.update(apiKey).set({ lastUsedAt: now }).where(eq(apiKey.id, id)).run();
}

function keyRow(row: typeof apiKey.$inferSelect, createdBy: string | null): ApiKey {
  const { id, name, hint, createdAt, expiresAt, lastUsedAt, revokedAt } = row;
  return {
    id,
    name,
    hint,
    scopes: row.scopes.filter(isScope),
    createdAt,
    createdBy,
    expiresAt,
    lastUsedAt,
    revokedAt,
  };
}
