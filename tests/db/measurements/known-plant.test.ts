import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { expect, onTestFinished, test } from "vitest";
import { freezeLimits } from "../../../db/commands/limits";
import { differingFeatures } from "../../../db/commands/rebuild";
import { undoIntake } from "../../../db/commands/undo-intake";
import { connectionOf, type Database, openDatabase, write } from "../../../db/connection";
import { postMeasurements } from "../../../db/intake/post-measurements";
import { waitingFeatures } from "../../../db/measurements/arrivals";
import { settle, settleSome } from "../../../db/measurements/settle";
import { migrate } from "../../../db/migrate";
import { type ApiKey, apiKeyOf, createApiKey } from "../../../db/people/api-keys";
import { shiftBoard } from "../../../db/queries/board";
import { listFeatures } from "../../../db/queries/features";
import { featureHistory } from "../../../db/queries/history";
import { utc } from "../../../lib/intake/zone";
import { runs } from "../../laws";
import { bringIn, SOMEBODY, tidyFile } from "../plant";

/*
 * What posted pieces keep of the plant in memory must hold however the database changed meanwhile, and whoever reads a
 * state that is behind must see the present one. What is right is said by `differingFeatures`, which judges every stored
 * measurement anew.
 */

const START = Date.UTC(2026, 0, 5, 6);
const MINUTE = 60_000;
const FEATURES = ["bore", "depth", "width"];

/** A plant in a file, open twice as by two processes, with 90 pieces judged and a machine's key. */
async function plantOpenTwice() {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-known-"));
  const here = await openDatabase(join(folder, "steadyrest.db"));
  const there = await openDatabase(join(folder, "steadyrest.db"));
  onTestFinished(async () => {
    await here.close();
    await there.close();
    rmSync(folder, { recursive: true, force: true });
  });
  await migrate(here);
  const rows = FEATURES.flatMap((feature) =>
    Array.from({ length: 90 }, (_, i) => ({
      piece: `S-${i}`,
      takenAt: START + i * MINUTE,
      feature,
      value: valueAt(i),
    })),
  );
  await bringIn(here, tidyFile(rows), { subgroupSize: 3 });
  return { here, there, key: await keyOf(here) };
}

const valueAt = (i: number) => 10 + (((i * 7) % 11) - 5) / 1000;

async function keyOf(database: Database): Promise<ApiKey> {
  const made = await createApiKey(database, {
    entry: { name: "cell A", scopes: ["post-measurements"], expiresAt: null },
    actor: SOMEBODY,
  });
  if (!made.ok) throw new Error(made.message);
  const found = await apiKeyOf(database, { secret: made.secret, now: SOMEBODY.at });
  if (!found.ok) throw new Error(found.why);
  return found.key;
}

/** Posts the i-th piece: all features, or those named. */
async function post(
  database: Database,
  key: ApiKey,
  i: number,
  { value = valueAt(i), features = FEATURES, lot = "L-1" } = {},
) {
  const rows = features.map((feature, index) => ({
    line: index + 1,
    cells: {
      piece: `S-${i}`,
      taken_at: new Date(START + i * MINUTE).toISOString(),
      part: "P-1",
      lot,
      feature,
      value,
    },
  }));
  const result = await postMeasurements(database, {
    key,
    idempotencyKey: null,
    body: JSON.stringify(rows),
    posted: () => ({ rows, refusals: [], paths: rows.map((_, index) => `measurements[${index}]`) }),
    zone: utc,
    actor: SOMEBODY,
    now: SOMEBODY.at,
  });
  if (result.kind !== "stored") throw new Error(`The request was ${result.kind}.`);
  return JSON.parse(result.answer);
}

async function postMany(database: Database, key: ApiKey, from: number, to: number): Promise<void> {
  for (let i = from; i < to; i++) await post(database, key, i);
}

/** How many features have a stored state that has not seen all their measurements. */
function statesBehind(database: Database): number {
  const connection = connectionOf(database);
  const seen = connection.sqlite.prepare("select to_arrival from feature_state where feature_id = ?").pluck();
  const waiting = [...waitingFeatures(connection)];
  return waiting.filter(([id, { last }]) => last > (seen.get(id) as number)).length;
}

async function boardOf(database: Database) {
  const rows = await shiftBoard(database);
  return rows.map(({ feature, standing, sources, latestLot }) => [
    feature.name,
    standing,
    sources,
    latestLot,
  ]);
}

async function readingsOf(database: Database): Promise<number[]> {
  const features = await listFeatures(database);
  const histories = await Promise.all(features.map(({ id }) => featureHistory(database, id)));
  return histories.map((history) => history?.series.count ?? 0);
}

test("pieces that two processes post in turn are judged as if one had posted all", async () => {
  const { here, there, key } = await plantOpenTwice();
  for (let i = 90; i < 130; i++) await post(i % 3 === 0 ? there : here, key, i);
  expect(await differingFeatures(here)).toEqual([]);
  expect(await readingsOf(here)).toEqual([130, 130, 130]);
});

test("limits that another process freezes between two pieces judge the second", async () => {
  const { here, there, key } = await plantOpenTwice();
  await postMany(here, key, 90, 95);
  const [bore] = await listFeatures(there);
  const frozen = await freezeLimits(there, {
    featureId: bore?.id ?? 0,
    baselineFrom: START,
    baselineTo: START + 89 * MINUTE,
    effectiveFrom: null,
    reason: "a steady run",
    actor: SOMEBODY,
  });
  expect(frozen).toMatchObject({ ok: true });
  await postMany(here, key, 95, 105);
  expect(await differingFeatures(here)).toEqual([]);
});

test("an intake that is undone between two pieces takes what it brought out of the memory as well", async () => {
  const { here, there, key } = await plantOpenTwice();
  await postMany(here, key, 90, 94);
  const { intake } = await post(here, key, 94);
  await undoIntake(there, { id: intake, actor: SOMEBODY });
  await postMany(here, key, 95, 105);
  expect(await differingFeatures(here)).toEqual([]);
  expect(await readingsOf(here)).toEqual([104, 104, 104]);
});

test("late and corrected pieces in between leave a memory that goes on rightly", async () => {
  const { here, key } = await plantOpenTwice();
  await postMany(here, key, 92, 97);
  expect(await post(here, key, 90)).toMatchObject({ accepted: 3, late: 3 });
  await postMany(here, key, 97, 101);
  expect(await post(here, key, 95, { value: 10.004, features: ["depth"] })).toMatchObject({ corrections: 1 });
  await postMany(here, key, 101, 110);
  expect(await post(here, key, 109)).toMatchObject({ accepted: 0, duplicates: 3 });
  expect(await differingFeatures(here)).toEqual([]);
});

test("a piece whose transaction fails half-way, or at its end, leaves nothing of itself in the memory", async () => {
  const { here, key } = await plantOpenTwice();
  await postMany(here, key, 90, 94);
  const { sqlite } = connectionOf(here);
  // Half-way: all features have been judged when what came of them is refused.
  sqlite.exec("create temp trigger full before insert on arrival begin select raise(abort, 'no room'); end");
  await expect(post(here, key, 94, { lot: "L-2" })).rejects.toThrow("no room");
  sqlite.exec("drop trigger full");
  await postMany(here, key, 95, 97);
  // At its end: everything has been written, and cannot be committed.
  const exec = sqlite.exec.bind(sqlite);
  sqlite.exec = (sql) => {
    if (sql === "COMMIT") throw new Error("the disk is gone");
    return exec(sql);
  };
  await expect(post(here, key, 97, { lot: "L-3" })).rejects.toThrow("the disk is gone");
  sqlite.exec = exec;
  for (let i = 98; i < 105; i++) await post(here, key, i, { lot: i % 2 === 0 ? "L-2" : "L-3" });

  expect(await differingFeatures(here)).toEqual([]);
  expect(await readingsOf(here)).toEqual([103, 103, 103]);
  const lots = sqlite.prepare("select code from lot order by code").pluck().all();
  expect(lots).toEqual(["L-1", "L-2", "L-3"]);
});

test("a board shows the latest piece of states that are behind, and the same when they have been stored", async () => {
  const { here, there, key } = await plantOpenTwice();
  for (let i = 90; i < 99; i++) await post(here, key, i, { lot: `L-${i}` });
  expect(statesBehind(here)).toBe(3);
  const [shown, elsewhere] = [await boardOf(here), await boardOf(there)];
  expect(shown).toMatchObject(
    FEATURES.map((name) => [
      name,
      // 99 readings in threes: the last subgroup is the 33rd.
      { readings: 99, subgroups: 33, lastAt: START + 98 * MINUTE },
      {},
      "L-98",
    ]),
  );
  expect(elsewhere).toEqual(shown);
  await write(here, settle);
  expect(statesBehind(here)).toBe(0);
  expect(await boardOf(here)).toEqual(shown);
});

test("a state is stored again before it is twenty pieces behind", async () => {
  const { here, key } = await plantOpenTwice();
  const { sqlite } = connectionOf(here);
  const seen = sqlite.prepare("select to_arrival from feature_state where feature_id = 1").pluck();
  const stored: number[] = [];
  for (let i = 90; i < 140; i++) {
    await post(here, key, i);
    if (seen.get() !== stored.at(-1)) stored.push(seen.get() as number);
  }
  // The first one after reading it, and each 20th from there on; a piece is an arrival each.
  const [first = 0] = stored;
  expect(stored).toEqual([first, first + 20, first + 40]);
});

test("what was behind when the program ended is gone on from when it starts again", async () => {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-ended-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const { here, key } = await plantOpenTwice();
  for (let i = 90; i < 101; i++) await post(here, key, i);
  expect(statesBehind(here)).toBe(3);
  // A copy as it lies on the disk, as after a power cut.
  await connectionOf(here).sqlite.backup(join(folder, "steadyrest.db"));
  const again = await openDatabase(join(folder, "steadyrest.db"));
  onTestFinished(() => again.close());
  for (let i = 101; i < 104; i++) await post(again, key, i);
  expect(await differingFeatures(again)).toEqual([]);
  expect(await readingsOf(again)).toEqual([104, 104, 104]);
});

test("law: whoever posts, brings, undoes, settles or looks in between, all states are those of the measurements", async () => {
  const step = fc.oneof(
    {
      weight: 8,
      arbitrary: fc.record({
        do: fc.constant("post" as const),
        by: fc.boolean(),
        count: fc.integer({ min: 1, max: 9 }),
      }),
    },
    {
      weight: 2,
      arbitrary: fc.record({
        do: fc.constant("post late" as const),
        by: fc.boolean(),
        back: fc.integer({ min: 1, max: 30 }),
      }),
    },
    {
      weight: 2,
      arbitrary: fc.record({
        do: fc.constant("correct" as const),
        by: fc.boolean(),
        back: fc.integer({ min: 1, max: 30 }),
      }),
    },
    {
      weight: 1,
      arbitrary: fc.record({
        do: fc.constant("undo" as const),
        by: fc.boolean(),
        back: fc.integer({ min: 1, max: 9 }),
      }),
    },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("settle some" as const), by: fc.boolean() }) },
    { weight: 1, arbitrary: fc.record({ do: fc.constant("look" as const), by: fc.boolean() }) },
  );
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 3, maxLength: 20 }), async (steps) => {
      const { here, there, key } = await plantOpenTwice();
      const intakes: number[] = [];
      let next = 90;
      for (const one of steps) {
        const database = one.by ? here : there;
        if (one.do === "post") {
          // Two in three pieces have all features, the others one alone; a piece is left out now and then.
          for (let k = 0; k < one.count; k++, next += next % 7 === 0 ? 2 : 1) {
            const features = next % 3 === 0 ? ["depth"] : FEATURES;
            const value = next % 13 === 0 ? 10.03 : valueAt(next);
            intakes.push((await post(database, key, next, { features, value })).intake);
          }
        } else if (one.do === "post late") {
          await post(database, key, next - one.back - 0.5);
        } else if (one.do === "correct") {
          await post(database, key, next - one.back, { value: 10.002, features: ["depth", "bore"] });
        } else if (one.do === "undo") {
          const id = intakes.at(-one.back);
          if (id !== undefined) await undoIntake(database, { id, actor: SOMEBODY });
        } else if (one.do === "settle some") {
          await write(database, (connection) => settleSome(connection, { rows: 1 }));
        } else {
          const shown = await boardOf(database);
          await write(database, settle);
          expect(await boardOf(database)).toEqual(shown);
        }
      }
      expect(await differingFeatures(there)).toEqual([]);
      expect(await differingFeatures(here)).toEqual([]);
    }),
    { numRuns: runs(8) },
  );
});
