import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { differingFeatures } from "../../../db/commands/rebuild";
import { undoIntake } from "../../../db/commands/undo-intake";
import { type Connection, connectionOf, write } from "../../../db/connection";
import { importFile } from "../../../db/intake/import-file";
import { readRows, storeRows } from "../../../db/intake/import-rows";
import { previewFile } from "../../../db/intake/read-file";
import { giveBackKnownPlant, takeKnownPlant } from "../../../db/measurements/known-plant";
import { featureHistory } from "../../../db/queries/history";
import type { TidyRow } from "../../../lib/intake/repeated-rows";
import { utc } from "../../../lib/intake/zone";
import { bringIn, emptyPlant, SOMEBODY, tidyFile } from "../plant";

/*
 * Measurements of one feature that meet on their way in: two names of one feature in a request, and a file that was
 * begun before a request and stored after it. What is right is said by `differingFeatures`.
 */

const START = Date.UTC(2026, 0, 5, 6);
const MINUTE = 60_000;

type Reading = { piece: string; minute: number; part?: string; value: number };

/** Stores a request as `postMeasurements` does, inside a transaction. */
function store(connection: Connection, readings: readonly Reading[]) {
  const rows = readings.map(({ piece, minute, part, value }, i): TidyRow => {
    const taken_at = new Date(START + minute * MINUTE).toISOString();
    return { line: i + 1, cells: { piece, taken_at, feature: "bore", value, ...(part && { part }) } };
  });
  const plant = takeKnownPlant(connection);
  const stored = storeRows(connection, {
    plant,
    rows: readRows(rows, { zone: utc, refusals: [] }),
    kind: "post",
    name: "cell A",
    digest: JSON.stringify(readings),
    newFeatures: { subgroupSize: 1 },
    what: "request",
    actor: SOMEBODY,
  });
  giveBackKnownPlant(connection, plant);
  return stored;
}

const steady = (count: number) =>
  Array.from({ length: count }, (_, i) => ({
    piece: `S-${i}`,
    minute: i,
    value: 10 + ((i * 7) % 11) / 1000,
  }));

test("without a part, and of the part “unassigned”: one feature, of which nothing is taken twice", async () => {
  const database = await emptyPlant();
  await write(database, (connection) => store(connection, steady(60)));
  const { id, ...stored } = await write(database, (connection) =>
    store(connection, [
      { piece: "S-60", minute: 60, value: 10.001 },
      { piece: "S-60", minute: 60, value: 10.001, part: "unassigned" },
      { piece: "S-61", minute: 61, value: 10.002 },
      { piece: "S-59a", minute: 59.5, value: 10.003, part: "unassigned" },
    ]),
  );
  expect(stored).toMatchObject({ accepted: 3, duplicates: 1, late: 1 });
  expect((await featureHistory(database, 1))?.series.count).toBe(63);
  expect(await differingFeatures(database)).toEqual([]);
  expect(await undoIntake(database, { id, actor: SOMEBODY })).toMatchObject({ removed: 3 });
  expect(await differingFeatures(database)).toEqual([]);
});

test("so also where each name has one later reading, and the feature is in memory", async () => {
  const database = await emptyPlant();
  const [first, ...rest] = steady(60);
  await write(database, (connection) => store(connection, [first!]));
  await write(database, (connection) => store(connection, rest));
  const twice = () =>
    write(database, (connection) =>
      store(connection, [
        { piece: "S-60", minute: 60, value: 10.001 },
        { piece: "S-60", minute: 60, value: 10.001, part: "unassigned" },
      ]),
    );
  expect(await twice()).toMatchObject({ accepted: 1, duplicates: 1, corrections: 0 });
  expect((await featureHistory(database, 1))?.series.count).toBe(61);
  expect(await differingFeatures(database)).toEqual([]);
});

test("a new feature that a first request names in both ways", async () => {
  const database = await emptyPlant();
  const both = steady(60).map((reading, i) => ({ ...reading, ...(i % 2 === 0 && { part: "unassigned" }) }));
  const stored = await write(database, (connection) => store(connection, both));
  expect(stored).toMatchObject({ accepted: 60, duplicates: 0 });
  expect((await featureHistory(database, 1))?.series.count).toBe(60);
  expect(await differingFeatures(database)).toEqual([]);
});

test("a file that was begun before a request of the same moment and stored after it is the earlier of the two", async () => {
  const database = await emptyPlant();
  const known = steady(60).map(({ minute, ...reading }) => ({
    ...reading,
    takenAt: START + minute * MINUTE,
  }));
  await bringIn(database, tidyFile(known), { subgroupSize: 1 });
  const folder = mkdtempSync(path.join(tmpdir(), "steadyrest-test-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = { path: path.join(folder, "file"), name: "file.csv" };
  writeFileSync(file.path, tidyFile([{ piece: "of the file", takenAt: START + 60 * MINUTE, value: 10.007 }]));
  const { mapping } = await previewFile(file, { zone: utc, mapping: null, rows: 0 });
  const connection = connectionOf(database);
  const outcome = await importFile(database, {
    path: file.path,
    fileName: file.name,
    mapping,
    zone: utc,
    newFeatures: { subgroupSize: 1 },
    actor: SOMEBODY,
    onBegin: () =>
      connection.sqlite.transaction(() =>
        store(connection, [{ piece: "of the request", minute: 60, value: 10.001, part: "P-1" }]),
      )(),
  });
  expect(outcome).toMatchObject({ accepted: 1, late: 0 });
  const history = await featureHistory(database, 1);
  expect([...(history?.series.value ?? [])].slice(-2)).toEqual([10.007, 10.001]);
  expect(await differingFeatures(database)).toEqual([]);
});
