import { describe, expect, test } from "vitest";
import { freezeLimits } from "../../../db/commands/limits";
import { rebuild } from "../../../db/commands/rebuild";
import { undoIntake } from "../../../db/commands/undo-intake";
import { connectionOf, type Database } from "../../../db/connection";
import { listAlarms } from "../../../db/queries/alarms";
import { listFeatures, listParts } from "../../../db/queries/features";
import { featureHistory, namesOf } from "../../../db/queries/history";
import { intakeById, listIntakes, refusalsOf } from "../../../db/queries/intakes";
import { bringIn, emptyPlant, type Row, SOMEBODY, tidyFile } from "../plant";

const START = Date.UTC(2026, 0, 5, 6);
const MINUTE = 60_000;

/** One piece a minute, from `first` on, with the given values. */
function pieces(first: number, values: readonly number[], more: Partial<Row> = {}): Row[] {
  return values.map((value, i) => ({
    piece: `S-${first + i}`,
    takenAt: START + (first + i) * MINUTE,
    value,
    lot: `L-${Math.floor((first + i) / 10)}`,
    ...more,
  }));
}

async function onlyFeature(database: Database) {
  const features = await listFeatures(database);
  expect(features).toHaveLength(1);
  const history = await featureHistory(database, features[0]!.id);
  return history!;
}

describe("duplicates and corrections", () => {
  test("the same file twice adds nothing and says so", async () => {
    const database = await emptyPlant();
    const text = tidyFile(pieces(0, [10.01, 10.02, 9.99]));
    const first = await bringIn(database, text);
    expect(first).toMatchObject({ state: "done", accepted: 3, duplicates: 0 });
    const second = await bringIn(database, text);
    expect(second).toMatchObject({ state: "done", accepted: 0, duplicates: 3 });
    expect(second.message).toContain(`same file as intake ${first.id}`);
    expect((await onlyFeature(database)).series.count).toBe(3);
  });

  test("a file with a header alone says that it brought nothing", async () => {
    const database = await emptyPlant();
    const outcome = await bringIn(database, tidyFile([]).trimEnd());
    expect(outcome).toMatchObject({ state: "done", accepted: 0, refused: 0 });
    expect(outcome.message).toContain("no row below it");
  });

  test("a longer export of the same days adds only its new rows", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, [10.01, 10.02, 9.99])));
    const longer = await bringIn(database, tidyFile(pieces(0, [10.01, 10.02, 9.99, 10.03])));
    expect(longer).toMatchObject({ accepted: 1, duplicates: 3 });
  });

  test("another value of the same piece and moment is a correction; undoing it brings the old value back", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, [10.01, 10.02])));
    const corrected = await bringIn(database, tidyFile(pieces(1, [10.05])));
    expect(corrected).toMatchObject({ accepted: 0, corrections: 1 });
    expect([...(await onlyFeature(database)).series.value]).toEqual([10.01, 10.05]);
    expect(await undoIntake(database, { id: corrected.id, actor: SOMEBODY })).toEqual({
      ok: true,
      removed: 0,
      restored: 1,
    });
    expect([...(await onlyFeature(database)).series.value]).toEqual([10.01, 10.02]);
  });

  test("the same file again takes no correction back, and says that the corrections stand", async () => {
    const database = await emptyPlant();
    const text = tidyFile(pieces(0, [10.01, 10.02, 9.99]));
    const first = await bringIn(database, text);
    const correcting = await bringIn(database, tidyFile(pieces(1, [10.05])));
    const again = await bringIn(database, text);
    expect(again).toMatchObject({ accepted: 0, corrections: 0, duplicates: 3 });
    expect(again.message).toContain(`same file as intake ${first.id}`);
    expect(again.message).toContain("1 of them were corrected since");
    expect([...(await onlyFeature(database)).series.value]).toEqual([10.01, 10.05, 9.99]);
    // Once the correction is undone, nothing is left to keep.
    await undoIntake(database, { id: correcting.id, actor: SOMEBODY });
    expect((await bringIn(database, text)).message).not.toContain("corrected");
    expect([...(await onlyFeature(database)).series.value]).toEqual([10.01, 10.02, 9.99]);
  });

  test("a file that only corrects does not claim that nothing happened", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, [10.01, 10.02])));
    const corrected = await bringIn(database, tidyFile(pieces(0, [10.01, 10.05])));
    expect(corrected).toMatchObject({ accepted: 0, corrections: 1, duplicates: 1, message: "" });
  });

  test("the same piece and moment twice in one file, with different values: the first is taken, the other refused with its line", async () => {
    const database = await emptyPlant();
    const outcome = await bringIn(database, tidyFile([...pieces(0, [10.01]), ...pieces(0, [10.04])]));
    expect(outcome).toMatchObject({ accepted: 1, refused: 1 });
    const [refusal] = await refusalsOf(database, outcome.id);
    expect(refusal).toMatchObject({ line: 3, field: "value" });
    expect(refusal?.reason).toContain("line 2");
  });

  test("rows without a piece are told apart by everything they state, and counted", async () => {
    const database = await emptyPlant();
    const bare = { takenAt: START, value: 10.01 };
    expect(await bringIn(database, tidyFile([bare, bare]))).toMatchObject({ accepted: 2 });
    expect(await bringIn(database, tidyFile([bare, bare, bare]))).toMatchObject({
      accepted: 1,
      duplicates: 2,
    });
  });
});

describe("time", () => {
  test("a late file is placed at its time and counted as late", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(10, [10.01, 10.02])));
    const late = await bringIn(database, tidyFile(pieces(0, [9.98, 9.97])));
    expect(late).toMatchObject({ accepted: 2, late: 2 });
    expect([...(await onlyFeature(database)).series.value]).toEqual([9.98, 9.97, 10.01, 10.02]);
  });

  test("rows of one file may come in any order", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, [1, 2, 3, 4]).reverse()));
    expect([...(await onlyFeature(database)).series.value]).toEqual([1, 2, 3, 4]);
  });
});

describe("rows that cannot be taken", () => {
  test("a bad row never stops a file: line, field, reason and the row are kept", async () => {
    const database = await emptyPlant();
    const rows = pieces(0, [10.01, 10.02, 10.03]);
    rows[1] = { ...rows[1]!, value: "out" };
    const outcome = await bringIn(database, tidyFile(rows));
    expect(outcome).toMatchObject({ state: "done", accepted: 2, refused: 1 });
    const [refusal] = await refusalsOf(database, outcome.id);
    expect(refusal).toMatchObject({ line: 3, field: "value" });
    expect(refusal?.reason).toContain("out");
    expect(refusal?.raw).toContain("S-1");
  });

  test.each([
    ["zeros", new Uint8Array(100_000)],
    ["a PDF", "%PDF-1.7 and so on"],
    ["nothing", ""],
    [
      "Latin text said to be UTF-8",
      Uint8Array.from([...new TextEncoder().encode("value,feature\n1,"), 0xe9, 0x0a]),
    ],
  ])("a file of %s ends in a message and nothing stored", async (_, content) => {
    const database = await emptyPlant();
    const tidy = (await import("../../../lib/intake/mapping")).emptyMapping("plain");
    const mapping = {
      ...tidy,
      columns: { ...tidy.columns, value: { column: "value" }, feature: { column: "feature" } },
    };
    const outcome = await bringIn(database, content, { mapping });
    expect(outcome.state).toBe("failed");
    expect(outcome.message.length).toBeGreaterThan(20);
    expect(await listFeatures(database)).toEqual([]);
    expect(await listParts(database)).toEqual([]);
    expect(await intakeById(database, outcome.id)).toMatchObject({
      state: "failed",
      message: outcome.message,
    });
  });
});

describe("units", () => {
  test("inches brought to a feature in millimetres are converted exactly by 25.4", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, [25.4, 25.41])));
    const outcome = await bringIn(database, tidyFile(pieces(10, [1, 0.5], { unit: "in" })));
    expect(outcome.accepted).toBe(2);
    expect([...(await onlyFeature(database)).series.value]).toEqual([25.4, 25.41, 25.4, 12.7]);
  });

  test("degrees brought to a feature in millimetres are refused, row by row", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, [25.4, 25.41])));
    const outcome = await bringIn(database, tidyFile(pieces(10, [1, 2], { unit: "deg" })));
    expect(outcome).toMatchObject({ accepted: 0, refused: 2 });
    expect((await refusalsOf(database, outcome.id))[0]?.reason).toContain("deg");
  });
});

describe("the plan", () => {
  test("a feature the plan does not know is entered with a chart that fits the data", async () => {
    const database = await emptyPlant();
    const values = Array.from({ length: 40 }, (_, i) => 10 + (i % 7) / 1000);
    await bringIn(database, tidyFile(pieces(0, values)));
    const [feature] = await listFeatures(database);
    // Ten readings a lot, always: means and standard deviations of ten.
    expect(feature?.plan).toMatchObject({
      chart: "xbar-s",
      subgroupSize: 10,
      tolerance: { lower: 9.9, upper: 10.1 },
    });
    expect(feature).toMatchObject({ unit: "mm", nominal: 10, resolution: 0.001, kind: "size" });
  });

  test("tolerances that differ from the plan come as a notice; the plan stands", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, [10.01])));
    const text = tidyFile(pieces(10, [10.02])).replace("10.1,mm", "10.2,mm");
    const outcome = await bringIn(database, text);
    const [latest] = await listIntakes(database, { limit: 1 });
    expect(latest?.notices.map((notice) => notice.message).join()).toContain("upper tolerance limit 10.2");
    expect(outcome.accepted).toBe(1);
    expect((await listFeatures(database))[0]?.plan.tolerance.upper).toBe(10.1);
  });
});

describe("undo", () => {
  test("removes what the intake brought, marks the alarm that rested on it and keeps the alarm", async () => {
    const database = await emptyPlant();
    const steady = Array.from({ length: 60 }, (_, i) => 10 + [0, 2, -1, 1, -2][i % 5]! / 1000);
    await bringIn(database, tidyFile(pieces(0, steady)), { subgroupSize: 1 });
    const [feature] = await listFeatures(database);
    const frozen = await freezeLimits(database, {
      featureId: feature!.id,
      baselineFrom: START,
      baselineTo: START + 59 * MINUTE,
      effectiveFrom: null,
      reason: "steady",
      actor: SOMEBODY,
    });
    expect(frozen).toEqual({ ok: true, version: 1 });

    const wild = await bringIn(database, tidyFile(pieces(60, [10.05])));
    expect(wild.alarms).toBe(1);
    expect(await listAlarms(database, { open: true })).toMatchObject([
      { state: "unacknowledged", withdrawnAt: null },
    ]);

    const undone = await undoIntake(database, { id: wild.id, actor: { ...SOMEBODY, at: SOMEBODY.at + 1 } });
    expect(undone).toEqual({ ok: true, removed: 1, restored: 0 });
    const [alarm] = await listAlarms(database);
    expect(alarm?.withdrawnAt).toBe(SOMEBODY.at + 1);
    expect(await intakeById(database, wild.id)).toMatchObject({ state: "undone" });
    expect(await undoIntake(database, { id: wild.id, actor: SOMEBODY })).toMatchObject({ ok: false });
  });

  test("a file that was undone can be brought in again", async () => {
    const database = await emptyPlant();
    const text = tidyFile(pieces(0, [10.01, 10.02]));
    const first = await bringIn(database, text);
    await undoIntake(database, { id: first.id, actor: SOMEBODY });
    expect(await bringIn(database, text)).toMatchObject({ accepted: 2, duplicates: 0 });
  });
});

test("one excursion is one alarm: further signals join it until it has returned to normal", async () => {
  const database = await emptyPlant();
  const steady = Array.from({ length: 60 }, (_, i) => 10 + [0, 2, -1, 1, -2][i % 5]! / 1000);
  await bringIn(database, tidyFile(pieces(0, steady)), { subgroupSize: 1 });
  const [feature] = await listFeatures(database);
  await freezeLimits(database, {
    featureId: feature!.id,
    baselineFrom: START,
    baselineTo: START + 59 * MINUTE,
    effectiveFrom: null,
    reason: "steady",
    actor: SOMEBODY,
  });
  expect((await bringIn(database, tidyFile(pieces(60, [10.05])))).alarms).toBe(1);
  expect((await bringIn(database, tidyFile(pieces(61, [10.0, 10.06])))).alarms).toBe(0);
  // Moving ranges are large on the way back too; after that, quiet subgroups end the excursion.
  expect((await bringIn(database, tidyFile(pieces(63, [10.0, 10.001, 9.999, 10.0])))).alarms).toBe(0);
  const [alarm, ...others] = await listAlarms(database);
  expect(others).toEqual([]);
  expect(alarm?.returnedAt).not.toBeNull();
  expect((await bringIn(database, tidyFile(pieces(67, [9.95])))).alarms).toBe(1);
});

test("every name of a file is found again", async () => {
  const database = await emptyPlant();
  await bringIn(database, tidyFile(pieces(0, [10.01, 10.02], { fixture: "FX-9", subgroup: "a" })));
  const { series } = await onlyFeature(database);
  expect([...(await namesOf(database, "fixture", series.fixture)).values()]).toEqual(["FX-9"]);
  expect([...(await namesOf(database, "piece", series.piece)).values()].sort()).toEqual(["S-0", "S-1"]);
  expect([...(await namesOf(database, "subgroup", series.subgroup)).values()]).toEqual(["a"]);
  expect([...(await namesOf(database, "lot", series.lot)).values()]).toEqual(["L-0"]);
});

describe("an excursion that comes late", () => {
  const steady = (count: number) =>
    Array.from({ length: count }, (_, i) => 10 + [0, 0.002, -0.002, 0.001][i % 4]!);
  /** Fifty steady pieces, and fifty more a while later. */
  async function twoStretches(later: number): Promise<Database> {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, steady(50))), { subgroupSize: 1 });
    const second = await bringIn(database, tidyFile(pieces(later, steady(50))));
    expect(second.alarms).toBe(0);
    return database;
  }

  test("calls somebody, once, although it is over and something later was known", async () => {
    const database = await twoStretches(100);
    const late = await bringIn(database, tidyFile(pieces(60, [10.06, 10.05])));
    expect(late).toMatchObject({ accepted: 2, late: 2, alarms: 1 });
    const [alarm, ...others] = await listAlarms(database);
    expect(others).toEqual([]);
    expect(alarm).toMatchObject({ state: "unacknowledged", firstAt: START + 60 * MINUTE });
    expect(alarm?.returnedAt).not.toBeNull();
    // One steady piece more, later still, finds the same excursion again.
    expect((await bringIn(database, tidyFile(pieces(70, [10.0])))).alarms).toBe(0);
  });

  test("so does a correction that brings it to light, and a file that is late in part only", async () => {
    const corrected = await twoStretches(100);
    expect((await bringIn(corrected, tidyFile(pieces(110, [10.06])))).alarms).toBe(1);
    const partly = await twoStretches(100);
    const file = tidyFile([...pieces(60, [10.0]), ...pieces(150, [10.06, ...steady(20)])]);
    expect((await bringIn(partly, file)).alarms).toBe(1);
  });

  test("calls somebody although a machine whose clock was wrong had measured next year's pieces", async () => {
    const database = await emptyPlant();
    await bringIn(database, tidyFile(pieces(0, steady(50))), { subgroupSize: 1 });
    const ahead = pieces(365 * 24 * 60, steady(30));
    const wrong = await bringIn(database, tidyFile(ahead));
    expect((await intakeById(database, wrong.id))?.notices).toEqual([
      {
        line: 31,
        message: expect.stringMatching(
          /^The latest measurement is of 2027-01-05T06:29:00\.000Z, which is yet to/,
        ),
      },
    ]);
    const now = await bringIn(database, tidyFile(pieces(50, [10.06, 10.05, ...steady(10)])));
    expect(now).toMatchObject({ late: 12, alarms: 1 });
    expect((await intakeById(database, now.id))?.notices).toEqual([]);
  });

  test("an old history that is added afterwards calls nobody", async () => {
    const database = await twoStretches(10 * 24 * 60);
    const at = START + 11 * 24 * 60 * MINUTE;
    // Steady pieces behind the wild one, or its moving range on the way back would fall into the second stretch.
    const old = await bringIn(database, tidyFile(pieces(60, [10.06, ...steady(10)])), { at });
    expect(old).toMatchObject({ late: 11, alarms: 0 });
    expect(old.signals).toBeGreaterThan(0);
  });
});

test("a file of many new features makes one row of arrivals, and reads none of it back", async () => {
  const database = await emptyPlant();
  const rows = Array.from({ length: 300 }, (_, i) => ({ takenAt: START, feature: `f${i}`, value: 10 }));
  await bringIn(database, tidyFile(rows), { subgroupSize: 1 });
  const { sqlite } = connectionOf(database);
  expect(sqlite.prepare("select count from arrival").pluck().all()).toEqual([300]);
  // What follows is gone on from, and is what judging anew gives.
  const more = await bringIn(database, tidyFile(rows.map((row) => ({ ...row, takenAt: START + MINUTE }))));
  expect(more).toMatchObject({ accepted: 300, duplicates: 0 });
  expect(await rebuild(database)).toMatchObject({ differing: 0 });
});
