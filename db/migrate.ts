import { existsSync, renameSync } from "node:fs";
import path from "node:path";
import { migrate as applyMigrations } from "drizzle-orm/better-sqlite3/migrator";
import { readMigrationFiles } from "drizzle-orm/migrator";
import { connectionOf, type Database } from "./connection";
import { settleRowsOfBefore } from "./measurements/rows-of-before";

export type MigrationReport = { applied: number; backup: string | null };

/** The folder of generated migrations; the program is always started from its own folder. */
const MIGRATIONS = path.join(process.cwd(), "db", "migrations");

/**
 * Brings the tables up to date. A database that already holds something is first copied beside itself
 * (`<file>.before-<n>`), so that a failed or unwanted upgrade can be taken back by hand.
 */
export async function migrate(
  database: Database,
  { folder = MIGRATIONS, keepCopy = true } = {},
): Promise<MigrationReport> {
  const { sqlite, orm } = connectionOf(database);
  const known = readMigrationFiles({ migrationsFolder: folder }).length;
  const hasRun =
    sqlite.prepare("select 1 from sqlite_master where name = '__drizzle_migrations'").get() !== undefined;
  const done = hasRun
    ? (sqlite.prepare("select count(*) from __drizzle_migrations").pluck().get() as number)
    : 0;
  if (done > known) {
    throw new Error(
      `The database ${database.path} was written by a newer version (${done} migrations, this one knows ${known}). ` +
        "Nothing was changed. Start the newer version, or restore the backup taken before the upgrade.",
    );
  }
  if (done === known) {
    await settleRowsOfBefore(database); // A start before may have ended between the two.
    return { applied: 0, backup: null };
  }

  const backup =
    done > 0 && keepCopy && database.path !== ":memory:"
      ? freeName(`${database.path}.before-${known}`)
      : null;
  if (backup) {
    // Under its name only when it is whole: one that was broken off must not be taken for a copy.
    await sqlite.backup(`${backup}.partial`);
    renameSync(`${backup}.partial`, backup);
  }
  // Rebuilding a table drops it for a moment, which foreign keys would take for a deletion.
  sqlite.pragma("foreign_keys = OFF");
  try {
    applyMigrations(orm, { migrationsFolder: folder });
  } finally {
    sqlite.pragma("foreign_keys = ON");
  }
  await settleRowsOfBefore(database);
  return { applied: known - done, backup };
}

function freeName(wanted: string): string {
  let name = wanted;
  for (let n = 2; existsSync(name); n++) name = `${wanted}-${n}`;
  return name;
}
