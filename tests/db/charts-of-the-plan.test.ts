import { describe, expect, test } from "vitest";
import { freezeLimits } from "../../db/commands/limits";
import { createFeature, createPart, type FeatureEntry, updateFeature } from "../../db/commands/plan";
import { rebuild } from "../../db/commands/rebuild";
import type { Database } from "../../db/connection";
import { listAlarms } from "../../db/queries/alarms";
import { shiftBoard } from "../../db/queries/board";
import { featureHistory } from "../../db/queries/history";
import { refusalsOf } from "../../db/queries/intakes";
import { evaluate } from "../../lib/evaluation/evaluate";
import { bringIn, emptyPlant, SOMEBODY } from "./plant";

const START = Date.UTC(2026, 0, 5, 6);
const MINUTE = 60_000;

const MEASURED: FeatureEntry = {
  name: "bore",
  kind: "size",
  nominal: 10,
  lower: 9.9,
  upper: 10.1,
  target: null,
  naturalBound: null,
  unit: "mm",
  resolution: 0.001,
  keyCharacteristic: false,
  subgroupSize: 1,
  chart: "i-mr",
  rules: ["beyond-3s"],
  length: null,
  expansion: null,
  reduced: false,
};

const COUNTED: FeatureEntry = {
  ...MEASURED,
  kind: "other",
  nominal: null,
  lower: null,
  upper: null,
  unit: "none",
  resolution: 1,
  counts: { chart: "np", size: 50 },
};

async function plantWith(entry: FeatureEntry): Promise<{ database: Database; id: number }> {
  const database = await emptyPlant();
  const part = { number: "P-1", revision: "", name: "", line: "", material: "", expansion: null };
  const owner = await createPart(database, part, SOMEBODY);
  if (!owner.ok) throw new Error(owner.message);
  const saved = await createFeature(database, { partId: owner.id, entry, actor: SOMEBODY });
  if (!saved.ok) throw new Error(saved.message);
  return { database, id: saved.id };
}

/** One value a minute from `first` on; `lotOf` names the lot of the i-th. */
function file(
  values: readonly (number | string)[],
  first = 0,
  lotOf: (i: number) => string = () => "",
): string {
  const lines = values.map((value, i) => {
    const at = new Date(START + (first + i) * MINUTE).toISOString();
    return `S-${first + i},${at},P-1,bore,${value},${lotOf(i)}`;
  });
  return `piece,taken_at,part,feature,value,lot\n${lines.join("\n")}\n`;
}

async function judged(database: Database, id: number) {
  const history = await featureHistory(database, id);
  return evaluate(history!.series, history!.setup);
}

describe("a chart with a memory on standing watch", () => {
  /** 25 readings about 10 with MR̄ of 2 steps, then a shift of about one sigma, which no limit at 3 sigma sees. */
  const steady = Array.from({ length: 30 }, (_, i) => 10 + (i % 2 === 0 ? 0.001 : -0.001));
  const shifted = Array.from({ length: 40 }, (_, i) => 10.0025 + (i % 2 === 0 ? 0.001 : -0.001));

  test.each([
    [{ kind: "ewma", smoothing: 0.2, width: 2.962 } as const, "Weighted average beyond its limit above"],
    [
      { kind: "cusum", reference: 0.5, decisionInterval: 5, headStart: 0 } as const,
      "Cumulative sum beyond its limit above",
    ],
  ])("raises one alarm for a small lasting shift that limits alone miss: $kind", async (alsoWatch, words) => {
    const { database, id } = await plantWith({ ...MEASURED, alsoWatch });
    await bringIn(database, file(steady));
    await bringIn(database, file(shifted, 30));
    const { signals } = await judged(database, id);
    expect(new Set(signals.map(({ chart }) => chart))).toEqual(new Set(["memory"]));
    expect(await listAlarms(database)).toMatchObject([{ words }]);
    expect((await rebuild(database)).differing).toBe(0);
  });

  test("figures that do not suit are refused in words", async () => {
    const { database, id } = await plantWith(MEASURED);
    const entry = { ...MEASURED, alsoWatch: { kind: "ewma", smoothing: 2, width: 3 } as const };
    expect(await updateFeature(database, { id, entry, reason: "test", actor: SOMEBODY })).toMatchObject({
      ok: false,
      message: "Nothing saved: λ of the weighted average lies from 0.01 to 1.",
    });
  });
});

describe("counts", () => {
  test("by hand: 25 samples of 50 with 5 nonconforming: limits 5 ± 3√4.5, no spread; 11 is none, 12 signals", async () => {
    const { database, id } = await plantWith(COUNTED);
    await bringIn(database, file([...Array.from({ length: 24 }, (_, i) => (i % 2 === 0 ? 4 : 6)), 5]));
    await bringIn(database, file([11, 12], 25));
    const { versions, signals, points } = await judged(database, id);
    expect(versions[0]).toMatchObject({ centre: 5, estimator: "binomial" });
    // 5 + 3 · 2.1213 = 11.36.
    expect(versions[0]!.sigma).toBeCloseTo(Math.sqrt(4.5), 12);
    expect(signals).toMatchObject([{ chart: "location", rule: "beyond-3s", at: 26, direction: "up" }]);
    expect(points.spread.every(Number.isNaN)).toBe(true);
    expect((await rebuild(database)).differing).toBe(0);
  });

  test("rows that are no counts are refused with their line, the others stored", async () => {
    const { database } = await plantWith(COUNTED);
    const { id, accepted } = await bringIn(database, file([3, 2.5, 51, 4]));
    expect(accepted).toBe(2);
    const refusals = await refusalsOf(database, id);
    expect(refusals.map(({ line, field }) => [line, field])).toEqual([
      [3, "value"],
      [4, "value"],
    ]);
    expect(refusals[0]!.reason).toContain("2.5 is no whole number");
    expect(refusals[1]!.reason).toContain("50 pieces looked at");
  });

  test("a feature with measured values does not become one of counts", async () => {
    const { database, id } = await plantWith({ ...MEASURED, unit: "none" });
    await bringIn(database, file([10.002, 9.998]));
    const saved = await updateFeature(database, { id, entry: COUNTED, reason: "test", actor: SOMEBODY });
    expect(saved.ok === false && saved.message).toContain("10.002 is no whole number");
  });
});

describe("limits of lot means", () => {
  const lots = [0, 20, -10, 15, -20, 5, 10, -15, 0, 20, -5, 10, -20, 15, 0, -10, 20, 5, -15, 10];
  const readings = lots.flatMap((level) => [-1, 0, 1].map((one) => 10 + (level + one) / 1000));
  const lotOf = (i: number) => `L-${Math.floor(i / 3)}`;
  const freeze = (database: Database, featureId: number) =>
    freezeLimits(database, {
      featureId,
      baselineFrom: START,
      baselineTo: START + 1000 * MINUTE,
      effectiveFrom: null,
      estimator: "between-lots",
      reason: "Castings differ from melt to melt.",
      actor: SOMEBODY,
    });

  test("where nearly every lot signals by the spread within, none does by them", async () => {
    const { database, id } = await plantWith({ ...MEASURED, chart: "xbar-r", subgroupSize: 3 });
    await bringIn(database, file(readings, 0, lotOf));
    expect((await judged(database, id)).signals.length).toBeGreaterThan(10);
    expect(await freeze(database, id)).toEqual({ ok: true, version: 1 });
    const { versions, signals } = await judged(database, id);
    expect(versions[0]!.estimator).toBe("between-lots");
    expect(versions[0]!.betweenLots).toBeGreaterThan(0.01);
    expect(signals).toEqual([]);
    // What is stored and raises alarms is judged by the very same limits, and so is what comes in from now on.
    const stored = async () => (await shiftBoard(database))[0]!.standing!;
    expect(await stored()).toMatchObject({ signals: 0, betweenLots: versions[0]!.betweenLots });
    await bringIn(
      database,
      file(readings, readings.length, (i) => `M-${Math.floor(i / 3)}`),
    );
    expect((await judged(database, id)).signals).toEqual([]);
    expect(await stored()).toMatchObject({ signals: 0 });
    expect((await rebuild(database)).differing).toBe(0);
  });

  test("with several subgroups to a lot they are refused, for means of one lot are not independent", async () => {
    const { database, id } = await plantWith({ ...MEASURED, chart: "xbar-r", subgroupSize: 3 });
    await bringIn(
      database,
      file(readings, 0, (i) => `L-${Math.floor(i / 6)}`),
    );
    const saved = await freeze(database, id);
    expect(saved.ok === false && saved.message).toMatch(/^Nothing saved: .*one subgroup for each lot/);
  });
});
