import { expect, onTestFinished, test } from "vitest";
import { connectionOf, type Database, write } from "../../../db/connection";
import { inTurn } from "../../../db/intake/posts-in-turn";
import { emptyPlant } from "../plant";

/** A database with a table of numbers, and how often a transaction on it was committed. */
async function numbers() {
  const database = await emptyPlant();
  const { sqlite } = connectionOf(database);
  sqlite.exec("create table t (n integer check (n <> 13))");
  const exec = sqlite.exec.bind(sqlite);
  const counted = { commits: 0 };
  sqlite.exec = (sql) => {
    if (sql === "COMMIT") counted.commits++;
    return exec(sql);
  };
  onTestFinished(() => {
    sqlite.exec = exec;
  });
  const stored = () => sqlite.prepare("select n from t order by rowid").pluck().all();
  return { database, counted, stored };
}

const add = (database: Database, n: number, takenAt = n) =>
  inTurn(database, {
    takenAt,
    store: ({ sqlite }, isAgain) => {
      sqlite.prepare("insert into t values (?)").run(n);
      return { n, isAgain };
    },
  });

test("what is posted at the same moment is stored at once, in the order in which it was measured", async () => {
  const { database, counted, stored } = await numbers();
  const answers = await Promise.all([5, 1, 4, 2, 3].map((n) => add(database, n)));
  expect(answers.map(({ n }) => n)).toEqual([5, 1, 4, 2, 3]);
  expect(stored()).toEqual([1, 2, 3, 4, 5]);
  expect(counted.commits).toBe(1);
  // Of one moment, in the order in which they came.
  await Promise.all([8, 7, 9].map((n) => add(database, n, 100)));
  expect(stored().slice(5)).toEqual([8, 7, 9]);
  expect(counted.commits).toBe(2);
});

test("one that cannot be stored is refused alone, and the others that waited with it are stored once", async () => {
  const { database, stored } = await numbers();
  const answers = await Promise.allSettled([14, 13, 12].map((n) => add(database, n)));
  expect(answers).toMatchObject([
    { status: "fulfilled", value: { n: 14, isAgain: true } },
    { status: "rejected", reason: { message: expect.stringContaining("CHECK constraint") } },
    { status: "fulfilled", value: { n: 12, isAgain: true } },
  ]);
  expect(stored()).toEqual([12, 14]);
  await expect(add(database, 13)).rejects.toThrow("CHECK constraint");
  await expect(add(database, 15)).resolves.toMatchObject({ n: 15, isAgain: false });
});

test("more than share a transaction go in several, and all are answered", async () => {
  const { database, counted, stored } = await numbers();
  const all = Array.from({ length: 70 }, (_, i) => 100 + i);
  await Promise.all(all.map((n) => add(database, n)));
  expect(stored()).toEqual(all);
  expect(counted.commits).toBe(3);
});

test("other changes of the same connection go in between, each whole", async () => {
  const { database, stored } = await numbers();
  const posts = [1, 2].map((n) => add(database, n));
  await write(database, ({ sqlite }) => sqlite.exec("insert into t values (50)"));
  await Promise.all(posts);
  expect(stored()).toEqual([50, 1, 2]);
});
