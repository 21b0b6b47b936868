import { eq } from "drizzle-orm";
import { type Refused, refused } from "../../lib/words/refusal";
import { type Database, write } from "../connection";
import type { SourceEventKind } from "../queries/sources";
import { cause, source, sourceEvent } from "../schema";
import { type Actor, record } from "./audit";
import { tell } from "./news";

/** Notes that a source was changed, repaired, adjusted, calibrated or moved. */
export async function logSourceEvent(
  database: Database,
  {
    sourceId,
    at,
    event,
    note,
    actor,
  }: { sourceId: number; at: number; event: SourceEventKind; note: string; actor: Actor },
): Promise<{ ok: true; id: number } | Refused> {
  return write(database, (connection) => {
    const { orm } = connection;
    const known = orm.select().from(source).where(eq(source.id, sourceId)).get();
    if (!known) return refused("source-unknown", sourceId);
    const row = { sourceId, at, kind: event, note: note.trim(), accountId: actor.accountId };
    const { id } = orm.insert(sourceEvent).values(row).returning({ id: sourceEvent.id }).get();
    record(connection, actor, {
      action: "log source event",
      subject: `${known.kind} ${known.code}`,
      after: row,
    });
    tell(connection, { kind: "drift", partId: null });
    return { ok: true, id };
  });
}

/** Adds assigned causes to choose from; those already there stay as they are. */
export async function addCauses(database: Database, texts: readonly string[]): Promise<void> {
  await write(database, ({ orm }) => {
    for (const text of texts) orm.insert(cause).values({ text }).onConflictDoNothing().run();
  });
}
