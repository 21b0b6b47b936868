import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { freezeLimits } from "../../../db/commands/limits";
import { differingFeatures, rebuild } from "../../../db/commands/rebuild";
import { undoIntake } from "../../../db/commands/undo-intake";
import { connectionOf, type Database, openDatabase, write } from "../../../db/connection";
import { waitingFeatures } from "../../../db/measurements/arrivals";
import { settle } from "../../../db/measurements/settle";
import { shiftBoard } from "../../../db/queries/board";
import { listFeatures } from "../../../db/queries/features";
import { featureHistory } from "../../../db/queries/history";
import { SOMEBODY } from "../plant";
import { FEATURES, MINUTE, plantOpenTwice, post, postMany, START } from "./posting";

/*
 * What posted pieces keep of the plant in memory must hold however the database changed meanwhile, and whoever reads a
 * state that is behind must see the present one. What is right is said by `differingFeatures`, which judges every stored
 * measurement anew.
 */

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

test("a state that cannot be gone on from is found by a look at all, and rebuilt", async () => {
  const { here, there, key } = await plantOpenTwice();
  await postMany(here, key, 90, 94);
  expect(statesBehind(here)).toBe(3);
  connectionOf(there).sqlite.exec("update feature_standing set recent = '[]' where feature_id = 2");
  await expect(post(here, key, 94)).rejects.toThrow("The verb rebuild computes it anew");
  await expect(shiftBoard(here)).rejects.toThrow("The verb rebuild computes it anew");
  expect(await differingFeatures(there)).toEqual(["depth"]);
  expect(await rebuild(there)).toMatchObject({ differing: 1 });
  await post(here, key, 94);
  expect(await differingFeatures(here)).toEqual([]);
  expect(await readingsOf(here)).toEqual([95, 95, 95]);
});
