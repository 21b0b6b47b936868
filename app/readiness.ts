import "server-only";
import { canRead } from "../db/queries/metrics";
import { database } from "./database";

type Holder = { steadyrestEnding?: boolean };
const holder = globalThis as Holder;

/** From now on no new work is sent here; what is under way is finished. */
export function beginEnding(): void {
  holder.steadyrestEnding = true;
}

/** Why this server should get no requests now; null when it may. */
export async function notReady(): Promise<string | null> {
  if (holder.steadyrestEnding) return "it is stopping";
  try {
    return (await canRead(await database())) ? null : "the database does not answer";
  } catch {
    return "the database cannot be opened";
  }
}
