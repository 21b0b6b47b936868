import { expect, test } from "vitest";
import { freezeLimits } from "../../db/commands/limits";
import { pruneNews, tell } from "../../db/commands/news";
import { undoIntake } from "../../db/commands/undo-intake";
import { type Database, write } from "../../db/connection";
import { latestNewsId, newsAfter, reachesBackTo } from "../../db/queries/news";
import { bringIn, emptyPlant, SOMEBODY, tidyFile } from "./plant";

const MINUTE = 60_000;
const A_DAY = 24 * 60 * MINUTE;

/** A steady bore of 125 single readings about 10, and one far outside as the last of them. */
function steadyThenOut(): string {
  const start = SOMEBODY.at - 200 * MINUTE;
  const rows = Array.from({ length: 125 }, (_, i) => ({
    takenAt: start + i * MINUTE,
    value: 10 + 0.001 * ((i * 7) % 11) - 0.005,
  }));
  return tidyFile([...rows, { takenAt: start + 130 * MINUTE, value: 10.08 }]);
}

async function all(database: Database) {
  return newsAfter(database, { after: 0, limit: 1000 });
}

test("an intake tells of itself and of the alarm it raised, the alarm first", async () => {
  const database = await emptyPlant();
  const { id, alarms } = await bringIn(database, steadyThenOut(), { subgroupSize: 1 });
  expect(alarms).toBe(1);
  expect(await all(database)).toMatchObject([
    { id: 1, kind: "alarm", what: "raised", featureId: 1, alarmId: 1 },
    { id: 2, kind: "intake", intakeId: id, featureIds: [1] },
  ]);
});

test("frozen limits and an undone intake are news, and so is the alarm that lost its evidence", async () => {
  const database = await emptyPlant();
  const { id } = await bringIn(database, steadyThenOut(), { subgroupSize: 1 });
  const before = await latestNewsId(database);
  const frozen = await freezeLimits(database, {
    featureId: 1,
    baselineFrom: 0,
    baselineTo: SOMEBODY.at - 80 * MINUTE,
    effectiveFrom: null,
    reason: "first baseline",
    actor: SOMEBODY,
  });
  expect(frozen.ok).toBe(true);
  await undoIntake(database, { id, actor: SOMEBODY });
  const told = await newsAfter(database, { after: before, limit: 100 });
  expect(told.map(({ kind }) => kind)).toEqual(["feature", "alarm", "intake"]);
});

test("what is taken back was never news", async () => {
  const database = await emptyPlant();
  await expect(
    write(database, (connection) => {
      tell(connection, { kind: "feature", featureId: 7 });
      throw new Error("the disk is full");
    }),
  ).rejects.toThrow("the disk is full");
  expect(await all(database)).toEqual([]);
  expect(await latestNewsId(database)).toBe(0);
});

test("an id is never given twice, also when everything was pruned, and a gap is seen", async () => {
  const database = await emptyPlant();
  const say = () => write(database, (connection) => tell(connection, { kind: "feature", featureId: 7 }));
  expect(await reachesBackTo(database, 0)).toBe(true);
  for (let n = 0; n < 3; n++) await say();
  expect(await pruneNews(database, { now: Date.now() })).toBe(0);
  expect(await reachesBackTo(database, 0)).toBe(true);

  expect(await pruneNews(database, { now: Date.now() + 8 * A_DAY })).toBe(3);
  expect(await latestNewsId(database)).toBe(3);
  expect(await reachesBackTo(database, 2)).toBe(false);
  expect(await reachesBackTo(database, 3)).toBe(true);
  await say();
  expect(await all(database)).toMatchObject([{ id: 4 }]);
  expect(await reachesBackTo(database, 3)).toBe(true);
  // An id from another database, as after a restored backup.
  expect(await reachesBackTo(database, 99)).toBe(false);
});

test("more features than can be named are left to the page to look up", async () => {
  const database = await emptyPlant();
  const many = Array.from({ length: 201 }, (_, i) => i + 1);
  await write(database, (connection) => {
    tell(connection, { kind: "intake", intakeId: 1, featureIds: many.slice(0, 200) });
    tell(connection, { kind: "intake", intakeId: 2, featureIds: many });
  });
  const told = await all(database);
  expect(told.map((item) => item.kind === "intake" && item.featureIds?.length)).toEqual([200, undefined]);
});
