import { expect, test } from "vitest";
import { connectionOf, write } from "../../db/connection";
import { emptyPlant } from "./plant";

test("changes asked for at the same moment are made one after the other, each whole or not at all", async () => {
  const database = await emptyPlant();
  connectionOf(database).sqlite.exec("create table t (n integer)");
  const results = await Promise.allSettled(
    [1, 2, 3, 4].map((n) =>
      write(database, ({ sqlite }) => {
        sqlite.prepare("insert into t values (?)").run(n);
        if (n === 2) throw new Error("not this one");
        return n;
      }),
    ),
  );
  expect(results.map((result) => (result.status === "fulfilled" ? result.value : "refused"))).toEqual([
    1,
    "refused",
    3,
    4,
  ]);
  expect(connectionOf(database).sqlite.prepare("select n from t order by n").pluck().all()).toEqual([
    1, 3, 4,
  ]);
});
