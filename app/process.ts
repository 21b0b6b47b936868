import "server-only";
import { migrate } from "../db/migrate";
import { closeDatabaseNow, database } from "./database";

/** What the server's process does once, before its first request and after its last. */
export async function beginProcess(): Promise<void> {
  await migrate(await database());
  // Next ends the process by itself on SIGTERM, after the requests under way; this is the last moment.
  process.once("exit", closeDatabaseNow);
}
