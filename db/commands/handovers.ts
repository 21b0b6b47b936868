import { eq } from "drizzle-orm";
import type { HandoverContent } from "../../lib/handover/handover";
import type { ShiftSpan } from "../../lib/handover/shift-span";
import { type Refused, refused } from "../../lib/words/refusal";
import { type Database, write } from "../connection";
import { account } from "../schema";
import { handover } from "../schema-alarms";
import { type Actor, record } from "./audit";

export type Signed = { ok: true; id: number } | Refused;

/**
 * Signs the handover of a shift: what it says is stored as it stands and never changes again. Each shift is signed
 * once; what happens after that belongs to the next one.
 */
export async function signHandover(
  database: Database,
  {
    span,
    coversFrom,
    remarks,
    content,
    actor,
  }: { span: ShiftSpan; coversFrom: number; remarks: string; content: HandoverContent; actor: Actor },
): Promise<Signed> {
  return write(database, (connection) => {
    const { orm } = connection;
    if (span.from > actor.at) return refused("shift-ahead");
    const there = orm
      .select({ by: account.name })
      .from(handover)
      .leftJoin(account, eq(account.id, handover.accountId))
      .where(eq(handover.shiftFrom, span.from))
      .get();
    if (there) return refused("handover-signed", there.by);
    const { id } = orm
      .insert(handover)
      .values({
        shift: span.name,
        shiftFrom: span.from,
        shiftTo: span.to,
        coversFrom,
        remarks: remarks.trim(),
        content: JSON.stringify(content),
        signedAt: actor.at,
        accountId: actor.accountId,
      })
      .returning({ id: handover.id })
      .get();
    record(connection, actor, {
      action: "sign handover",
      subject: `${span.name} shift`,
      after: { id, shiftFrom: span.from, open: content.open.length, holds: content.holds.length },
      reason: remarks,
    });
    return { ok: true, id };
  });
}
