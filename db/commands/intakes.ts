import { and, eq } from "drizzle-orm";
import { type Database, write } from "../connection";
import { intake } from "../schema";

/**
 * Ends an intake whose reading died as failed; false when it had ended already.
 *
 * Its measurements are stored in one transaction, together with the state "done", so one that is still
 * "running" after its reader is gone has stored nothing.
 */
export async function failIntake(
  database: Database,
  { id, message, at }: { id: number; message: string; at: number },
): Promise<boolean> {
  return write(database, ({ orm }) => {
    const ended = orm
      .update(intake)
      .set({ state: "failed", message, endedAt: at })
      .where(and(eq(intake.id, id), eq(intake.state, "running")))
      .run();
    return ended.changes > 0;
  });
}

/**
 * Puts files into the history that waited to be read when the program was stopped. One that had been begun is there
 * already, as "running".
 */
export async function noteNotBegun(
  database: Database,
  { files, at }: { files: readonly { file: string; accountId: number | null }[]; at: number },
): Promise<void> {
  if (files.length === 0) return;
  const message =
    "The program was stopped before this file was begun; nothing of it was stored. Bring the file in again.";
  const ended = { digest: "", kind: "file", state: "failed", message, startedAt: at, endedAt: at };
  await write(database, ({ orm }) => {
    const begun = orm.select({ file: intake.file }).from(intake).where(eq(intake.state, "running")).all();
    for (const { file, accountId } of files) {
      const known = begun.findIndex((each) => each.file === file);
      if (known >= 0) begun.splice(known, 1);
      else
        orm
          .insert(intake)
          .values({ ...ended, file, accountId, notices: [] })
          .run();
    }
  });
}

/**
 * Ends every intake that a stopped program left "running" as failed, and says how many there were. Call it
 * when the server starts. A command line that reads a file at that very moment writes its own end later.
 */
export async function failLeftIntakes(database: Database, { at }: { at: number }): Promise<number> {
  return write(database, ({ orm }) => {
    const message =
      "The program stopped while this file was read; nothing of it was stored. Bring the file in again.";
    return orm
      .update(intake)
      .set({ state: "failed", message, endedAt: at })
      .where(eq(intake.state, "running"))
      .run().changes;
  });
}
