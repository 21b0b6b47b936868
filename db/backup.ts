import { closeSync, existsSync, fsyncSync, openSync, renameSync, rmSync, statSync } from "node:fs";
import path from "node:path";
import BetterSqlite3 from "better-sqlite3";
import { type Actor, type AuditHead, record } from "./commands/audit";
import { rebuildOutdated } from "./commands/rebuild";
import { connectionOf, type Database, openDatabase, write } from "./connection";
import { migrate } from "./migrate";
import { session } from "./schema";

/** A copy or a place that will not do; the message is for the person. */
export class NoBackup extends Error {
  override name = "NoBackup";
}

export type BackedUp = { path: string; bytes: number; head: AuditHead };

/** Measured in pages of 4 KB: 20 MB at a time leave the server free in between. */
const PAGES_A_STEP = 5_000;

/**
 * Copies the database while it is used (SQLite's online backup), as of one moment. The file appears under its
 * name only when it is whole and on the disk; a copy that was broken off leaves nothing.
 *
 * @throws NoBackup when the place is taken or the copy does not pass SQLite's own check
 */
export async function backUp(database: Database, { to }: { to: string }): Promise<BackedUp> {
  if (existsSync(to))
    throw new NoBackup(`${to} is there already; a backup never replaces a file. Give another name.`);
  if (!existsSync(path.dirname(path.resolve(to))))
    throw new NoBackup(`the folder ${path.dirname(path.resolve(to))} is not there. Make it first.`);
  const partial = `${to}.partial`;
  try {
    await copyPages(connectionOf(database).sqlite, partial);
    inOneFile(partial);
    const head = requireWhole(partial);
    publish(partial, to);
    return { path: to, bytes: statSync(to).size, head };
  } catch (error) {
    discard(partial);
    throw error;
  }
}

/**
 * Puts a backup into an empty place, brings it up to date and ends all sessions in it: a copy is often put on
 * another machine, where nobody has signed in.
 *
 * @throws NoBackup when a database is there already, or the file is no whole database of this program
 */
export async function restore({
  from,
  to,
  actor,
}: {
  from: string;
  to: string;
  actor: Actor;
}): Promise<{ head: AuditHead; applied: number }> {
  for (const left of [to, `${to}-wal`, `${to}-shm`]) {
    if (existsSync(left))
      throw new NoBackup(
        `${left} is there already. A backup goes into an empty place: set STEADYREST_DATA to a new folder.`,
      );
  }
  if (!existsSync(from)) throw new NoBackup(`${from} is not there.`);
  const partial = `${to}.partial`;
  discard(partial);
  try {
    const source = openToRead(from);
    try {
      await copyPages(source, partial);
    } finally {
      source.close();
    }
    requireWhole(partial);
    const copy = await openDatabase(partial);
    let done: { head: AuditHead; applied: number };
    try {
      const { applied } = await migrate(copy, { keepCopy: false });
      await rebuildOutdated(copy);
      await write(copy, (connection) => {
        connection.orm.delete(session).run();
        record(connection, actor, { action: "restore backup", subject: path.basename(from) });
      });
      done = { head: headOf(connectionOf(copy).sqlite), applied };
      connectionOf(copy).sqlite.pragma("wal_checkpoint(TRUNCATE)");
    } finally {
      await copy.close();
    }
    publish(partial, to);
    return done;
  } catch (error) {
    discard(partial);
    throw error;
  }
}

/**
 * A change by another process makes SQLite begin the copy anew. Where that happened the rest goes in one step,
 * under one view of the database, so that a line that stores without a pause cannot hold it up for ever.
 */
async function copyPages(sqlite: BetterSqlite3.Database, to: string): Promise<void> {
  let before = Number.POSITIVE_INFINITY;
  await sqlite.backup(to, {
    progress({ remainingPages }) {
      const beganAnew = remainingPages > before;
      before = remainingPages;
      return beganAnew ? 2 ** 31 - 1 : PAGES_A_STEP;
    },
  });
}

/** Without a write-ahead log: whoever opens the copy to read it leaves no files beside it. */
function inOneFile(copy: string): void {
  const sqlite = new BetterSqlite3(copy);
  try {
    sqlite.pragma("journal_mode = DELETE");
  } finally {
    sqlite.close();
  }
}

function openToRead(file: string): BetterSqlite3.Database {
  try {
    const sqlite = new BetterSqlite3(file, { readonly: true, fileMustExist: true });
    sqlite.prepare("select count(*) from sqlite_master").get();
    return sqlite;
  } catch (error) {
    throw new NoBackup(
      `${file} cannot be read as a database: ${error instanceof Error ? error.message : error}.`,
    );
  }
}

/** Opens a copy once more and reads all of it; gives the head of its record. */
function requireWhole(file: string): AuditHead {
  const sqlite = openToRead(file);
  try {
    const tables = sqlite
      .prepare(
        "select count(*) from sqlite_master where name in ('__drizzle_migrations', 'audit', 'measurement_block')",
      )
      .pluck()
      .get();
    if (tables !== 3) throw new NoBackup(`${file} is a database, but not one of this program.`);
    const [first] = sqlite.pragma("integrity_check(1)") as { integrity_check: string }[];
    if (first?.integrity_check !== "ok")
      throw new NoBackup(`${file} is damaged: ${first?.integrity_check ?? "SQLite's check gave no answer"}.`);
    return headOf(sqlite);
  } finally {
    sqlite.close();
  }
}

function headOf(sqlite: BetterSqlite3.Database): AuditHead {
  const lines = sqlite.prepare("select count(*) from audit").pluck().get() as number;
  const digest = sqlite.prepare("select digest from audit order by id desc limit 1").pluck().get();
  return { lines, digest: typeof digest === "string" ? digest : "" };
}

/** Under its name only once it is on the disk. */
function publish(partial: string, to: string): void {
  const file = openSync(partial, "r+");
  fsyncSync(file);
  closeSync(file);
  renameSync(partial, to);
  for (const left of [`${partial}-wal`, `${partial}-shm`]) rmSync(left, { force: true });
  const folder = openSync(path.dirname(path.resolve(to)), "r");
  fsyncSync(folder);
  closeSync(folder);
}

function discard(partial: string): void {
  for (const file of [partial, `${partial}-wal`, `${partial}-shm`, `${partial}-journal`])
    rmSync(file, { force: true });
}
