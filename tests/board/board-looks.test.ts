import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { boardLooks } from "../../app/board/board-looks";
import { BOARD_CALM_MS } from "../../app/board/board-news";
import type { Heard } from "../../app/news/line";
import type { News } from "../../db/queries/news";

/*
 * When an open board looks again. The bars are our own: an alarm is seen within a second, measurements within half a
 * minute.
 */

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const PIECE: News = { kind: "intake", intakeId: 1, featureIds: [1] };
const GOES_ON: News = { kind: "alarm", what: "goes on", alarmId: 1, featureId: 1 };
const RAISED: News = { kind: "alarm", what: "raised", alarmId: 2, featureId: 2 };

/** A board made after news 10, on a line that tells it what a test says; `readTo` is what the server's answers hold. */
function board({ kept = [] }: { kept?: readonly News[] } = {}) {
  let latest = 10;
  let tellIt: (heard: Heard) => void = () => undefined;
  let isOpen = true;
  const asked: number[] = [];
  const shown: number[] = [];
  const server = { readTo: (): number | null => latest };
  const item = (news: News): Heard => ({ gap: false, item: { id: ++latest, at: Date.now(), ...news } });
  const stop = boardLooks({
    line: {
      begin: () => undefined,
      listen(_after, hear) {
        tellIt = hear;
        for (const news of kept) hear(item(news));
        return () => {
          tellIt = () => undefined;
        };
      },
      state: () => ({ is: isOpen ? "open" : "gone", since: 0 }),
      latest: () => latest,
    },
    since: 10,
    async ask(after) {
      asked.push(after);
      const since = server.readTo();
      return since === null ? null : { since };
    },
    show: ({ since }) => shown.push(since),
    random: () => 0.5,
  });
  return {
    asked,
    shown,
    server,
    stop,
    hears: (news: News) => tellIt(item(news)),
    misses() {
      latest += 600;
      tellIt({ gap: true });
    },
    open(now: boolean) {
      isOpen = now;
    },
  };
}

const passes = (ms: number) => vi.advanceTimersByTimeAsync(ms);

test("an alarm is shown within a second, with everything up to it, however many measurements came before", async () => {
  const { asked, shown, hears } = board();
  for (let i = 0; i < 30; i++) {
    hears(PIECE);
    hears(GOES_ON);
    await passes(200);
  }
  expect(asked).toEqual([]);
  hears(RAISED);
  await passes(1_000);
  expect(asked).toEqual([71]);
  expect(shown).toEqual([71]);
});

test("measurements are shown within half a minute and no oftener than the calm time allows", async () => {
  const { asked, hears } = board();
  const looks: number[] = [];
  for (let second = 1; second <= 120; second++) {
    hears(PIECE);
    hears(GOES_ON);
    await passes(1_000);
    if (asked.length > looks.length) looks.push(second);
  }
  const between = looks.map((second, i) => second - (looks[i - 1] ?? 0));
  for (const seconds of between) {
    expect(seconds).toBeGreaterThanOrEqual(BOARD_CALM_MS / 1000);
    expect(seconds).toBeLessThanOrEqual(30);
  }
  expect(looks.length).toBeGreaterThanOrEqual(4);
});

test("a look for measurements is content with whatever is newer than what is shown", async () => {
  const { asked, hears } = board();
  for (let i = 0; i < 5; i++) hears(PIECE);
  await passes(30_000);
  expect(asked).toEqual([11]);
});

test("what an answer does not hold yet is looked for again, until it is shown; then there is quiet", async () => {
  const { asked, shown, hears, server } = board();
  hears(PIECE);
  hears(PIECE);
  server.readTo = () => 11;
  await passes(30_000);
  expect(shown).toEqual([11]);
  server.readTo = () => 12;
  await passes(30_000);
  expect(shown).toEqual([11, 12]);
  await passes(300_000);
  expect(asked).toEqual([11, 12]);
});

test("an answer that was not to be had is asked for again", async () => {
  const { asked, shown, hears, server } = board();
  server.readTo = () => null;
  hears(RAISED);
  await passes(1_000);
  expect([asked, shown]).toEqual([[11], []]);
  server.readTo = () => 11;
  await passes(30_000);
  expect([asked, shown]).toEqual([[11, 11], [11]]);
});

test("a board that a browser has kept while others were looked at shows soon what it missed", async () => {
  const { shown } = board({ kept: [PIECE, PIECE] });
  await passes(1_000);
  expect(shown).toEqual([12]);
});

test("more than can be told is looked for soon, and with the server away once it is back", async () => {
  const { asked, shown, misses, open } = board();
  open(false);
  misses();
  await passes(60_000);
  expect(asked).toEqual([]);
  open(true);
  await passes(1_000);
  expect([asked, shown]).toEqual([[610], [610]]);
});

test("a board that is left looks no more", async () => {
  const { asked, hears, stop } = board();
  hears(RAISED);
  stop();
  await passes(60_000);
  expect(asked).toEqual([]);
});
