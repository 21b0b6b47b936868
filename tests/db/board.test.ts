import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { beforeEach, describe, expect, onTestFinished, test } from "vitest";
import { actOnAlarm } from "../../db/commands/alarms";
import { addExclusion, freezeLimits } from "../../db/commands/limits";
import { updateFeature, updatePart } from "../../db/commands/plan";
import { rebuild } from "../../db/commands/rebuild";
import { undoIntake } from "../../db/commands/undo-intake";
import { type Database, openDatabase } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { eventsOfAlarm, listAlarms } from "../../db/queries/alarms";
import { shiftBoard } from "../../db/queries/board";
import { listParts } from "../../db/queries/features";
import { bringIn, type Row, SOMEBODY, tidyFile } from "./plant";

/*
 * The board holds what it read and reads only what has changed. What it then says is held against a reader that has
 * just opened the file and knows nothing; both ways of writing, here and in another process, have to be noticed.
 */

const MINUTE = 60_000;
const START = SOMEBODY.at - 3 * 60 * MINUTE;

let here: Database;
let there: Database;
let file: string;
/** The intake that brought the heights. */
let heights: number;

beforeEach(async () => {
  const folder = mkdtempSync(path.join(tmpdir(), "steadyrest-test-"));
  file = path.join(folder, "plant.db");
  here = await openDatabase(file);
  await migrate(here);
  there = await openDatabase(file);
  await bringIn(here, rowsOf("bore", 0, 60), { subgroupSize: 1 });
  heights = (await bringIn(here, rowsOf("height", 0, 60), { subgroupSize: 1 })).id;
  onTestFinished(async () => {
    await Promise.all([here.close(), there.close()]);
    rmSync(folder, { recursive: true, force: true });
  });
});

function rowsOf(feature: string, from: number, count: number, value = 10): string {
  const rows = Array.from(
    { length: count },
    (_, i): Row => ({
      piece: `S-${from + i}`,
      takenAt: START + (from + i) * MINUTE,
      feature,
      value: value + [0, 0.002, -0.002, 0.001][i % 4]!,
      lot: `L-${Math.floor((from + i) / 10)}`,
      fixture: "FX-1",
    }),
  );
  return tidyFile(rows);
}

async function asOpenedAnew() {
  const reader = await openDatabase(file);
  try {
    return await shiftBoard(reader);
  } finally {
    await reader.close();
  }
}

const rowOf = async (name: string) => (await shiftBoard(here)).find(({ feature }) => feature.name === name)!;

/** What people and measurements do to what a board shows. */
const CHANGES: Record<string, (writer: Database) => Promise<unknown>> = {
  "measurements that come": (writer) => bringIn(writer, rowsOf("bore", 60, 5)),
  "measurements from a lot and a fixture not met before": (writer) =>
    bringIn(writer, tidyFile([{ takenAt: START + 99 * MINUTE, value: 10, lot: "L-new", fixture: "FX-9" }])),
  "a feature not met before": (writer) => bringIn(writer, rowsOf("slot", 0, 3)),
  "an intake that is undone": (writer) => undoIntake(writer, { id: heights, actor: SOMEBODY }),
  "an alarm, acknowledged": async (writer) => {
    await frozen(writer);
    await bringIn(writer, rowsOf("bore", 60, 2, 10.08));
    await shiftBoard(here);
    const [alarm] = await listAlarms(writer, { open: true });
    const seen = (await eventsOfAlarm(writer, alarm!.id)).at(-1)?.id ?? 0;
    const acts = [{ kind: "acknowledge" as const, note: "" }];
    const saved = await actOnAlarm(writer, { id: alarm!.id, seen, acts, actor: SOMEBODY });
    expect(saved).toMatchObject({ ok: true });
  },
  "limits that are frozen": (writer) => frozen(writer),
  "a subgroup left out": async (writer) => {
    await addExclusion(writer, {
      featureId: (await rowOf("bore")).feature.id,
      from: START,
      to: START + 10 * MINUTE,
      cause: "chips",
      actor: SOMEBODY,
    });
  },
  "a tolerance that is changed": async (writer) => {
    const { id, part, plan, partId, ...rest } = (await rowOf("bore")).feature;
    const { chart, subgroupSize, rules, tolerance, target, naturalBound } = plan;
    const entry = { ...rest, chart, subgroupSize, rules, target, naturalBound, ...tolerance, upper: 10.2 };
    const saved = await updateFeature(writer, { id, entry, reason: "drawing B", actor: SOMEBODY });
    expect(saved).toMatchObject({ ok: true });
  },
  "a part that moves to another line": async (writer) => {
    const [{ id, features, ...entry }] = (await listParts(writer)) as [
      Awaited<ReturnType<typeof listParts>>[number],
    ];
    expect(features).toBeGreaterThan(0);
    const saved = await updatePart(writer, {
      id,
      entry: { ...entry, line: "line 7" },
      reason: "moved",
      actor: SOMEBODY,
    });
    expect(saved).toMatchObject({ ok: true });
  },
  "everything computed anew": recomputed,
};

/** Changes nothing where everything was computed right, but writes all of it. */
function recomputed(writer: Database): Promise<unknown> {
  return rebuild(writer);
}

async function frozen(writer: Database): Promise<void> {
  await freezeLimits(writer, {
    featureId: (await rowOf("bore")).feature.id,
    baselineFrom: START,
    baselineTo: START + 59 * MINUTE,
    effectiveFrom: null,
    reason: "steady",
    actor: SOMEBODY,
  });
}

describe("law: after any change the held board is what a new reader reads", () => {
  for (const [what, change] of Object.entries(CHANGES)) {
    test(`${what}, written here and written elsewhere`, async () => {
      const before = await shiftBoard(here);
      await shiftBoard(there);
      await change(here);
      const anew = await asOpenedAnew();
      if (change !== recomputed) expect(anew).not.toEqual(before);
      expect(await shiftBoard(here)).toEqual(anew);
      expect(await shiftBoard(there)).toEqual(anew);
    });
  }
});

test("a row of which nothing changed is the same object, so that what was made of it can be kept", async () => {
  const before = { bore: await rowOf("bore"), height: await rowOf("height") };
  await bringIn(there, rowsOf("bore", 60, 1));
  expect(await rowOf("height")).toBe(before.height);
  const bore = await rowOf("bore");
  expect(bore).not.toBe(before.bore);
  expect(bore.standing?.readings).toBe(61);
});

test("nothing is read anew while nobody writes", async () => {
  expect(await shiftBoard(here)).toBe(await shiftBoard(here));
});
