import "server-only";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import { type Database, openDatabase } from "../db/connection";

/*
 * The one database of this process. It opens on first use, for a build imports every page and must leave no
 * file behind, and is held outside the module, which a development server loads anew after each edit.
 */
type Holder = { steadyrest?: { opening: Promise<Database>; opened: Database | null } };
const holder = globalThis as Holder;

export function database(): Promise<Database> {
  if (!holder.steadyrest) {
    const held = { opening: open(), opened: null as Database | null };
    holder.steadyrest = held;
    held.opening.then(
      (opened) => {
        held.opened = opened;
      },
      // The next visitor tries again: the disk may be back.
      () => {
        if (holder.steadyrest === held) delete holder.steadyrest;
      },
    );
  }
  return holder.steadyrest.opening;
}

async function open(): Promise<Database> {
  const folder = process.env.STEADYREST_DATA ?? "data";
  mkdirSync(folder, { recursive: true });
  return openDatabase(join(folder, "steadyrest.db"));
}

/** Closes the database as the process ends, so that the write-ahead log is taken into the file. */
export function closeDatabaseNow(): void {
  const opened = holder.steadyrest?.opened;
  delete holder.steadyrest;
  void opened?.close();
}
