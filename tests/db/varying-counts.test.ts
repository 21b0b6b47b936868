import fc from "fast-check";
import { expect, test } from "vitest";
import { freezeLimits } from "../../db/commands/limits";
import { createFeature, createPart, type FeatureEntry, updateFeature } from "../../db/commands/plan";
import { rebuild } from "../../db/commands/rebuild";
import { undoIntake } from "../../db/commands/undo-intake";
import { connectionOf, type Database } from "../../db/connection";
import { settle } from "../../db/measurements/settle";
import { listFeatures } from "../../db/queries/features";
import { featureHistory } from "../../db/queries/history";
import { refusalsOf } from "../../db/queries/intakes";
import { evaluate } from "../../lib/evaluation/evaluate";
import type { CountPlan } from "../../lib/plan/feature-plan";
import { runs } from "../laws";
import { bringIn, emptyPlant, SOMEBODY } from "./plant";

const START = Date.UTC(2026, 0, 5, 6);
const HOUR = 3_600_000;

const entryFor = (counts: CountPlan | null): FeatureEntry => ({
  name: "scratched",
  kind: "other",
  nominal: null,
  lower: null,
  upper: null,
  target: null,
  naturalBound: null,
  unit: "none",
  resolution: 1,
  keyCharacteristic: false,
  subgroupSize: 1,
  chart: "i-mr",
  rules: ["beyond-3s"],
  length: null,
  expansion: null,
  reduced: false,
  counts,
});

async function plantWith(counts: CountPlan): Promise<{ database: Database; id: number }> {
  const database = await emptyPlant();
  const part = { number: "P-1", revision: "", name: "", line: "", material: "", expansion: null };
  const owner = await createPart(database, part, SOMEBODY);
  if (!owner.ok) throw new Error(owner.message);
  const saved = await createFeature(database, { partId: owner.id, entry: entryFor(counts), actor: SOMEBODY });
  if (!saved.ok) throw new Error(saved.message);
  return { database, id: saved.id };
}

type Sample = { hour: number; count: number | string; size: number | string };

function file(samples: readonly Sample[]): string {
  const rows = samples.map(
    ({ hour, count, size }) =>
      `B-${hour},${new Date(START + hour * HOUR).toISOString()},P-1,scratched,${count},${size}`,
  );
  return `piece,taken_at,part,feature,value,inspected\n${rows.join("\n")}\n`;
}

async function stored(database: Database, id: number): Promise<[count: number, size: number][]> {
  const { series } = (await featureHistory(database, id))!;
  return Array.from(series.value, (count, i) => [count, series.inspected?.[i] ?? Number.NaN]);
}

async function judged(database: Database, id: number) {
  const history = (await featureHistory(database, id))!;
  return evaluate(history.series, history.setup);
}

const reasonsIn = async (database: Database, id: number) =>
  (await refusalsOf(database, id)).map(({ line, field, reason }) => `${line} ${field}: ${reason}`);

test("a file brings counts with their samples; news is judged as the whole history is, settled or not", async () => {
  const { database, id } = await plantWith({ chart: "p", size: 200 });
  // 25 samples, 12 of 100 and 24 of 300 in turn but for the last: Σd = 12·12 + 12·24 + 18, Σn = 4800 + 150.
  const baseline = Array.from({ length: 24 }, (_, hour) =>
    hour % 2 === 0 ? { hour, count: 12, size: 100 } : { hour, count: 24, size: 300 },
  );
  await bringIn(database, file([...baseline, { hour: 24, count: 18, size: 150 }]));
  // p̄ = 450/4950 = 1/11; 3√(p̄(1 − p̄)/n) = 0.0862 of n = 100 and 0.0498 of 300: 17 and 42 are within, 18 and 43 beyond.
  const news = [
    { hour: 25, count: 17, size: 100 },
    { hour: 26, count: 18, size: 100 },
    { hour: 27, count: 42, size: 300 },
    { hour: 28, count: 43, size: 300 },
    // Without a size of its own it is one of 200: 0.0610, 30 within and 31 beyond.
    { hour: 29, count: 30, size: "" },
    { hour: 30, count: 31, size: "" },
  ];
  for (const one of news) await bringIn(database, file([one]));
  const { versions, signals } = await judged(database, id);
  expect(versions[0]!.centre).toBeCloseTo(200 / 11, 12);
  expect(signals.map(({ at }) => at)).toEqual([26, 28, 30]);
  const { sqlite } = connectionOf(database);
  const live = sqlite.prepare("select at from signal where feature_id = ? order by at").pluck();
  expect(live.all(id)).toEqual([26, 28, 30]);
  expect((await stored(database, id)).slice(-3)).toEqual([
    [43, 300],
    [30, Number.NaN],
    [31, Number.NaN],
  ]);
  settle(connectionOf(database));
  expect((await stored(database, id)).slice(-3)[0]).toEqual([43, 300]);
  expect((await rebuild(database)).differing).toBe(0);
});

test("rows that do not go together are refused in words, each with its line", async () => {
  const { database } = await plantWith({ chart: "p", size: null });
  const { id, accepted } = await bringIn(
    database,
    file([
      { hour: 0, count: 3, size: 120 },
      { hour: 1, count: 5, size: 4 },
      { hour: 2, count: 5, size: 0 },
      { hour: 3, count: 5, size: "" },
      { hour: 4, count: 5, size: 12.5 },
      { hour: 5, count: 5, size: "many" },
      { hour: 6, count: 5, size: -3 },
    ]),
  );
  expect(accepted).toBe(1);
  const reasons = await reasonsIn(database, id);
  expect(reasons.toSorted()).toEqual([
    expect.stringMatching(/^3 value: 4 pieces were inspected, and 5 nonconforming are more/),
    expect.stringMatching(/^4 inspected: The number inspected is 0: it is above 0/),
    expect.stringMatching(/^5 inspected: On how many it was found is not stated/),
    expect.stringMatching(/^6 inspected: Nonconforming pieces are counted among a whole number .* has 12\.5/),
    expect.stringMatching(/^7 inspected: “many” is not a number/),
    expect.stringMatching(/^8 inspected: The number inspected is -3/),
  ]);
});

test.each([
  ["np", 50, /always 50 pieces, and this row has 60\. An np chart takes one size: choose p/],
  ["c", 2, /always 2 units, and this row has 60\. A c chart takes one size: choose u/],
] as const)("a chart of %s takes its one size, stated or not, and no other", async (chart, size, words) => {
  const { database, id: feature } = await plantWith({ chart, size });
  const { id, accepted } = await bringIn(
    database,
    file([
      { hour: 0, count: 1, size },
      { hour: 1, count: 1, size: "" },
      { hour: 2, count: 1, size: 60 },
    ]),
  );
  expect(accepted).toBe(2);
  expect(await reasonsIn(database, id)).toEqual([expect.stringMatching(words)]);
  const other = { ...entryFor({ chart, size: null }) };
  const saved = await updateFeature(database, { id: feature, entry: other, reason: "test", actor: SOMEBODY });
  expect(saved.ok === false && saved.message).toMatch(
    /takes samples of one size\. Enter it, or choose [pu] /,
  );
});

test("u counts on parts of a unit, above the number of units", async () => {
  const { database, id } = await plantWith({ chart: "u", size: null });
  await bringIn(
    database,
    file([
      { hour: 0, count: 7, size: 2.5 },
      { hour: 1, count: 9, size: 4 },
    ]),
  );
  expect(await stored(database, id)).toEqual([
    [7, 2.5],
    [9, 4],
  ]);
});

test("another number inspected corrects a count, a file that states none says nothing of it, and undoing brings it back", async () => {
  const { database, id } = await plantWith({ chart: "p", size: 100 });
  const first = await bringIn(database, file([{ hour: 0, count: 4, size: 180 }]));
  const again = await bringIn(database, file([{ hour: 0, count: 4, size: "" }]));
  expect(again).toMatchObject({ accepted: 0, duplicates: 1, corrections: 0 });
  const larger = await bringIn(database, file([{ hour: 0, count: 4, size: 212 }]));
  expect(larger).toMatchObject({ accepted: 0, corrections: 1 });
  expect(await stored(database, id)).toEqual([[4, 212]]);
  const counted = await bringIn(database, file([{ hour: 0, count: 5, size: "" }]));
  expect(await stored(database, id)).toEqual([[5, 212]]);
  // The first file once more does not take back what was corrected since.
  expect(await bringIn(database, file([{ hour: 0, count: 4, size: 180 }]))).toMatchObject({ corrections: 0 });

  await undoIntake(database, { id: counted.id, actor: SOMEBODY });
  expect(await stored(database, id)).toEqual([[4, 212]]);
  await undoIntake(database, { id: larger.id, actor: SOMEBODY });
  expect(await stored(database, id)).toEqual([[4, 180]]);
  await undoIntake(database, { id: first.id, actor: SOMEBODY });
  expect(await stored(database, id)).toEqual([]);
});

test("a corrected count is held against the number that stands when it states none itself", async () => {
  const { database, id } = await plantWith({ chart: "p", size: 100 });
  await bringIn(database, file([{ hour: 0, count: 4, size: 20 }]));
  const wrong = await bringIn(database, file([{ hour: 0, count: 50, size: "" }]));
  expect(await stored(database, id)).toEqual([[4, 20]]);
  expect(await reasonsIn(database, wrong.id)).toEqual([
    expect.stringMatching(/^2 value: 20 pieces were inspected, and 50 nonconforming are more/),
  ]);
});

test("frozen limits are of a rate: another usual number in the plan changes neither signals nor z", async () => {
  const { database, id } = await plantWith({ chart: "p", size: 200 });
  const samples = Array.from({ length: 30 }, (_, hour) => ({
    hour,
    count: 5 + ((hour * 7) % 11),
    size: 100 + 10 * (hour % 7),
  }));
  await bringIn(database, file([...samples, { hour: 30, count: 40, size: 150 }]));
  const frozen = await freezeLimits(database, {
    featureId: id,
    baselineFrom: START,
    baselineTo: START + 29 * HOUR,
    effectiveFrom: null,
    reason: "test",
    actor: SOMEBODY,
  });
  expect(frozen).toEqual({ ok: true, version: 1 });
  const before = await judged(database, id);
  expect(before.signals).toMatchObject([{ at: 30 }]);
  const entry = entryFor({ chart: "p", size: null });
  expect(await updateFeature(database, { id, entry, reason: "test", actor: SOMEBODY })).toMatchObject({
    ok: true,
  });
  const after = await judged(database, id);
  expect(after.versions[0]!.centre).toBeCloseTo(before.versions[0]!.centre / 2, 12);
  expect(after.versions[0]!.sigma).toBeCloseTo(before.versions[0]!.sigma / Math.SQRT2, 12);
  expect(after.signals).toEqual(before.signals);
  expect((await rebuild(database)).differing).toBe(0);
});

test("a plan that does not suit what is stored is refused", async () => {
  const { database, id } = await plantWith({ chart: "p", size: 100 });
  await bringIn(
    database,
    file([
      { hour: 0, count: 4, size: "" },
      { hour: 1, count: 4, size: 120 },
    ]),
  );
  const refusedAs = async (counts: CountPlan) => {
    const saved = await updateFeature(database, {
      id,
      entry: entryFor(counts),
      reason: "x",
      actor: SOMEBODY,
    });
    return saved.ok ? "saved" : saved.message;
  };
  expect(await refusedAs({ chart: "p", size: null })).toMatch(/does not say on how many .* usual number/);
  expect(await refusedAs({ chart: "np", size: 100 })).toMatch(/found on 120, not on 100\. Choose p /);
  expect(await refusedAs({ chart: "u", size: 100 })).toBe("saved");
});

test("a feature that a file brings with the number inspected is entered as counts, one that is measured is not", async () => {
  const database = await emptyPlant();
  const rows = [
    "2026-01-05T06:00:00Z,P-1,rejects,4,180,",
    "2026-01-05T07:00:00Z,P-1,rejects,6,212,",
    "2026-01-05T06:00:00Z,P-1,scratches,9,2.5,",
    "2026-01-05T07:00:00Z,P-1,scratches,3,4,",
    "2026-01-05T06:00:00Z,P-1,bore,10,5,mm",
    "2026-01-05T07:00:00Z,P-1,weight,3.25,5,",
  ];
  await bringIn(database, `taken_at,part,feature,value,inspected,unit\n${rows.join("\n")}\n`);
  const plans = (await listFeatures(database)).map(({ name, plan }) => [name, plan.counts]);
  expect(plans).toEqual([
    ["rejects", { chart: "p", size: null }],
    ["scratches", { chart: "u", size: null }],
    ["bore", null],
    ["weight", null],
  ]);
});

type Step =
  | { do: "go on"; samples: { count: number; size: number | null }[] }
  | { do: "late"; at: number; count: number; size: number }
  | { do: "correct"; at: number; count: number; size: number | null }
  | { do: "undo"; pick: number }
  | { do: "freeze" }
  | { do: "settle" };

const size = fc.integer({ min: 60, max: 400 });
const count = fc.integer({ min: 0, max: 20 });
const step: fc.Arbitrary<Step> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .array(fc.record({ count, size: fc.option(size) }), { minLength: 1, maxLength: 8 })
      .map((samples): Step => ({ do: "go on", samples })),
  },
  {
    weight: 2,
    arbitrary: fc
      .record({ at: fc.integer({ min: 0, max: 29 }), count, size })
      .map((one): Step => ({ do: "late", ...one })),
  },
  {
    weight: 3,
    arbitrary: fc
      .record({ at: fc.integer({ min: 0, max: 40 }), count, size: fc.option(size) })
      .map((one): Step => ({ do: "correct", ...one })),
  },
  { weight: 2, arbitrary: fc.nat({ max: 4 }).map((pick): Step => ({ do: "undo", pick })) },
  { weight: 1, arbitrary: fc.constant<Step>({ do: "freeze" }) },
  { weight: 1, arbitrary: fc.constant<Step>({ do: "settle" }) },
);

test("law: whatever comes late, is corrected or taken back, what is stored is what a rebuild computes", async () => {
  let signals = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 8 }), async (story) => {
      const { database, id } = await plantWith({ chart: "p", size: 150 });
      const first = Array.from({ length: 30 }, (_, i) => ({
        hour: 2 * i,
        count: (i * 5) % 9,
        size: 100 + (i % 5) * 40,
      }));
      const intakes = [(await bringIn(database, file(first))).id];
      let hour = 60;
      for (const one of story) {
        if (one.do === "settle") settle(connectionOf(database));
        else if (one.do === "undo") {
          const taken = intakes.at(-1 - one.pick);
          if (taken !== undefined) await undoIntake(database, { id: taken, actor: SOMEBODY });
        } else if (one.do === "freeze")
          await freezeLimits(database, {
            featureId: id,
            baselineFrom: START,
            baselineTo: START + hour * HOUR,
            effectiveFrom: START + 30 * HOUR,
            reason: "test",
            actor: SOMEBODY,
          });
        else {
          const samples =
            one.do === "go on"
              ? one.samples.map((each) => ({ ...each, hour: hour++, size: each.size ?? "" }))
              : [{ ...one, hour: one.do === "late" ? 2 * one.at + 1 : 2 * one.at, size: one.size ?? "" }];
          intakes.push((await bringIn(database, file(samples))).id);
        }
      }
      signals += (await judged(database, id)).signals.length;
      expect((await rebuild(database)).differing).toBe(0);
    }),
    { numRuns: runs(40) },
  );
  expect(signals).toBeGreaterThan(20);
});
