import BetterSqlite3 from "better-sqlite3";
import { type BetterSQLite3Database, drizzle } from "drizzle-orm/better-sqlite3";
import { fittings } from "../lib/words/en/fittings";
import * as schema from "./schema";

/**
 * A plant's database as the rest of the program sees it: something to hand to the functions of db/.
 *
 * What is behind it stays inside db/, so that the same functions can later stand on another database.
 */
export type Database = { readonly path: string; close(): Promise<void> };

export type Orm = BetterSQLite3Database<typeof schema>;
export type Connection = { sqlite: BetterSqlite3.Database; orm: Orm; takenBack: number };

/*
 * Held outside the module: a server's bundles each carry a copy of this file, and a database that one of
 * them opened is as open for the others.
 */
type Holder = { steadyrestConnections?: WeakMap<Database, Connection> };
const holder = globalThis as Holder;
holder.steadyrestConnections ??= new WeakMap();
const connections = holder.steadyrestConnections;

/** For the functions of db/ only. */
export function connectionOf(database: Database): Connection {
  const connection = connections.get(database);
  if (!connection) throw new Error(`The database ${database.path} is closed.`);
  return connection;
}

/**
 * Opens the file, or creates it; `:memory:` gives an empty one for a test. Migrations are `migrate`'s work.
 *
 * Write-ahead log with full synchronisation: what was acknowledged is on the disk, and readers are never
 * held up by a long intake. The page cache of 64 MB holds the upper levels of every index and a day's blocks.
 *
 * @throws NotOpened in words when its place does not allow that, or it is no database
 */
export async function openDatabase(path: string): Promise<Database> {
  const sqlite = opened(path);
  sqlite.pragma("synchronous = FULL");
  sqlite.pragma("foreign_keys = ON");
  sqlite.pragma("busy_timeout = 0"); // `write` waits without blocking the thread.
  sqlite.pragma("cache_size = -65536");
  sqlite.pragma("mmap_size = 268435456");
  sqlite.pragma("wal_autocheckpoint = 4000");

  const database: Database = {
    path,
    async close() {
      connections.delete(database);
      sqlite.close();
    },
  };
  connections.set(database, { sqlite, orm: drizzle(sqlite, { schema }), takenBack: 0 });
  return database;
}

/** The database cannot be opened where it lies; the message says why and what to do. */
export class NotOpened extends Error {
  override name = "NotOpened";
}

function opened(path: string): BetterSqlite3.Database {
  let sqlite: BetterSqlite3.Database | null = null;
  try {
    sqlite = new BetterSqlite3(path);
    sqlite.pragma("journal_mode = WAL");
    return sqlite;
  } catch (error) {
    sqlite?.close();
    const code = String((error as { code?: unknown } | null)?.code);
    const why =
      code.startsWith("SQLITE_CANTOPEN") || code.startsWith("SQLITE_READONLY")
        ? "this program may not write in its folder. Give it the right to, or the disk back its own"
        : code.startsWith("SQLITE_NOTADB")
          ? "it is no database of this program, or it is damaged. Restore a backup into another folder"
          : reasonOf(code, error);
    throw new NotOpened(`${path} cannot be opened: ${why}.`, { cause: error });
  }
}

/** "the disk is full. Make room there; …" without its last point. */
function reasonOf(code: string, error: unknown): string {
  const why = whyNotStored(code);
  return why === null ? String(error) : notStored[why].replace(/^[^:]*: |\.$/g, "");
}

/**
 * Makes a prepared query once for each connection. An intake asks the same of every feature it touches, and
 * putting a query together anew costs many times what running it does.
 */
export function once<T>(prepare: (connection: Connection) => T): (connection: Connection) => T {
  const prepared = new WeakMap<Connection, T>();
  return (connection) => {
    const known = prepared.get(connection);
    if (known !== undefined) return known;
    const made = prepare(connection);
    prepared.set(connection, made);
    return made;
  };
}

/**
 * Another text whenever anything was written since, by this connection or by any other thread or process, or a change of
 * this connection was taken back. What was read after it was asked still holds while it is the same. Within a
 * transaction its own changes count. Costs some microseconds.
 */
export function changeMarkOf(connection: Connection): string {
  const { byOthers, own } = changes(connection);
  return `${byOthers.get()} ${own.get()} ${connection.takenBack}`;
}

const changes = once(({ sqlite }) => ({
  byOthers: sqlite.prepare("pragma data_version").pluck(),
  own: sqlite.prepare("select total_changes()").pluck(),
}));

const BUSY_WAIT_MS = 15;
const BUSY_LIMIT_MS = 60_000;

/**
 * Runs `work` as one transaction that holds the write lock from its start: all of it is stored, or, when
 * it throws, nothing. While another process or thread writes, it waits up to a minute without blocking
 * the event loop.
 */
export async function write<T>(database: Database, work: (connection: Connection) => T): Promise<T> {
  const begun = Date.now();
  for (;;) {
    const connection = connectionOf(database);
    // From here to the end of the transaction nothing is awaited, or another `write` of this thread would begin
    // within it: the connection is one for all.
    if (isBegun(connection.sqlite)) return finish(connection, work);
    if (Date.now() - begun > BUSY_LIMIT_MS)
      throw new NotStored("busy", { path: database.path, cause: undefined });
    await new Promise((resolve) => setTimeout(resolve, BUSY_WAIT_MS));
  }
}

function finish<T>(connection: Connection, work: (connection: Connection) => T): T {
  const { sqlite } = connection;
  try {
    const result = work(connection);
    sqlite.exec("COMMIT");
    return result;
  } catch (error) {
    if (sqlite.inTransaction) sqlite.exec("ROLLBACK");
    connection.takenBack++; // The count of changes goes on from where it was.
    throw asNotStored(error, sqlite.name) ?? error;
  }
}

const { notStored } = fittings;

/** The place where the database lies does not take it, or another change went on too long; nothing of it is there. The message is for the person. */
export class NotStored extends Error {
  override name = "NotStored";

  /** The reason without the path; in production it is all of an error that Next hands to the page. */
  readonly digest: string;

  constructor(
    readonly why: keyof typeof notStored,
    { path, cause }: { path: string; cause: unknown },
  ) {
    const digest = notStored[why];
    super(digest.replace(":", ` in ${path}:`), { cause });
    this.digest = digest;
  }
}

function asNotStored(error: unknown, path: string): NotStored | null {
  const code = (error as { code?: unknown } | null)?.code;
  const why = typeof code === "string" ? whyNotStored(code) : null;
  return why === null ? null : new NotStored(why, { path, cause: error });
}

/** What the code of an error says about the place where the database lies; null for another fault. */
function whyNotStored(code: string): Exclude<keyof typeof notStored, "busy"> | null {
  if (code.startsWith("SQLITE_FULL")) return "full";
  if (code.startsWith("SQLITE_READONLY")) return "readOnly";
  return code.startsWith("SQLITE_IOERR") ? "broken" : null;
}

/** Takes the write lock; false while another process or thread has it. */
function isBegun(sqlite: BetterSqlite3.Database): boolean {
  try {
    sqlite.exec("BEGIN IMMEDIATE");
    return true;
  } catch (error) {
    if (!isBusy(error)) throw asNotStored(error, sqlite.name) ?? error;
    return false;
  }
}

function isBusy(error: unknown): boolean {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === "string" && code.startsWith("SQLITE_BUSY");
}
