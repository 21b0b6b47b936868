import fc from "fast-check";
import { afterAll, expect, test, vi } from "vitest";
import { addExclusion, freezeLimits } from "../../db/commands/limits";
import { type FeatureEntry, updateFeature } from "../../db/commands/plan";
import { rebuild } from "../../db/commands/rebuild";
import { undoIntake } from "../../db/commands/undo-intake";
import { connectionOf, type Database } from "../../db/connection";
import { type FeatureRow, listFeatures } from "../../db/queries/features";
import { featureHistory, namesOf } from "../../db/queries/history";
import { evaluate } from "../../lib/evaluation/evaluate";
import type { MemoryChart } from "../../lib/plan/feature-plan";
import { runs } from "../laws";
import { Ledger } from "./ledger";
import { bringIn, emptyPlant, type Row, SOMEBODY, tidyFile } from "./plant";

// Files of one worker share their modules: these are this file's own, with what it puts in their place.
vi.hoisted(() => vi.resetModules());
afterAll(() => {
  vi.doUnmock("../../lib/evaluation/waypoint");
  vi.doUnmock("../../db/measurements/waypoints");
  vi.resetModules();
});

/** Often enough that a story of some hundred measurements passes many; every 1,024 of them in the program. */
const waypointEvery = vi.hoisted(() => ({ readings: 7 }));
vi.mock("../../lib/evaluation/waypoint", () => ({
  isWaypoint: (readings: number) => readings > 0 && readings % waypointEvery.readings === 0,
}));

const judgedFromWaypoint = vi.hoisted(() => ({ times: 0 }));
vi.mock("../../db/measurements/waypoints", async (original) => {
  const waypoints = await original<typeof import("../../db/measurements/waypoints")>();
  return {
    ...waypoints,
    waypointBefore(...asked: Parameters<typeof waypoints.waypointBefore>) {
      const found = waypoints.waypointBefore(...asked);
      if (found) judgedFromWaypoint.times++;
      return found;
    },
  };
});

/*
 * Law: whatever the order of arrival, and whatever was corrected, undone, left out or frozen on the way, the
 * stored state is the one that the measurements alone give (`rebuild` finds nothing that differs), and the
 * measurements are those of a plain list kept beside it.
 */

const START = Date.UTC(2026, 0, 5, 6);
const MINUTE = 60_000;

type Step =
  | { do: "go on"; labelled: boolean; values: number[] }
  | { do: "bring"; rows: { minute: number; value: number; labelled: boolean }[] }
  | { do: "correct"; pick: number; value: number }
  | { do: "undo"; pick: number }
  | { do: "freeze" }
  | { do: "also watch"; chart: MemoryChart | null }
  | { do: "leave out"; from: number; to: number };

const value = fc.integer({ min: -40, max: 40 }).map((step) => 10 + step / 1000);
const row = fc.record({ minute: fc.integer({ min: 0, max: 400 }), value, labelled: fc.boolean() });
/** News as it comes from a line: the next minutes, one piece each, with labels or without. */
const news = fc.record({ labelled: fc.boolean(), values: fc.array(value, { minLength: 1, maxLength: 40 }) });
const pick = fc.nat({ max: 5 });
/** Narrow ones, so that they signal. */
const memoryChart = fc.constantFrom<MemoryChart | null>(
  { kind: "ewma", smoothing: 0.2, width: 1.5 },
  { kind: "cusum", reference: 0.5, decisionInterval: 2, headStart: 1 },
  null,
);
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 7, arbitrary: fc.tuple(news).map(([given]): Step => ({ do: "go on", ...given })) },
  {
    weight: 2,
    arbitrary: fc.array(row, { minLength: 1, maxLength: 30 }).map((rows): Step => ({ do: "bring", rows })),
  },
  {
    weight: 4,
    arbitrary: fc.tuple(pick, value).map(([at, to]): Step => ({ do: "correct", pick: at, value: to })),
  },
  { weight: 3, arbitrary: pick.map((at): Step => ({ do: "undo", pick: at })) },
  { weight: 1, arbitrary: fc.constant<Step>({ do: "freeze" }) },
  { weight: 2, arbitrary: memoryChart.map((chart): Step => ({ do: "also watch", chart })) },
  {
    weight: 1,
    arbitrary: fc
      .tuple(fc.integer({ min: 0, max: 400 }), fc.integer({ min: 0, max: 400 }))
      .map(([from, to]): Step => ({ do: "leave out", from, to })),
  },
);

const pieceOf = (minute: number) => `S-${minute}`;

async function storedValues(database: Database): Promise<Record<string, number>> {
  const values: Record<string, number> = {};
  for (const { id } of await listFeatures(database)) {
    const history = await featureHistory(database, id);
    if (!history) continue;
    const names = await namesOf(database, "piece", history.series.piece);
    for (let i = 0; i < history.series.count; i++) {
      values[names.get(history.series.piece[i] as number) as string] = history.series.value[i] as number;
    }
    // Time order is part of the law.
    for (let i = 1; i < history.series.count; i++) {
      expect(history.series.takenAt[i]).toBeGreaterThanOrEqual(history.series.takenAt[i - 1] as number);
    }
  }
  return values;
}

async function bring(
  database: Database,
  rows: readonly { minute: number; value: number; labelled: boolean }[],
  ledger: Ledger,
  intakes: number[],
): Promise<void> {
  const given = rows.map(
    (one): Row => ({
      piece: pieceOf(one.minute),
      takenAt: START + one.minute * MINUTE,
      value: one.value,
      lot: `L-${Math.floor(one.minute / 30)}`,
      subgroup: one.labelled ? String(Math.floor(one.minute / 4)) : "",
    }),
  );
  const { id } = await bringIn(database, tidyFile(given), { subgroupSize: 3 });
  intakes.push(id);
  for (const { piece, value: stated } of given) ledger.state(piece as string, Number(stated), id);
}

function entryOf({ plan, ...feature }: FeatureRow, alsoWatch: MemoryChart | null): FeatureEntry {
  const { name, kind, nominal, unit, resolution, keyCharacteristic, length, expansion, reduced } = feature;
  const { chart, subgroupSize, rules, tolerance, target, naturalBound } = plan;
  return {
    ...{ name, kind, nominal, unit, resolution, keyCharacteristic, length, expansion, reduced },
    ...{ chart, subgroupSize, rules, target, naturalBound, alsoWatch },
    ...tolerance,
  };
}

async function take(database: Database, step: Step, ledger: Ledger, intakes: number[]): Promise<void> {
  const [feature] = await listFeatures(database);
  switch (step.do) {
    case "go on": {
      const latest = Math.max(-1, ...[...ledger.said.keys()].map((piece) => Number(piece.slice(2))));
      const rows = step.values.map((stated, i) => ({
        minute: latest + 1 + i,
        value: stated,
        labelled: step.labelled,
      }));
      return bring(database, rows, ledger, intakes);
    }
    case "bring": {
      const distinct = new Map(step.rows.map((one) => [one.minute, one]));
      return bring(database, [...distinct.values()], ledger, intakes);
    }
    case "correct": {
      const pieces = [...ledger.said.keys()].slice(-3);
      const piece = pieces[step.pick % Math.max(1, pieces.length)];
      if (piece === undefined) return;
      const takenAt = START + Number(piece.slice(2)) * MINUTE;
      const { id } = await bringIn(database, tidyFile([{ piece, takenAt, value: step.value }]));
      intakes.push(id);
      ledger.state(piece, step.value, id);
      return;
    }
    case "undo": {
      const id = intakes.slice(-6)[step.pick];
      if (id === undefined) return;
      const undone = await undoIntake(database, { id, actor: SOMEBODY });
      if (undone.ok) ledger.undo(id);
      return;
    }
    case "freeze": {
      if (!feature) return;
      await freezeLimits(database, {
        featureId: feature.id,
        baselineFrom: START,
        baselineTo: START + 400 * MINUTE,
        effectiveFrom: START + 100 * MINUTE,
        reason: "test",
        actor: SOMEBODY,
      });
      return;
    }
    case "also watch": {
      if (!feature) return;
      const saved = await updateFeature(database, {
        id: feature.id,
        entry: entryOf(feature, step.chart),
        reason: "test",
        actor: SOMEBODY,
      });
      expect(saved).toMatchObject({ ok: true });
      return;
    }
    case "leave out": {
      if (!feature) return;
      await addExclusion(database, {
        featureId: feature.id,
        from: START + Math.min(step.from, step.to) * MINUTE,
        to: START + Math.max(step.from, step.to) * MINUTE,
        cause: "test",
        actor: SOMEBODY,
      });
      return;
    }
  }
}

test("law: any order of arrival, correction and undo ends in what a rebuild computes", async () => {
  let steps = 0;
  let remembered = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 14 }), async (story) => {
      const database = await emptyPlant();
      const ledger = new Ledger();
      const intakes: number[] = [];
      // Enough for trial limits that stay, so that news is judged by going on from the stored state.
      const first = Array.from({ length: 80 }, (_, minute) => ({
        minute,
        value: 10 + ((minute * 7) % 11) / 1000,
        labelled: false,
      }));
      await bring(database, first, ledger, intakes);
      for (const one of story) {
        await take(database, one, ledger, intakes);
        steps++;
      }
      expect(await storedValues(database)).toEqual(ledger.values());
      const [feature] = await listFeatures(database);
      const history = feature && (await featureHistory(database, feature.id));
      if (history) {
        const { signals } = evaluate(history.series, history.setup);
        const stored = connectionOf(database).sqlite.prepare("select count(*) from signal").pluck();
        expect(stored.get()).toBe(signals.length);
        remembered += signals.filter(({ chart }) => chart === "memory").length;
      }
      expect((await rebuild(database)).differing).toBe(0);
    }),
    { numRuns: runs(80) },
  );
  expect(steps).toBeGreaterThan(100);
  // The law would say nothing of charts with a memory if none had signalled.
  expect(remembered).toBeGreaterThan(20);
  // Nor of late and corrected measurements if all had been judged with the whole history.
  expect(judgedFromWaypoint.times).toBeGreaterThan(50);
});

/** What people see of alarms, without the moments at which the program noticed things. */
function alarmsOf(database: Database) {
  const { sqlite } = connectionOf(database);
  const alarms = sqlite.prepare(
    `select first_at, latest_at, state, words, origin, returned_at is null as runs, withdrawn_at is null as stands
     from alarm order by id`,
  );
  const events = sqlite.prepare("select alarm_id, kind from alarm_event order by id");
  return { alarms: alarms.all(), events: events.all() };
}

/** A labelled subgroup that is judged only behind the waypoint, at a moment before it: its alarm came twice. */
const GROWS_OVER_A_WAYPOINT: Step[] = [
  {
    do: "bring",
    rows: [80, 81, 0].map((minute) => ({ minute, value: 10, labelled: false })),
  },
  {
    do: "bring",
    rows: [
      { minute: 84, value: 10, labelled: false },
      { minute: 82, value: 9.991, labelled: true },
      { minute: 83, value: 10, labelled: false },
    ],
  },
  { do: "correct", pick: 0, value: 10.001 },
  { do: "freeze" },
];

test("law: judging from a waypoint raises, follows and withdraws the alarms that the whole history would", async () => {
  const before = judgedFromWaypoint.times;
  let alarms = 0;
  const told = async (story: readonly Step[], readings: number) => {
    waypointEvery.readings = readings;
    const database = await emptyPlant();
    const [ledger, intakes] = [new Ledger(), [] as number[]];
    const first = Array.from({ length: 80 }, (_, minute) => ({
      minute,
      value: 10 + ((minute * 7) % 11) / 1000,
      labelled: false,
    }));
    await bring(database, first, ledger, intakes);
    for (const one of story) await take(database, one, ledger, intakes);
    return alarmsOf(database);
  };
  try {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 14 }), async (story) => {
        const whole = await told(story, Number.POSITIVE_INFINITY);
        expect(await told(story, 7)).toEqual(whole);
        alarms += whole.alarms.length;
      }),
      { numRuns: runs(30), examples: [[GROWS_OVER_A_WAYPOINT]] },
    );
  } finally {
    waypointEvery.readings = 7;
  }
  expect(alarms).toBeGreaterThan(20);
  expect(judgedFromWaypoint.times - before).toBeGreaterThan(20);
});
