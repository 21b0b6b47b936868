import "server-only";
import { failLeftIntakes } from "../db/commands/intakes";
import { rebuildOutdated } from "../db/commands/rebuild";
import { migrate } from "../db/migrate";
import { closeDatabaseNow, database } from "./database";

/** What the server's process does once, before its first request and after its last. */
export async function beginProcess(): Promise<void> {
  const plant = await database();
  await migrate(plant);
  await rebuildOutdated(plant);
  await failLeftIntakes(plant, { at: Date.now() });
  // Next ends the process by itself on SIGTERM, after the requests under way; this is the last moment.
  process.once("exit", closeDatabaseNow);
}
