import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { onceOf, SHARED_FOR_MS, sharedReads } from "../../app/board/shared-reads";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** Readings are counted, and each says how many there were. */
function counted() {
  let count = 0;
  return { readAfter: sharedReads<number, string>(async () => ++count), count: () => count };
}

test("fifty boards that hear of the same alarm are read once, also those that ask while it is read", async () => {
  const { readAfter, count } = counted();
  const boards = Array.from({ length: 50 }, () => readAfter({ after: 7, latest: 7 }));
  expect(new Set(boards.map(({ made }) => made)).size).toBe(1);
  expect(await Promise.all(boards.map(({ read }) => read))).toEqual(Array(50).fill(1));
  expect(count()).toBe(1);
});

test("who knows of more than what is shared holds is given a reading that holds it, at once", async () => {
  const { readAfter } = counted();
  await readAfter({ after: 7, latest: 7 }).read;
  expect(await readAfter({ after: 8, latest: 9 }).read).toBe(2);
  // Which held everything up to 9.
  expect(await readAfter({ after: 9, latest: 12 }).read).toBe(2);
});

test("nobody is given one that is older than some seconds, whatever it holds", async () => {
  const { readAfter } = counted();
  await readAfter({ after: 7, latest: 7 }).read;
  await vi.advanceTimersByTimeAsync(SHARED_FOR_MS - 1);
  expect(await readAfter({ after: 7, latest: 7 }).read).toBe(1);
  await vi.advanceTimersByTimeAsync(1);
  expect(await readAfter({ after: 7, latest: 7 }).read).toBe(2);
});

test("news that nobody has told yet are not waited for", async () => {
  const { readAfter } = counted();
  await readAfter({ after: 7, latest: 7 }).read;
  expect(await readAfter({ after: 1_000_000, latest: 7 }).read).toBe(1);
});

test("a reading that failed is told to those who wait for it, and the next who ask are given another", async () => {
  let isBroken = true;
  const readAfter = sharedReads<string, string>(async () => {
    if (isBroken) throw new Error("the disk is away");
    return "read";
  });
  const [first, second] = [readAfter({ after: 1, latest: 1 }), readAfter({ after: 1, latest: 1 })];
  await expect(first.read).rejects.toThrow("the disk is away");
  await expect(second.read).rejects.toThrow("the disk is away");
  isBroken = false;
  expect(await readAfter({ after: 1, latest: 1 }).read).toBe("read");
});

test("of a reading each address is made once, and one that failed again", async () => {
  const made = new Map<string, Promise<string>>();
  const make = vi.fn(async () => "view");
  expect(await onceOf(made, "en /", make)).toBe("view");
  expect(await onceOf(made, "en /", make)).toBe("view");
  expect(make).toHaveBeenCalledTimes(1);
  await expect(onceOf(made, "de /", () => Promise.reject(new Error("no words")))).rejects.toThrow("no words");
  expect(await onceOf(made, "de /", make)).toBe("view");
});
