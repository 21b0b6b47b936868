import { describe, expect, test } from "vitest";
import { gridView } from "../../app/drift/grid-view";
import { closeFlag, scanPlant } from "../../db/commands/drift";
import { rebuild } from "../../db/commands/rebuild";
import { logSourceEvent } from "../../db/commands/sources";
import { undoIntake } from "../../db/commands/undo-intake";
import type { Database } from "../../db/connection";
import { answeredFlags, endedFlags, isScanOutdated, latestScan, openFlags } from "../../db/queries/drift";
import { listFeatures } from "../../db/queries/features";
import { featureHistory } from "../../db/queries/history";
import { measuredPlant } from "../../db/queries/measured-plant";
import { PlantMemory } from "../../db/queries/plant-memory";
import { listLots, listSources, sourceEvents } from "../../db/queries/sources";
import { scanForDrift } from "../../lib/drift/drift-scan";
import { ScanMemory } from "../../lib/drift/scan-memory";
import { randomStream } from "../../lib/random/random-stream";
import { ENGLISH } from "../../lib/words/words";
import { bringIn, emptyPlant, type Row, SOMEBODY, tidyFile } from "./plant";

const HOUR = 3_600_000;
const BEGIN = Date.UTC(2026, 0, 5, 6);
const FEATURES = ["bore", "depth", "width", "slot"];

/** Lots of eight pieces, half of them in each of two fixtures; FX-2 reads `shift` more from a lot on. */
function lots({
  from,
  to,
  movedFrom,
  shift,
}: {
  from: number;
  to: number;
  movedFrom: number;
  shift: number;
}): Row[] {
  const rows: Row[] = [];
  for (let lot = from; lot < to; lot++) {
    const noise = randomStream(1, `lot ${lot}`);
    for (let piece = 0; piece < 8; piece++) {
      const fixture = piece % 2 === 0 ? "FX-1" : "FX-2";
      for (const feature of FEATURES) {
        const moved = fixture === "FX-2" && lot >= movedFrom && feature !== "slot" ? shift : 0;
        rows.push({
          piece: `${lot}-${piece}`,
          takenAt: BEGIN + lot * 8 * HOUR + piece * 1000,
          feature,
          value: (10 + moved + 0.01 * noise.normal()).toFixed(4),
          lot: `L-${String(lot).padStart(4, "0")}`,
          fixture,
        });
      }
    }
  }
  return rows;
}

const steady = { movedFrom: Number.POSITIVE_INFINITY, shift: 0 };

async function bringLots(database: Database, given: Parameters<typeof lots>[0]): Promise<void> {
  await bringIn(database, tidyFile(lots(given)));
}

const NOW = BEGIN + 2000 * HOUR;

test("what is stored is what the whole of the measurements gives, by memory or without", async () => {
  const database = await emptyPlant();
  const memory = new ScanMemory();
  await bringLots(database, { from: 0, to: 70, movedFrom: 62, shift: 0.03 });
  await scanPlant(database, { now: NOW, memory });
  await bringLots(database, { from: 70, to: 72, movedFrom: 62, shift: 0.03 });
  await scanPlant(database, { now: NOW, memory });
  const stored = await latestScan(database);

  // The scan of whole histories, put together here by itself: 72 lots, of which the scan looks at 60.
  const histories = await Promise.all(
    (await listFeatures(database, { partId: 1 })).map(
      async ({ id }) => (await featureHistory(database, id))!,
    ),
  );
  const sources = new Map((await listSources(database)).map(({ id, code }) => [id, code]));
  const lotCodes = new Map((await listLots(database)).map(({ id, code }) => [id, code]));
  const fresh = scanForDrift(
    [
      {
        part: stored?.result.partLots[0]?.part ?? "",
        features: histories.map(({ feature, series }) => ({
          name: feature.name,
          kind: feature.kind,
          nominal: feature.nominal,
          lower: feature.plan.tolerance.lower,
          upper: feature.plan.tolerance.upper,
          unit: feature.unit,
          resolution: feature.resolution,
          series,
        })),
      },
    ],
    { codeOf: (kind, id) => (kind === "lot" ? lotCodes : sources).get(id) ?? "" },
  );
  const { partLots, ...rest } = stored?.result ?? { partLots: [] };
  expect(rest).toEqual(fresh);
  expect(partLots[0]?.lots).toHaveLength(60);
  expect(partLots[0]?.lots.at(-1)).toBe("L-0071");
  expect(stored?.result.flags.map(({ source }) => source.id)).toEqual(["FX-2"]);

  expect(await rebuild(database)).toMatchObject({ differing: 0 });
  expect((await latestScan(database))?.result).toEqual(stored?.result);
});

test("what is read with the memory of the last reading is what is read without", async () => {
  const database = await emptyPlant();
  const memory = new PlantMemory();
  const read = async () => {
    const found = await measuredPlant(database, { now: NOW, memory });
    const anew = await measuredPlant(database, { now: NOW });
    expect(found.measurements).toBe(anew.measurements);
    // Everything but `codeOf`, which is a function made anew.
    expect({ ...found, codeOf: null }).toEqual({ ...anew, codeOf: null });
    return found.parts[0]!;
  };
  const one = (lot: number, { at = 0, value = 10, piece = "late" } = {}): Row => ({
    piece,
    takenAt: BEGIN + lot * 8 * HOUR + at,
    feature: "bore",
    value: value.toFixed(4),
    lot: `L-${String(lot).padStart(4, "0")}`,
    fixture: "FX-1",
  });

  await bringLots(database, { from: 0, to: 58, ...steady });
  const first = await read();
  expect(await read()).toBe(first);

  await bringLots(database, { from: 58, to: 60, ...steady });
  const appended = await read();
  expect(appended.features[0]!.series.count).toBe(480);
  // Pieces are kept once for all features that were measured on them.
  expect(appended.features[1]!.series.lot).toBe(appended.features[0]!.series.lot);

  // What has no news is not read again, not even beside what has.
  await bringIn(database, tidyFile([one(59, { at: 9999, piece: "more" })]));
  expect((await read()).features[1]!.series).toBe(appended.features[1]!.series);

  // The window moves on; a late one, one of a lot that has left the window, and one of the last moment.
  await bringLots(database, { from: 60, to: 62, ...steady });
  expect((await read()).features[0]!.series.count).toBe(481);
  await bringIn(database, tidyFile([one(30, { at: 9999 })]));
  await read();
  await bringIn(database, tidyFile([{ ...one(62, { piece: "old" }), lot: "L-0001" }]));
  await read();
  const { id } = await bringIn(database, tidyFile([one(63), one(63, { piece: "other", value: 11.01 })]));
  await read();
  await bringIn(database, tidyFile([one(63, { piece: "third" })]));
  await read();

  // One that is corrected, and an intake undone.
  await bringIn(database, tidyFile([one(63, { value: 11.02 })]));
  expect([...(await read()).features[0]!.series.value]).toContain(11.02);
  await undoIntake(database, { id, actor: SOMEBODY });
  const undone = await read();
  expect(undone.features[0]!.series.value).not.toContain(11.01);
});

test("is outdated after an intake, its undoing, and a source event; not after a scan", async () => {
  const database = await emptyPlant();
  expect(await isScanOutdated(database)).toBe(true);
  await scanPlant(database, { now: NOW });
  expect(await isScanOutdated(database)).toBe(false);
  expect((await latestScan(database))?.result.flags).toEqual([]);

  const { id } = await bringIn(database, tidyFile(lots({ from: 0, to: 6, ...steady })));
  expect(await isScanOutdated(database)).toBe(true);
  await scanPlant(database, { now: NOW });
  expect(await isScanOutdated(database)).toBe(false);

  const [source] = await listSources(database);
  const event = { sourceId: source!.id, at: BEGIN, event: "repaired" as const, note: "" };
  await logSourceEvent(database, { ...event, actor: SOMEBODY });
  expect(await isScanOutdated(database)).toBe(true);
  await scanPlant(database, { now: NOW });
  await undoIntake(database, { id, actor: SOMEBODY });
  expect(await isScanOutdated(database)).toBe(true);
});

describe("a flag", () => {
  async function flagged(): Promise<Database> {
    const database = await emptyPlant();
    await bringLots(database, { from: 0, to: 40, movedFrom: 30, shift: 0.03 });
    await scanPlant(database, { now: NOW });
    return database;
  }

  test("goes on as lots come, with its opening kept", async () => {
    const database = await flagged();
    const [first] = await openFlags(database);
    expect(first).toMatchObject({ source: { kind: "fixture", id: "FX-2" }, openedAt: NOW });
    await bringLots(database, { from: 40, to: 42, movedFrom: 30, shift: 0.03 });
    await scanPlant(database, { now: NOW + HOUR });
    const open = await openFlags(database);
    expect(open).toHaveLength(1);
    expect(open[0]).toMatchObject({ id: first?.id, openedAt: NOW, latestAt: NOW + HOUR });
  });

  test("ends with the event that answers it, and a later change opens another", async () => {
    const database = await flagged();
    const fixture = (await listSources(database)).find(({ code }) => code === "FX-2");
    const repaired = BEGIN + 40 * 8 * HOUR - HOUR;
    const note = "locator pin replaced";
    await logSourceEvent(database, {
      sourceId: fixture!.id,
      at: repaired,
      event: "repaired",
      note,
      actor: SOMEBODY,
    });
    await scanPlant(database, { now: NOW });
    expect(await openFlags(database)).toEqual([]);
    expect(await endedFlags(database, { limit: 5 })).toMatchObject([{ state: "answered" }]);
    expect(await answeredFlags(database, { endedFrom: repaired })).toMatchObject([
      { source: { id: "FX-2" }, endedAt: repaired, answer: { event: "repaired", note } },
    ]);
    expect(await answeredFlags(database, { endedFrom: repaired + 1 })).toEqual([]);

    // Its row stays in the grid of sources and lots, with what it did before the event said to be so.
    const scan = (await latestScan(database))!.result;
    const shown = { lots: scan.partLots[0]!.lots, zone: "UTC", flags: [] };
    const events = await sourceEvents(database);
    const answered = await answeredFlags(database, { endedFrom: BEGIN });
    const words = { ...ENGLISH, said: ENGLISH.driftPage.grid };
    const view = gridView(scan, { ...shown, events, answered, words });
    const row = view.groups
      .find(({ kind }) => kind === "fixture")
      ?.rows.find(({ source }) => source === "fixture|FX-2");
    expect(row?.cells.map((cell) => (cell?.strength ?? 0) >= 3)).toEqual(
      Array.from({ length: 40 }, (_, lot) => lot >= 30),
    );
    expect(
      row?.cells.every((cell) => cell?.words.includes("Before the source was repaired Sun 18 Jan")),
    ).toBe(true);
    expect(row?.ticks).toMatchObject([{ place: 40 }]);
    expect(view.afresh).toMatchObject([expect.stringMatching(/^FX-2: judged afresh .*; no lots yet\./)]);

    await bringLots(database, { from: 40, to: 50, ...steady });
    await scanPlant(database, { now: NOW });
    expect(await openFlags(database)).toEqual([]);
    await bringLots(database, { from: 50, to: 62, movedFrom: 50, shift: -0.04 });
    await scanPlant(database, { now: NOW });
    expect(await openFlags(database)).toMatchObject([{ source: { id: "FX-2" } }]);
  });

  test("closed by a person stays closed while the same change is found", async () => {
    const database = await flagged();
    const [flag] = await openFlags(database);
    const close = { id: flag!.id, remark: "Shimmed; measured pieces are fine.", actor: SOMEBODY };
    expect(await closeFlag(database, close)).toEqual({ ok: true });
    expect(await closeFlag(database, close)).toMatchObject({ ok: false });
    await bringLots(database, { from: 40, to: 42, movedFrom: 30, shift: 0.03 });
    await scanPlant(database, { now: NOW + HOUR });
    expect((await latestScan(database))?.result.flags).toHaveLength(1);
    expect(await openFlags(database)).toEqual([]);
    expect(await endedFlags(database, { limit: 5 })).toMatchObject([
      { state: "closed", latestAt: NOW + HOUR },
    ]);
  });
});
