import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { backUp, restore } from "../../db/backup";
import { rebuildOutdated } from "../../db/commands/rebuild";
import { connectionOf, type Database, openDatabase } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { shiftBoard } from "../../db/queries/board";
import { verify } from "../../db/verify";
import { bringIn, SOMEBODY, tidyFile } from "./plant";

const START = Date.UTC(2026, 0, 5, 6);
const MINUTE = 60_000;

async function plantInFile(): Promise<{ database: Database; folder: string }> {
  const folder = mkdtempSync(path.join(tmpdir(), "steadyrest-test-"));
  const database = await openDatabase(path.join(folder, "steadyrest.db"));
  onTestFinished(async () => {
    await database.close();
    rmSync(folder, { recursive: true, force: true });
  });
  await migrate(database);
  await bringIn(database, pieces(0, 1100), { subgroupSize: 1 });
  expect(await rebuildOutdated(database)).toMatchObject({ differing: 0 });
  return { database, folder };
}

const pieces = (from: number, count: number) =>
  tidyFile(
    Array.from({ length: count }, (_, i) => ({
      piece: `S-${from + i}`,
      takenAt: START + (from + i) * MINUTE,
      value: 10 + (((from + i) * 7) % 11) / 1000,
    })),
  );

/** As a version would have left it that remembered other things, and had found another signal. */
function asOfAnotherVersion(database: Database): void {
  const { sqlite } = connectionOf(database);
  sqlite.exec("update setting set value = '1' where key = 'derived format'");
  sqlite.exec("update feature_state set progress = json_set(progress, '$.format', 1, '$.signals', 77)");
  sqlite.exec("update waypoint set progress = json_set(progress, '$.format', 1, '$.judged', 3)");
  sqlite.exec("update feature_standing set standing = json_set(standing, '$.signals', 77)");
  sqlite.exec("insert into signal values (1, 'location', 5, 'beyond-3s', 'up', 0, '[5]')");
}

const signalsOnBoard = async (database: Database) => (await shiftBoard(database))[0]?.standing?.signals;

test("is judged anew, measurements that came meanwhile among them, and no second time", async () => {
  const { database } = await plantInFile();
  const before = await shiftBoard(database);
  asOfAnotherVersion(database);
  expect(await signalsOnBoard(database)).toBe(77);
  expect(await rebuildOutdated(database)).toMatchObject({ features: 1, differing: 1 });
  expect(await shiftBoard(database)).toEqual(before);
  expect(await verify(database)).toMatchObject({ ok: true });
  expect(await rebuildOutdated(database)).toBeNull();

  // And one by one, where measurements come before anybody has judged all anew: in order, and late.
  asOfAnotherVersion(database);
  await bringIn(database, pieces(1101, 3));
  await bringIn(database, pieces(1100, 1));
  expect(await verify(database)).toMatchObject({ ok: true });
});

test("a backup that another version took is whole once it is restored", async () => {
  const { database, folder } = await plantInFile();
  asOfAnotherVersion(database);
  const copy = path.join(folder, "copy.db");
  await backUp(database, { to: copy });
  const to = path.join(folder, "restored.db");
  await restore({ from: copy, to, actor: SOMEBODY });
  const restored = await openDatabase(to);
  onTestFinished(() => restored.close());
  expect(await verify(restored)).toMatchObject({ ok: true, differing: [] });
  expect(await signalsOnBoard(restored)).toBe(0);
});
