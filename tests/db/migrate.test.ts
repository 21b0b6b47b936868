import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { undoIntake } from "../../db/commands/undo-intake";
import { connectionOf, openDatabase, write } from "../../db/connection";
import { measurementCount, readSeries } from "../../db/measurements/store";
import { migrate } from "../../db/migrate";
import { listParts } from "../../db/queries/features";
import { featuresOfIntake } from "../../db/queries/intakes";
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

/** The project's migrations up to the one with this number. */
function migrationsTo(last: number): string {
  const copy = path.join(folder(), "migrations");
  cpSync(path.join(process.cwd(), "db", "migrations"), copy, { recursive: true });
  const journalFile = path.join(copy, "meta", "_journal.json");
  const journal = JSON.parse(readFileSync(journalFile, "utf8")) as { entries: { idx: number }[] };
  writeFileSync(
    journalFile,
    JSON.stringify({ ...journal, entries: journal.entries.filter(({ idx }) => idx <= last) }),
  );
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

test("what had arrived last in a version before is found among the measurements, and its intake can be undone", async () => {
  const database = await openedIn(folder());
  await migrate(database, { folder: migrationsTo(12) });
  const connection = connectionOf(database);
  connection.sqlite.exec(`
    insert into part (id, number) values (1, 'P-1');
    insert into feature (id, part_id, name, kind, unit, subgroup_size, chart, rules)
      values (1, 1, 'bore', 'size', 'mm', 1, 'i-mr', '[]'), (2, 1, 'depth', 'size', 'mm', 1, 'i-mr', '[]');
    insert into intake (id, file, digest, kind, state, notices, started_at, ended_at)
      values (1, 'a', 'x', 'post', 'done', '[]', 1, 1), (2, 'b', 'y', 'post', 'done', '[]', 2, 2);
    insert into intake_feature (intake_id, feature_id, rows) values (1, 1, 1), (1, 2, 1), (2, 1, 2);
  `);
  const add = connection.sqlite.prepare(
    `insert into measurement_arrival (feature_id, taken_at, value, part_temp, piece_id, lot_id, fixture_id, tool_id,
       machine_id, gauge_id, operator_id, setup_id, subgroup_id, intake_id, line)
     values (?, ?, ?, ?, 1, 2, 3, 4, 5, 6, 7, 8, 9, ?, ?)`,
  );
  add.run(1, 1000, 10.5, null, 1, 1);
  add.run(2, 1000, 20.5, 21.5, 1, 2);
  add.run(1, 3000, 10.7, 22, 2, 2);
  add.run(1, 2000, 10.6, 22, 2, 1);

  await migrate(database);
  const bore = readSeries(connection, 1);
  expect([...bore.value]).toEqual([10.5, 10.6, 10.7]);
  expect([...bore.partTemp]).toEqual([Number.NaN, 22, 22]);
  const { lot, fixture, tool, machine, gauge, operator, setup, subgroup, intake, line } = bore;
  expect([lot, fixture, tool, machine, gauge, operator, setup, subgroup].map(([first]) => first)).toEqual([
    2, 3, 4, 5, 6, 7, 8, 9,
  ]);
  expect([...intake]).toEqual([1, 2, 2]);
  expect([...line]).toEqual([1, 1, 2]);
  expect([...readSeries(connection, 2).partTemp]).toEqual([21.5]);
  expect(measurementCount(connection)).toBe(4);

  expect(await featuresOfIntake(database, 2)).toMatchObject([{ id: 1, added: 2 }]);
  expect(await undoIntake(database, { id: 1, actor: { accountId: null, at: 5 } })).toMatchObject({
    removed: 2,
  });
  expect([...readSeries(connection, 1).value]).toEqual([10.6, 10.7]);
});
