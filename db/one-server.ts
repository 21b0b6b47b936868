import BetterSqlite3 from "better-sqlite3";

/*
 * One server at a time on a database. What a server keeps in memory (the queue of files being taken in, the
 * uploads awaited) belongs to it alone, and one that starts ends what it finds left over: a second one would
 * end what the first is doing. Shell commands may run beside a server.
 *
 * The lock is one of the operating system's on a file beside the database: it ends with the process however
 * that ends, so a server that was killed leaves none behind.
 */

type Holder = { steadyrestLock?: BetterSqlite3.Database };
const holder = globalThis as Holder;

/** False when another server has this database open. The lock is held until the process ends. */
export function holdServerLock(databasePath: string): boolean {
  if (holder.steadyrestLock) return true;
  const lock = new BetterSqlite3(`${databasePath}.server`);
  try {
    lock.pragma("busy_timeout = 0");
    lock.exec("BEGIN EXCLUSIVE");
    holder.steadyrestLock = lock;
    return true;
  } catch (error) {
    lock.close();
    const code = (error as { code?: unknown } | null)?.code;
    if (typeof code === "string" && code.startsWith("SQLITE_BUSY")) return false;
    throw error;
  }
}
