import { createHash } from "node:crypto";
import { desc, eq, sql } from "drizzle-orm";
import { type Connection, type Database, once, write } from "../connection";
import { audit } from "../schema";
import { auditHead } from "../schema-people";

/**
 * Who acts: an account's id, or null for the program itself (a command line, the demo) and for a machine, whose
 * key is named then.
 */
export type Actor = { accountId: number | null; at: number; keyId?: number | null };

/** How the action of a line begins that tells of measurements which came, and of nothing else. */
export const BRINGS_IN = "bring in";

/** A line as its digest covers it. */
export type AuditLine = {
  at: number;
  accountId: number | null;
  keyId: number | null;
  action: string;
  subject: string;
  before: string | null;
  after: string | null;
  reason: string;
};

/** The record has this many lines, and the last of them this digest. */
export type AuditHead = { lines: number; digest: string };

/**
 * Writes one line of the record, inside the transaction of the change it tells of.
 *
 * Each line carries a digest over itself and the digest of the one before, so that a line that was edited
 * or taken out shows; the head names the last, so that a cut-off end shows too.
 */
export function record(
  connection: Connection,
  actor: Actor,
  change: { action: string; subject: string; before?: unknown; after?: unknown; reason?: string },
): void {
  const { head, latest, append, moveHead } = chainQueries(connection);
  const previous = latest.get();
  const line: AuditLine = {
    at: actor.at,
    accountId: actor.accountId,
    keyId: actor.keyId ?? null,
    action: change.action,
    subject: change.subject,
    before: change.before === undefined ? null : JSON.stringify(change.before),
    after: change.after === undefined ? null : JSON.stringify(change.after),
    reason: change.reason ?? "",
  };
  const digest = lineDigest(previous?.digest ?? "", line);
  append.run({ ...line, digest });
  // Counted on from the head, not from the lines: a line that somebody removed stays missing.
  moveHead.run({ lines: (head.get()?.lines ?? 0) + 1, digest });
}

/** An intake records every feature that it brings. */
const chainQueries = once(({ orm }) => {
  const stated = {
    at: sql.placeholder("at"),
    accountId: sql.placeholder("accountId"),
    keyId: sql.placeholder("keyId"),
    action: sql.placeholder("action"),
    subject: sql.placeholder("subject"),
    before: sql.placeholder("before"),
    after: sql.placeholder("after"),
    reason: sql.placeholder("reason"),
    digest: sql.placeholder("digest"),
  };
  const moved = { lines: sql.placeholder("lines"), digest: sql.placeholder("digest") };
  return {
    head: orm.select().from(auditHead).where(eq(auditHead.id, 1)).prepare(),
    latest: orm.select({ digest: audit.digest }).from(audit).orderBy(desc(audit.id)).limit(1).prepare(),
    append: orm.insert(audit).values(stated).prepare(),
    moveHead: orm
      .insert(auditHead)
      .values({ id: 1, ...moved })
      .onConflictDoUpdate({
        target: auditHead.id,
        set: { lines: sql`excluded.lines`, digest: sql`excluded.digest` },
      })
      .prepare(),
  };
});

/** SHA-256 over the digest of the line before and the line as JSON; a line of a person names no key. */
export function lineDigest(previous: string, { keyId, ...line }: AuditLine): string {
  const { at, accountId, action, subject, before, after, reason } = line;
  const covered = { at, accountId, action, subject, before, after, reason };
  return createHash("sha256")
    .update(previous)
    .update(JSON.stringify(keyId === null ? covered : { ...covered, keyId }))
    .digest("hex");
}

/** That somebody took everything home belongs in the record. */
export async function noteBackup(
  database: Database,
  { actor, head }: { actor: Actor; head: AuditHead },
): Promise<void> {
  await write(database, (connection) =>
    record(connection, actor, { action: "take backup", subject: "plant", after: { lines: head.lines } }),
  );
}
