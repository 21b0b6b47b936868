import { createHash } from "node:crypto";
import { desc } from "drizzle-orm";
import type { Connection } from "../connection";
import { audit } from "../schema";

/** Who acts: an account's id, or null for the program itself (a command line, the demo). */
export type Actor = { accountId: number | null; at: number };

/**
 * Writes one line of the record, inside the transaction of the change it tells of.
 *
 * Each line carries a digest over itself and the digest of the one before, so that a line that was edited
 * or taken out shows.
 */
export function record(
  { orm }: Connection,
  actor: Actor,
  change: { action: string; subject: string; before?: unknown; after?: unknown; reason?: string },
): void {
  const previous = orm.select({ digest: audit.digest }).from(audit).orderBy(desc(audit.id)).limit(1).get();
  const line = {
    at: actor.at,
    accountId: actor.accountId,
    action: change.action,
    subject: change.subject,
    before: change.before === undefined ? null : JSON.stringify(change.before),
    after: change.after === undefined ? null : JSON.stringify(change.after),
    reason: change.reason ?? "",
  };
  const digest = createHash("sha256")
    .update(previous?.digest ?? "")
    .update(JSON.stringify(line))
    .digest("hex");
  orm
    .insert(audit)
    .values({ ...line, digest })
    .run();
}
