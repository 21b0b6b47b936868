import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { changeMark, connectionOf, openDatabase, write } from "../../db/connection";
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

test("the mark of changes moves with every write of this connection and of another, and with nothing else", async () => {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-mark-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const here = await openDatabase(join(folder, "steadyrest.db"));
  const there = await openDatabase(join(folder, "steadyrest.db"));
  connectionOf(here).sqlite.exec("create table t (n integer)");
  const add = (database: typeof here) =>
    write(database, ({ sqlite }) => sqlite.prepare("insert into t values (1)").run());
  const read = () => connectionOf(here).sqlite.prepare("select count(*) from t").pluck().get();

  const marks = [changeMark(here)];
  read();
  marks.push(changeMark(here));
  await add(here);
  marks.push(changeMark(here));
  await add(there);
  marks.push(changeMark(here));
  expect(read()).toBe(2);
  marks.push(changeMark(here));
  await here.close();
  await there.close();

  const [first, afterReading, afterOwn, afterOther, atLast] = marks;
  expect(afterReading).toBe(first);
  expect(new Set([first, afterOwn, afterOther]).size).toBe(3);
  expect(atLast).toBe(afterOther);
});
