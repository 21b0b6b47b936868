import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test, vi } from "vitest";
import { createPart } from "../../db/commands/plan";
import { connectionOf, type Database, NotOpened, NotStored, openDatabase } from "../../db/connection";
import { measurementCount } from "../../db/measurements/store";
import { migrate } from "../../db/migrate";
import { verify } from "../../db/verify";
import { bringIn, SOMEBODY, tidyFile } from "./plant";

/*
 * SQLite's own limits stand for the disk's: max_page_count answers as a full disk does (SQLITE_FULL), query_only as a
 * file that may not be written (SQLITE_READONLY).
 */

async function plant(): Promise<Database> {
  const place = mkdtempSync(path.join(tmpdir(), "steadyrest-room-"));
  const database = await openDatabase(path.join(place, "steadyrest.db"));
  onTestFinished(async () => {
    await database.close();
    rmSync(place, { recursive: true, force: true });
  });
  await migrate(database);
  return database;
}

const rows = (from: number, count: number) =>
  tidyFile(
    Array.from({ length: count }, (_, i) => ({
      piece: `S-${from + i}`,
      takenAt: SOMEBODY.at + (from + i) * 60_000,
      value: 10 + ((from + i) % 5) / 100,
    })),
  );
const part = {
  number: "P-9",
  revision: "",
  name: "x".repeat(20_000),
  line: "",
  material: "",
  expansion: null,
};
const measured = (database: Database) => measurementCount(connectionOf(database));

test("a full disk says so, loses nothing, and takes the same file once there is room", async () => {
  const database = await plant();
  await bringIn(database, rows(0, 50), { subgroupSize: 5 });
  const { sqlite } = connectionOf(database);
  const pages = Number(sqlite.pragma("page_count", { simple: true }));
  sqlite.pragma(`max_page_count = ${pages}`);
  await expect(createPart(database, part, SOMEBODY)).rejects.toThrow(NotStored);
  // What reaches the page of an error, and does not name where the file lies.
  await expect(createPart(database, part, SOMEBODY)).rejects.toMatchObject({
    digest: expect.stringMatching(/^Nothing saved: the disk is full\./),
  });
  await expect(createPart(database, part, SOMEBODY)).rejects.toThrow(
    /^Nothing saved in .*: the disk is full\./,
  );
  await bringIn(database, rows(50, 20_000), { subgroupSize: 5 }).catch((error: unknown) =>
    expect(String(error)).toContain("the disk is full"),
  );
  expect(measured(database)).toBe(50);

  sqlite.pragma("max_page_count = 1000000");
  expect((await bringIn(database, rows(50, 200), { subgroupSize: 5 })).accepted).toBe(200);
  expect(measured(database)).toBe(250);
  expect(await verify(database)).toMatchObject({ ok: true });
});

test("a database that can only be read says so, and reads on", async () => {
  const database = await plant();
  await bringIn(database, rows(0, 50), { subgroupSize: 5 });
  connectionOf(database).sqlite.pragma("query_only = ON");
  await expect(createPart(database, part, SOMEBODY)).rejects.toThrow(/can only be read/);
  expect(measured(database)).toBe(50);
});

test("a place that does not allow a database, and a file that is none, are said in words as it is opened", async () => {
  const place = mkdtempSync(path.join(tmpdir(), "steadyrest-room-"));
  onTestFinished(() => rmSync(place, { recursive: true, force: true }));
  const text = path.join(place, "text.db");
  writeFileSync(text, "no database at all, but long enough to be looked at as one".repeat(20));
  await expect(openDatabase(text)).rejects.toThrow(/text\.db cannot be opened: it is no database of this/);
  await expect(openDatabase(text)).rejects.toThrow(NotOpened);
  await expect(openDatabase(place)).rejects.toThrow(/may not write in its folder/);
});

test("a disk that fails as a database is opened is named with what to do", async () => {
  // A folder in the place of the log: SQLite's own error of reading and writing.
  const place = mkdtempSync(path.join(tmpdir(), "steadyrest-room-"));
  onTestFinished(() => rmSync(place, { recursive: true, force: true }));
  mkdirSync(path.join(place, "plant.db-wal"));
  await expect(openDatabase(path.join(place, "plant.db"))).rejects.toThrow(
    /plant\.db cannot be opened: the disk did not take it\. Look after that disk; run verify when/,
  );
});

test("a change that waits a minute for another is told so, with nothing saved", async () => {
  vi.useFakeTimers();
  onTestFinished(() => void vi.useRealTimers());
  const database = await plant();
  const other = await openDatabase(database.path);
  onTestFinished(() => other.close());
  connectionOf(other).sqlite.exec("begin immediate");
  const waited = createPart(database, part, SOMEBODY);
  const refused = expect(waited).rejects.toMatchObject({
    name: "NotStored",
    why: "busy",
    digest: expect.stringMatching(/^Nothing saved: another change, such as a long intake, held the data/),
  });
  await vi.advanceTimersByTimeAsync(61_000);
  await refused;
  connectionOf(other).sqlite.exec("rollback");
  expect(await createPart(database, part, SOMEBODY)).toMatchObject({ ok: true });
});
