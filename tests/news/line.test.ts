import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { concerns, isCalm } from "../../app/news/concerns";
import { type Heard, newsLine } from "../../app/news/line";
import { refreshSchedule } from "../../app/news/refresh-schedule";

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

/** Streams as a browser opens them, told what to say by the test. */
function browser({ status = 200 } = {}) {
  const opened: { url: string; closed: boolean; say(name: string, data?: string, id?: string): void }[] = [];
  const surroundings = {
    address: "/api/news",
    open(url: string) {
      const target = new EventTarget();
      const stream = {
        url,
        closed: false,
        say(name: string, data = "", id = "") {
          target.dispatchEvent(Object.assign(new Event(name), { data, lastEventId: id }));
        },
      };
      opened.push(stream);
      return {
        addEventListener: target.addEventListener.bind(target),
        close() {
          stream.closed = true;
        },
      };
    },
    statusOf: async () => status,
    now: () => Date.now(),
  };
  const latest = () => opened.at(-1) as (typeof opened)[number];
  const news = (id: number) =>
    latest().say("message", JSON.stringify({ id, at: 0, kind: "feature", featureId: id }), String(id));
  return { surroundings, opened, latest, news };
}

function idsOf(heard: readonly Heard[]): (number | "gap")[] {
  return heard.map((each) => (each.gap ? "gap" : each.item.id));
}

test("a part of a page that comes late hears what came after it was made, and nothing twice", () => {
  const { surroundings, latest, news } = browser();
  const line = newsLine(surroundings);
  line.begin(10);
  expect(latest().url).toBe("/api/news?after=10&together=1");
  latest().say("here");
  news(11);
  news(12);
  news(12);
  const heard: Heard[] = [];
  line.listen(11, (each) => heard.push(each));
  news(13);
  expect(idsOf(heard)).toEqual([12, 13]);
});

test("a broken stream is taken up after the last news heard, and says since when it was gone", async () => {
  const { surroundings, opened, latest, news } = browser();
  const line = newsLine(surroundings);
  line.begin(0);
  latest().say("here");
  news(1);
  const brokenAt = Date.now();
  latest().say("error");
  expect(line.state()).toEqual({ is: "gone", since: brokenAt });
  await vi.advanceTimersByTimeAsync(1100);
  expect(opened).toHaveLength(2);
  expect(latest().url).toBe("/api/news?after=1&together=1");
  // Only an answer ends the silence; a second failure keeps the moment of the first.
  latest().say("error");
  await vi.advanceTimersByTimeAsync(2100);
  expect(line.state()).toEqual({ is: "gone", since: brokenAt });
  latest().say("here");
  expect(line.state().is).toBe("open");
});

test("a line on which nothing is heard for 40 seconds counts as broken", async () => {
  const { surroundings, opened, latest } = browser();
  const line = newsLine(surroundings);
  line.begin(0);
  latest().say("here");
  await vi.advanceTimersByTimeAsync(30_000);
  latest().say("beat");
  await vi.advanceTimersByTimeAsync(30_000);
  expect(line.state().is).toBe("open");
  await vi.advanceTimersByTimeAsync(11_500);
  expect(opened[0]?.closed).toBe(true);
  expect(opened).toHaveLength(2);
});

test("a stream refused for want of a sign-in is not tried for ever", async () => {
  const { surroundings, opened, latest } = browser({ status: 401 });
  const line = newsLine(surroundings);
  line.begin(0);
  for (let failure = 0; failure < 3; failure++) {
    latest().say("error");
    await vi.advanceTimersByTimeAsync(20_000);
  }
  expect(line.state().is).toBe("signed-out");
  expect(opened.every(({ closed }) => closed)).toBe(true);
});

test("a gap makes every part look for itself, those that come later too", () => {
  const { surroundings, latest, news } = browser();
  const line = newsLine(surroundings);
  line.begin(5);
  latest().say("here");
  const [heard, later]: Heard[][] = [[], []];
  line.listen(5, (each) => heard?.push(each));
  latest().say("gap", "", "90");
  news(91);
  line.listen(5, (each) => later?.push(each));
  line.listen(90, (each) => later?.push(each));
  expect(idsOf(heard ?? [])).toEqual(["gap", 91]);
  expect(idsOf(later ?? [])).toEqual(["gap", 91]);
});

test("a tab that nobody looks at sleeps after a minute, and wakes where it was; a sound keeps it awake", async () => {
  const { surroundings, opened, latest, news } = browser();
  const line = newsLine(surroundings);
  line.begin(0);
  latest().say("here");
  news(4);
  const rest = line.stayAwake();
  line.seen(false);
  await vi.advanceTimersByTimeAsync(30_000);
  latest().say("beat");
  await vi.advanceTimersByTimeAsync(31_000);
  expect(line.state().is).toBe("open");
  rest();
  line.seen(false);
  latest().say("beat");
  await vi.advanceTimersByTimeAsync(30_000);
  latest().say("beat");
  await vi.advanceTimersByTimeAsync(31_000);
  expect(line.state().is).toBe("asleep");
  expect(latest().closed).toBe(true);
  line.seen(true);
  expect(opened).toHaveLength(2);
  expect(latest().url).toBe("/api/news?after=4&together=1");
});

test("a page looks soon after an alarm, now and then for measurements, never twice at a time", async () => {
  const looks: number[] = [];
  const begun = Date.now();
  let online = true;
  const schedule = refreshSchedule({
    calmMs: 20_000,
    look: () => looks.push(Date.now() - begun),
    mayLook: () => online,
    random: () => 0,
  });
  schedule.want(true);
  await vi.advanceTimersByTimeAsync(1000);
  for (let n = 0; n < 5; n++) schedule.want(false); // together, at 1.0 s
  await vi.advanceTimersByTimeAsync(400);
  expect(looks).toEqual([1300]);
  schedule.want(false); // while the first is under way
  await vi.advanceTimersByTimeAsync(5000);
  expect(looks).toEqual([1300]);
  schedule.done();
  await vi.advanceTimersByTimeAsync(10);
  expect(looks).toEqual([1300, 6400]);
  schedule.done();
  online = false;
  schedule.want(true);
  await vi.advanceTimersByTimeAsync(30_000);
  expect(looks).toHaveLength(2);
  online = true;
  await vi.advanceTimersByTimeAsync(600);
  expect(looks).toHaveLength(3);
  schedule.stop();
});

test("pages that hear of an alarm in one moment look within half a second of each other, and go apart again", async () => {
  const begun = Date.now();
  const looks: number[][] = [];
  for (const share of [0, 1]) {
    const looked: number[] = [];
    looks.push(looked);
    const schedule = refreshSchedule({
      calmMs: 20_000,
      look: () => {
        looked.push(Date.now() - begun);
        schedule.done();
        schedule.want(true);
      },
      mayLook: () => looked.length < 2,
      random: () => share,
    });
    schedule.want(false);
  }
  await vi.advanceTimersByTimeAsync(30_000);
  expect(looks).toEqual([
    [300, 20_300],
    [800, 25_800],
  ]);
});

test("a page of one feature follows its own news, and measurements of so many features that none is named", () => {
  const kinds = ["alarm", "intake", "feature"];
  const one = { kinds, featureId: 7 };
  expect(concerns({ kind: "alarm", what: "raised", alarmId: 1, featureId: 7 }, one)).toBe(true);
  expect(concerns({ kind: "alarm", what: "raised", alarmId: 1, featureId: 8 }, one)).toBe(false);
  expect(concerns({ kind: "intake", intakeId: 1, featureIds: [6, 7] }, one)).toBe(true);
  expect(concerns({ kind: "intake", intakeId: 1, featureIds: [6] }, one)).toBe(false);
  expect(concerns({ kind: "intake", intakeId: 1, featureIds: null }, one)).toBe(true);
  expect(concerns({ kind: "drift", partId: 1 }, one)).toBe(false);
  expect(concerns({ kind: "alarm", what: "changed", alarmId: 1, featureId: 8 }, { kinds })).toBe(true);
});

test("measurements, scans and an alarm that merely goes on can wait, an alarm that is another cannot", () => {
  const alarm = { kind: "alarm", alarmId: 1, featureId: 7 } as const;
  const board = ["alarm", "intake", "feature", "drift"];
  expect(isCalm({ kind: "intake", intakeId: 1, featureIds: [7] }, board)).toBe(true);
  expect(isCalm({ ...alarm, what: "goes on" }, board)).toBe(true);
  expect(isCalm({ ...alarm, what: "raised" }, board)).toBe(false);
  expect(isCalm({ ...alarm, what: "changed" }, board)).toBe(false);
  expect(isCalm({ kind: "feature", featureId: 7 }, board)).toBe(false);
  expect(isCalm({ kind: "drift", partId: null }, board)).toBe(true);
  // The page of the scan itself waits for nothing else.
  expect(isCalm({ kind: "drift", partId: null }, ["drift", "intake"])).toBe(false);
});
