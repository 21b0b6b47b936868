import { eq } from "drizzle-orm";
import { type Database, write } from "../connection";
import { alarm, alarmEvent } from "../schema-alarms";
import { type Actor, record } from "./audit";
import { tell } from "./news";

/**
 * A person has seen an alarm. One whose feature has returned to normal, or that lost its evidence, is closed
 * by it; a running one stays open until it returns. The note says what was found or done.
 */
export async function acknowledgeAlarm(
  database: Database,
  { id, note, actor }: { id: number; note: string; actor: Actor },
): Promise<{ ok: true; closed: boolean } | { ok: false; message: string }> {
  return write(database, (connection) => {
    const { orm } = connection;
    const row = orm.select().from(alarm).where(eq(alarm.id, id)).get();
    if (!row) return { ok: false, message: `Nothing saved: there is no alarm ${id}.` };
    if (row.state === "closed")
      return { ok: false, message: "Nothing saved: this alarm was closed already. Reload the page." };
    const closed = row.returnedAt !== null || row.withdrawnAt !== null;
    if (row.state === "acknowledged" && !closed) {
      return { ok: false, message: "Nothing saved: this alarm was acknowledged already. Reload the page." };
    }
    const state = closed ? "closed" : "acknowledged";
    orm.update(alarm).set({ state }).where(eq(alarm.id, id)).run();
    orm
      .insert(alarmEvent)
      .values({ alarmId: id, at: actor.at, kind: state, note: note.trim(), accountId: actor.accountId })
      .run();
    record(connection, actor, {
      action: "acknowledge alarm",
      subject: `alarm ${id}`,
      before: row.state,
      after: state,
      reason: note,
    });
    tell(connection, { kind: "alarm", what: "changed", alarmId: id, featureId: row.featureId });
    return { ok: true, closed };
  });
}
