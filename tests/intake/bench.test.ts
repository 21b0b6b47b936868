import { expect, test } from "vitest";
import type { z } from "zod";
import { rowsOfSheet, type SentSheet, SHEET } from "../../app/intake/bench/entry";
import {
  emptySheet,
  gridColumns,
  isBlank,
  keptSheet,
  placeAfter,
  remarksOn,
} from "../../app/intake/bench/sheet";
import { connectionOf } from "../../db/connection";
import { storeSheet } from "../../db/intake/store-sheet";
import { intakeById } from "../../db/queries/intakes";
import { utc, zoneTable } from "../../lib/intake/zone";
import { ENGLISH } from "../../lib/words/words";
import { bringIn, emptyPlant, SOMEBODY, tidyFile } from "../db/plant";

const BORE = {
  id: 1,
  name: "bore",
  unit: "mm",
  resolution: 0.001,
  nominal: 10,
  lower: 9.9,
  upper: 10.1,
  counts: null,
} as const;
const DEPTH = {
  id: 2,
  name: "depth",
  unit: "none",
  resolution: 0.01,
  nominal: null,
  lower: null,
  upper: null,
  counts: null,
} as const;
/** As a browser sends it. */
type SentInput = z.input<typeof SHEET>;
const NOW = SOMEBODY.at;
const DRAFT = "3f1c6ad6-4f7e-4b1e-9d0b-0c6a6e7f1a2b";

function sheetOf(changes: Partial<SentInput> = {}): SentSheet {
  const sources = { lot: "L-1", fixture: " FX-1 ", tool: "", machine: "", gauge: "GA-1", operator: "" };
  const rows = [
    { piece: "p1", values: { 1: "10,01", 2: "4" } },
    { piece: "", values: { 1: "", 2: " " } },
    { piece: "p2", values: { 1: "10.2", 2: "" } },
  ];
  return SHEET.parse({ part: 1, draft: DRAFT, isSure: false, at: "", sources, rows, ...changes });
}

const read = (sheet: SentSheet, zone = utc) =>
  rowsOfSheet(sheet, { part: "P-1", features: [BORE, DEPTH], zone, now: NOW, words: ENGLISH });

test("a sheet becomes rows of the tidy file: a measurement a cell, empty rows left out, values outside kept", () => {
  const rows = read(sheetOf());
  if (!rows.ok) throw new Error(rows.why);
  const shared = { part: "P-1", lot: "L-1", fixture: "FX-1", gauge: "GA-1", tool: null };
  expect(rows.rows).toMatchObject([
    { line: 1, cells: { ...shared, piece: "p1", feature: "bore", value: 10.01, unit: "mm" } },
    { line: 1, cells: { piece: "p1", feature: "depth", value: 4, unit: null } },
    { line: 3, cells: { piece: "p2", feature: "bore", value: 10.2 } },
  ]);
  expect(rows.rows.map(({ cells }) => cells.taken_at)).toEqual(
    [NOW, NOW, NOW + 2000].map((at) => new Date(at).toISOString()),
  );
});

test("by hand: half past seven in Berlin in January is half past six in UTC", () => {
  const rows = read(sheetOf({ at: "2026-01-05T07:30" }), zoneTable("Europe/Berlin"));
  if (!rows.ok) throw new Error(rows.why);
  expect(rows.rows[0]?.cells.taken_at).toBe("2026-01-05T06:30:00.000Z");
});

test.each([
  [{ rows: [{ piece: "", values: { 1: "10" } }] }, "row 1 names no piece"],
  [
    {
      rows: [
        { piece: "a", values: { 1: "10" } },
        { piece: " a ", values: { 1: "10" } },
      ],
    },
    "stands in two rows",
  ],
  [{ rows: [{ piece: "a", values: { 1: "ten" } }] }, "row 1, bore: “ten” is not a number"],
  // Ten widths of 0.2 mm are 2 mm: 12.01 lies further from 10 than that.
  [{ rows: [{ piece: "a", values: { 1: "12.01" } }] }, "row 1, bore: 1.9100\u00a0mm above the tolerance"],
  [{ rows: [{ piece: "a", values: { 7: "10" } }] }, "the sheet holds no value"],
  [{ at: "2026-01-05T08:30" }, "lies ahead"],
  [{ at: "2026-02-31T08:30" }, "lies ahead"],
])("what will not do is refused in words: %o", (changes, why) => {
  expect(read(sheetOf(changes))).toMatchObject({ ok: false, why: expect.stringContaining(why) });
});

test("a value far outside is taken when the person says that it is what they read", () => {
  const rows = [{ piece: "a", values: { 1: "100,1" } }];
  expect(read(sheetOf({ rows }))).toMatchObject({
    ok: false,
    why: expect.stringContaining("is this what you read?"),
  });
  const sure = read(sheetOf({ rows, isSure: true }));
  expect(sure).toMatchObject({ ok: true, rows: [{ cells: { value: 100.1 } }] });
});

test("a sheet is stored once and judged; its alarm comes with the answer", async () => {
  const database = await emptyPlant();
  const begun = Array.from({ length: 40 }, (_, i) => ({
    takenAt: NOW - (100 - i) * 60_000,
    piece: `b${i}`,
    value: 10 + 0.001 * ((i * 7) % 11) - 0.005,
  }));
  await bringIn(database, tidyFile(begun), { subgroupSize: 1 });
  const rows = read(sheetOf());
  if (!rows.ok) throw new Error(rows.why);
  const store = () =>
    storeSheet(database, {
      rows: rows.rows,
      digest: rows.digest,
      name: "bench, P-1",
      zone: utc,
      actor: SOMEBODY,
    });
  const stored = await store();
  expect(stored).toMatchObject({
    ok: true,
    accepted: 3,
    isRepeated: false,
    alarms: [{ id: 1, feature: "bore" }],
  });
  expect(await store()).toMatchObject({ ok: true, accepted: 0, isRepeated: true });
  expect(await intakeById(database, 2)).toMatchObject({ kind: "bench", file: "bench, P-1", accepted: 3 });
});

test("a sheet is stored whole or not at all", async () => {
  const database = await emptyPlant();
  const rows = [
    { line: 1, cells: { piece: "a", taken_at: "2026-01-05T06:00:00Z", feature: "bore", value: 10 } },
    { line: 2, cells: { piece: "b", taken_at: "2026-01-05T06:00:00Z", feature: "x".repeat(201), value: 10 } },
  ];
  const stored = await storeSheet(database, { rows, digest: "d", name: "bench", zone: utc, actor: SOMEBODY });
  expect(stored).toMatchObject({
    ok: false,
    message: expect.stringMatching(/^Nothing saved: row 2, feature: /),
  });
  expect(connectionOf(database).sqlite.prepare("select count(*) from intake").pluck().get()).toBe(0);
});

test("Enter goes on across or down and on to a new row; arrows go up and down and never out above", () => {
  const size = { rows: 2, columns: 3 };
  const across = (key: string, row: number, column: number) =>
    placeAfter(key, { row, column }, { ...size, goesDown: false });
  expect(across("Enter", 0, 0)).toEqual({ row: 0, column: 1 });
  expect(across("Enter", 0, 2)).toEqual({ row: 1, column: 0 });
  expect(across("Enter", 1, 2)).toEqual({ row: 2, column: 0 });
  expect(placeAfter("Enter", { row: 1, column: 2 }, { ...size, goesDown: true })).toEqual({
    row: 2,
    column: 2,
  });
  expect(across("ArrowUp", 0, 1)).toBeNull();
  expect(across("ArrowDown", 1, 1)).toEqual({ row: 2, column: 1 });
  expect(across("Tab", 0, 1)).toBeNull();
});

test("a kept sheet comes back, fitted to the features of today; what is none does not", () => {
  const sheet = {
    ...emptySheet(2, DRAFT),
    rows: [{ number: 1, piece: "p", inspected: "", values: ["1,5", "x"] }],
  };
  expect(keptSheet(JSON.stringify(sheet), 3)?.rows).toEqual([
    { number: 1, piece: "p", inspected: "", values: ["1,5", "x", ""] },
  ]);
  for (const text of [null, "", "7", "{}", '{"draft":"a","rows":[]}', '{"rows":[{"piece":1}]}'])
    expect(keptSheet(text, 2)).toBeNull();
  expect(isBlank(sheet)).toBe(false);
  expect(isBlank(emptySheet(2, DRAFT))).toBe(true);
  expect(
    remarksOn(sheet, [BORE, DEPTH], { ...ENGLISH.bench.sheet, figures: ENGLISH.figures }).map(
      ({ row, column, cell }) => [row, column, cell.kind],
    ),
  ).toEqual([
    [0, 1, "far"],
    [0, 2, "fault"],
  ]);
});

test("counts of a row share what was inspected, measured values and charts of one size do not", () => {
  const of = (id: number, name: string, chart: "p" | "np") => ({
    ...DEPTH,
    id,
    name,
    counts: { chart, size: 200 },
  });
  const features = [BORE, of(3, "scratched", "p"), of(4, "dented", "np")];
  const rowsOf = (inspected: string) =>
    rowsOfSheet(sheetOf({ rows: [{ piece: "B-1", inspected, values: { 1: "10,01", 3: "4", 4: "2" } }] }), {
      part: "P-1",
      features,
      zone: utc,
      now: NOW,
      words: ENGLISH,
    });
  expect(rowsOf("212")).toMatchObject({
    ok: true,
    rows: [
      { cells: { feature: "bore", inspected: null } },
      { cells: { feature: "scratched", value: 4, inspected: 212 } },
      { cells: { feature: "dented", value: 2, inspected: null } },
    ],
  });
  expect(rowsOf("")).toMatchObject({ ok: true, rows: [{}, { cells: { inspected: null } }, {}] });
  expect(rowsOf("0")).toMatchObject({ ok: false, why: "row 1, Inspected: The number inspected is above 0." });
  expect(rowsOf("3")).toMatchObject({
    ok: false,
    why: expect.stringContaining("row 1, scratched: More than"),
  });
});

test("what was inspected is asked for right before the first count that may say it, and nowhere else", () => {
  const count = (chart: "p" | "np") => ({ ...DEPTH, counts: { chart, size: 200 } });
  const kinds = (features: Parameters<typeof gridColumns>[0]) =>
    gridColumns(features).map(({ kind }) => kind);
  expect(kinds([BORE, count("np")])).toEqual(["piece", "value", "value"]);
  const features = [BORE, count("np"), count("p"), count("p")];
  expect(kinds(features)).toEqual(["piece", "value", "value", "inspected", "value", "value"]);
  const rows = [{ number: 1, piece: "B-1", inspected: "none", values: ["", "", "7", "x"] }];
  const words = { ...ENGLISH.bench.sheet, figures: ENGLISH.figures };
  expect(
    remarksOn({ ...emptySheet(4, DRAFT), rows }, features, words).map(({ column, feature }) => [
      column,
      feature,
    ]),
  ).toEqual([
    [3, "Inspected"],
    [5, "depth"],
  ]);
});
