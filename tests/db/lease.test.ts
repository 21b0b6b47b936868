import { expect, test } from "vitest";
import { giveUpLease, holdLease } from "../../db/commands/lease";
import { emptyPlant } from "./plant";

test("one holder at a time; another takes over once the lease has run out or was given up", async () => {
  const database = await emptyPlant();
  const hold = (holder: string, now: number) =>
    holdLease(database, { name: "watched folder", holder, now, ms: 60 });
  expect(await hold("a", 0)).toBe(true);
  expect(await hold("b", 59)).toBe(false);
  expect(await hold("a", 59)).toBe(true);
  expect(await hold("b", 118)).toBe(false);
  expect(await hold("b", 119)).toBe(true);
  expect(await hold("a", 120)).toBe(false);
  await giveUpLease(database, { name: "watched folder", holder: "a" });
  expect(await hold("a", 121)).toBe(false);
  await giveUpLease(database, { name: "watched folder", holder: "b" });
  expect(await hold("a", 122)).toBe(true);
  expect(await holdLease(database, { name: "another", holder: "b", now: 122, ms: 60 })).toBe(true);
});
