import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { rebuildOutdated } from "../../db/commands/rebuild";
import { type Database, openDatabase } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { progressLine } from "./progress-line";

/** Where the database file is; the folder is given by STEADYREST_DATA, which run.mjs and start.mjs set. */
export function databasePath(): string {
  return join(process.env.STEADYREST_DATA ?? "data", "steadyrest.db");
}

/** Opens the plant's database, brought up to date, hands it to `work` and closes it whatever happens. */
export async function withDatabase<T>(work: (database: Database) => Promise<T>): Promise<T> {
  mkdirSync(process.env.STEADYREST_DATA ?? "data", { recursive: true });
  const database = await openDatabase(databasePath());
  try {
    await migrate(database);
    const progress = progressLine();
    await rebuildOutdated(database, {
      onFeature: (done, total) =>
        progress.show(`judging anew what another version judged: ${done} of ${total} features`),
    });
    progress.end();
    return await work(database);
  } finally {
    await database.close();
  }
}
