import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { connectionOf, openDatabase, write } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { listParts } from "../../db/queries/features";
import { part } from "../../db/schema";

function folder(): string {
  const made = mkdtempSync(path.join(tmpdir(), "steadyrest-migrate-"));
  onTestFinished(() => rmSync(made, { recursive: true, force: true }));
  return made;
}

async function openedIn(place: string) {
  const database = await openDatabase(path.join(place, "plant.db"));
  onTestFinished(() => database.close());
  return database;
}

/** The project's migrations with one more behind them. */
function migrationsWith(sql: string): string {
  const copy = path.join(folder(), "migrations");
  cpSync(path.join(process.cwd(), "db", "migrations"), copy, { recursive: true });
  const journalFile = path.join(copy, "meta", "_journal.json");
  const journal = JSON.parse(readFileSync(journalFile, "utf8")) as { entries: object[] };
  const last = journal.entries.at(-1) as { idx: number; when: number };
  journal.entries.push({
    idx: last.idx + 1,
    version: "6",
    when: last.when + 1,
    tag: "9999_more",
    breakpoints: true,
  });
  writeFileSync(journalFile, JSON.stringify(journal));
  writeFileSync(path.join(copy, "9999_more.sql"), sql);
  return copy;
}

const somePart = { number: "P-1", revision: "", name: "", line: "", material: "", expansion: null };

test("an empty database gets its tables, without a copy; a second start changes nothing", async () => {
  const database = await openedIn(folder());
  const first = await migrate(database);
  expect(first.applied).toBeGreaterThan(0);
  expect(first.backup).toBeNull();
  expect(await migrate(database)).toEqual({ applied: 0, backup: null });
});

test("a database that holds something is copied before its tables change, and keeps what it holds", async () => {
  const place = folder();
  const database = await openedIn(place);
  await migrate(database);
  await write(database, ({ orm }) => orm.insert(part).values(somePart).run());
  const { applied, backup } = await migrate(database, {
    folder: migrationsWith("ALTER TABLE part ADD colour text;"),
  });
  expect(applied).toBe(1);
  expect(await listParts(database)).toMatchObject([{ number: "P-1" }]);

  const copy = await openDatabase(backup as string);
  onTestFinished(() => copy.close());
  expect(await listParts(copy)).toMatchObject([{ number: "P-1" }]);
});

test("a migration that fails leaves the database as it was", async () => {
  const database = await openedIn(folder());
  await migrate(database);
  await write(database, ({ orm }) => orm.insert(part).values(somePart).run());
  const broken = migrationsWith(
    "ALTER TABLE part ADD colour text;--> statement-breakpoint\nALTER TABLE nothing ADD x text;",
  );
  await expect(migrate(database, { folder: broken })).rejects.toThrow();
  const columns = connectionOf(database).sqlite.pragma("table_info(part)") as { name: string }[];
  expect(columns.map((column) => column.name)).not.toContain("colour");
  expect(await listParts(database)).toMatchObject([{ number: "P-1" }]);
});

test("a database of a newer version is refused in words, untouched", async () => {
  const place = folder();
  const database = await openedIn(place);
  await migrate(database, { folder: migrationsWith("ALTER TABLE part ADD colour text;") });
  await expect(migrate(database)).rejects.toThrow(/newer version/);
  expect(readdirSync(place).filter((name) => name.includes("before"))).toEqual([]);
});

test("a writer waits for another connection instead of failing, and does not block the thread", async () => {
  const place = folder();
  const one = await openedIn(place);
  await migrate(one);
  const two = await openedIn(place);
  const { sqlite } = connectionOf(one);
  sqlite.exec("BEGIN IMMEDIATE");
  let isDone = false;
  const waiting = write(two, ({ orm }) => orm.insert(part).values(somePart).run()).then(() => {
    isDone = true;
  });
  // Each of these turns is one that a blocked thread would not take.
  for (let turn = 0; turn < 4; turn++) await new Promise((resolve) => setTimeout(resolve, 5));
  expect(isDone).toBe(false);
  sqlite.exec("COMMIT");
  await waiting;
  expect(await listParts(one)).toHaveLength(1);
});
