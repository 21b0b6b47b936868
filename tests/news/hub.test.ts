import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { newsHub, type Reader } from "../../app/news/hub";
import { pruneNews, tell } from "../../db/commands/news";
import { type Database, write } from "../../db/connection";
import { emptyPlant } from "../db/plant";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const POLLED = 150;
const BEATEN = 15_500;

function say(database: Database, featureId: number): Promise<void> {
  return write(database, (connection) => tell(connection, { kind: "feature", featureId }));
}

/** A posted piece, and a further signal of an alarm that is known. */
function measure(database: Database, intakeId: number): Promise<void> {
  return write(database, (connection) => {
    tell(connection, { kind: "intake", intakeId, featureIds: [1] });
    tell(connection, { kind: "alarm", what: "goes on", alarmId: 1, featureId: 1 });
  });
}

/** A reader that notes what it was given: ids of news, and the names of other events. */
function reader({
  keepsUp = () => true,
  mayStay = () => true,
}: {
  keepsUp?: () => boolean;
  mayStay?: () => boolean;
} = {}) {
  const noted: (number | string)[] = [];
  let ended = false;
  let times = 0;
  const made: Reader = {
    write(text) {
      times++;
      for (const event of text.split("\n\n")) {
        const name = /^event: (.*)$/m.exec(event)?.[1];
        const id = /^id: (\d+)$/m.exec(event)?.[1];
        if (name) noted.push(name);
        else if (id) noted.push(Number(id));
      }
      return keepsUp();
    },
    mayStay: async () => mayStay(),
    end() {
      ended = true;
    },
  };
  return { made, noted, hasEnded: () => ended, times: () => times };
}

test("a page hears what comes after it was made, once and in order, whoever wrote it", async () => {
  const database = await emptyPlant();
  await say(database, 1);
  await say(database, 2);
  const hub = newsHub(database);
  const [early, late] = [reader(), reader()];
  await hub.join(early.made, 1);
  expect(early.noted).toEqual(["here", 2]);
  await say(database, 3);
  // Joins between two looks at the table: it has the third before the others, and not twice.
  await hub.join(late.made, 0);
  expect(late.noted).toEqual(["here", 1, 2, 3]);
  await vi.advanceTimersByTimeAsync(POLLED);
  await say(database, 4);
  await vi.advanceTimersByTimeAsync(POLLED);
  expect(early.noted).toEqual(["here", 2, 3, 4]);
  expect(late.noted).toEqual(["here", 1, 2, 3, 4]);
  hub.close();
});

test("law: streams that come and go at any moment, each with its last id, hear every news once", async () => {
  const database = await emptyPlant();
  const hub = newsHub(database);
  const heard: (number | string)[][] = [[], [], []];
  const leaving: ((() => void) | null)[] = [null, null, null];
  for (let step = 1; step <= 120; step++) {
    const who = step % 3;
    const leave = leaving[who];
    if (leave) {
      leave();
      leaving[who] = null;
    } else {
      const { made, noted } = reader();
      const ids = (heard[who] ?? []).filter((id) => typeof id === "number");
      heard[who] = ids;
      const joining = hub.join(made, Number(ids.at(-1) ?? 0), { together: step % 2 === 0 });
      await say(database, step);
      leaving[who] = await joining;
      // The reader goes on noting into its own list; it is taken over when it leaves.
      const end = leaving[who];
      leaving[who] = () => {
        end();
        ids.push(...noted.filter((id) => typeof id === "number"));
      };
    }
    if (step % 4 === 0) await vi.advanceTimersByTimeAsync(POLLED);
    if (step % 5 === 0) for (let n = 0; n < 3; n++) await say(database, step);
  }
  await vi.advanceTimersByTimeAsync(POLLED);
  for (const leave of leaving) leave?.();
  for (const ids of heard) expect(ids).toEqual(ids.map((_, i) => i + 1));
  expect(Math.max(...heard.map((ids) => ids.length))).toBeGreaterThan(60);
  hub.close();
});

test("measurements that come many times a second are told together, and an alarm at once with those before it", async () => {
  const database = await emptyPlant();
  const hub = newsHub(database);
  const { made, noted, times } = reader();
  await hub.join(made, 0, { together: true });
  const program = reader();
  await hub.join(program.made, 0);
  for (let piece = 1; piece <= 20; piece++) {
    await measure(database, piece);
    await vi.advanceTimersByTimeAsync(100);
    // Who has not asked for it waits for nothing.
    expect(program.noted.at(-1)).toBe(2 * piece);
  }
  await vi.advanceTimersByTimeAsync(2000);
  const everything = Array.from({ length: 40 }, (_, i) => i + 1);
  expect(noted).toEqual(["here", ...everything]);
  // The greeting, the first piece at once, and two seconds of pieces in two or three.
  expect(times()).toBeGreaterThanOrEqual(4);
  expect(times()).toBeLessThanOrEqual(5);

  await measure(database, 21);
  await vi.advanceTimersByTimeAsync(POLLED);
  await measure(database, 22);
  await vi.advanceTimersByTimeAsync(POLLED);
  expect(noted.at(-1)).toBe(42);
  await write(database, (connection) =>
    tell(connection, { kind: "alarm", what: "raised", alarmId: 2, featureId: 1 }),
  );
  await vi.advanceTimersByTimeAsync(40);
  expect(noted.slice(-5)).toEqual([41, 42, 43, 44, 45]);
  hub.close();
});

test("who comes while measurements gather has them already, and nobody hears them twice", async () => {
  const database = await emptyPlant();
  const hub = newsHub(database);
  const [early, late] = [reader(), reader()];
  await hub.join(early.made, 0, { together: true });
  for (let piece = 1; piece <= 2; piece++) {
    await measure(database, piece);
    await vi.advanceTimersByTimeAsync(POLLED);
  }
  await hub.join(late.made, 0, { together: true });
  expect([early.noted, late.noted]).toEqual([
    ["here", 1, 2],
    ["here", 1, 2, 3, 4],
  ]);
  await vi.advanceTimersByTimeAsync(1100);
  expect([early.noted, late.noted]).toEqual([
    ["here", 1, 2, 3, 4],
    ["here", 1, 2, 3, 4],
  ]);
  hub.close();
});

test("a page from before what is still kept is told that there is a gap, and goes on from the latest", async () => {
  const database = await emptyPlant();
  for (let n = 1; n <= 3; n++) await say(database, n);
  await pruneNews(database, { now: Date.now() + 8 * 24 * 3_600_000 });
  const hub = newsHub(database);
  const { made, noted } = reader();
  await hub.join(made, 1);
  await say(database, 4);
  await vi.advanceTimersByTimeAsync(POLLED);
  expect(noted).toEqual(["here", "gap", 4]);
  hub.close();
});

test("who cannot keep up is let go and the others hear on", async () => {
  const database = await emptyPlant();
  const hub = newsHub(database);
  let keepsUp = true;
  const [slow, quick] = [reader({ keepsUp: () => keepsUp }), reader()];
  await hub.join(slow.made, 0);
  await hub.join(quick.made, 0);
  keepsUp = false;
  await say(database, 1);
  await vi.advanceTimersByTimeAsync(POLLED);
  await say(database, 2);
  await vi.advanceTimersByTimeAsync(POLLED);
  expect(slow.hasEnded()).toBe(true);
  expect(hub.size).toBe(1);
  expect(quick.noted).toEqual(["here", 1, 2]);
  hub.close();
});

test("a beat every 15 seconds; who may no longer hear it is told and let go", async () => {
  const database = await emptyPlant();
  const hub = newsHub(database);
  let mayStay = true;
  const { made, noted, hasEnded } = reader({ mayStay: () => mayStay });
  await hub.join(made, null);
  await vi.advanceTimersByTimeAsync(BEATEN);
  expect(noted).toEqual(["here", "beat"]);
  mayStay = false;
  await vi.advanceTimersByTimeAsync(BEATEN);
  expect(noted).toEqual(["here", "beat", "signed-out"]);
  expect(hasEnded()).toBe(true);
  expect(hub.size).toBe(0);
});

test("closing ends every stream, and a later one at once", async () => {
  const database = await emptyPlant();
  const hub = newsHub(database);
  const [before, after] = [reader(), reader()];
  await hub.join(before.made, 0);
  hub.close();
  await hub.join(after.made, 0);
  expect([before.hasEnded(), after.hasEnded(), hub.size]).toEqual([true, true, 0]);
});
