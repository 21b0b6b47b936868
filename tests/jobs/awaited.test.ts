import { expect, test } from "vitest";
import { awaitedAs, giveUp, shareOf } from "../../app/jobs/awaited";

const MINE = { name: "t-1", accountId: 1 };
const OTHERS = { name: "t-1", accountId: 2 };

test("work is seen and given up by its own person only, and gone once it is over", () => {
  let given = 0;
  const work = awaitedAs(MINE, () => void given++);
  expect(shareOf(MINE)).toEqual({ done: 0, total: 0 });
  work.goesOn({ done: 3, total: 20 });
  expect(shareOf(MINE)).toEqual({ done: 3, total: 20 });
  expect(shareOf(OTHERS)).toBeNull();
  expect(giveUp(OTHERS)).toBe(false);
  expect(given).toBe(0);
  expect(giveUp(MINE)).toBe(true);
  expect(given).toBe(1);
  work.end();
  expect(shareOf(MINE)).toBeNull();
  expect(giveUp(MINE)).toBe(false);
});

test("an end that comes late does not take away what has begun under the same name since", () => {
  const first = awaitedAs(MINE, () => undefined);
  const second = awaitedAs(MINE, () => undefined);
  first.end();
  expect(shareOf(MINE)).not.toBeNull();
  second.end();
});
