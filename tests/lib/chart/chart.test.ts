import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { bracketsOf } from "../../../lib/chart/brackets";
import { decimate } from "../../../lib/chart/decimate";
import { limitRuns, phasesOf } from "../../../lib/chart/limit-runs";
import { eventsFrom, MIXED, placeOfEvent, ribbonRuns, sourceOfSubgroup } from "../../../lib/chart/ribbons";
import { linearScale, niceTicks, spanOf, wholeTicks } from "../../../lib/chart/scale";
import { InvalidInput } from "../../../lib/checks";
import { joinSignals, type Pattern } from "../../../lib/evaluation/patterns";
import type { Signal } from "../../../lib/evaluation/progress";
import type { LimitsVersion } from "../../../lib/plan/feature-plan";

describe("ticks", () => {
  test("by hand: 9.98 to 10.02 in at most five steps of 0.01", () => {
    expect(niceTicks({ low: 9.98, high: 10.02 }, 5)).toEqual({
      values: [9.98, 9.99, 10, 10.01, 10.02],
      step: 0.01,
      places: 2,
    });
  });

  test("by hand: negative, across zero, thousands, a ten of the power below", () => {
    expect(niceTicks({ low: -0.3, high: 0.31 }, 4).values).toEqual([-0.2, 0, 0.2]);
    expect(niceTicks({ low: 1200, high: 9800 }, 5).values).toEqual([2000, 4000, 6000, 8000]);
    expect(niceTicks({ low: 0, high: 0.95 }, 1).places).toBeGreaterThanOrEqual(0);
    expect(niceTicks({ low: 5, high: 5 }, 3).values).toEqual([5]);
  });

  test("law: at most the count, inside the span, evenly apart, exact in their decimals", () => {
    const span = fc.record({
      low: fc.double({ min: -1e4, max: 1e4, noNaN: true }),
      width: fc.double({ min: 1e-5, max: 1e4, noNaN: true }),
      count: fc.integer({ min: 1, max: 12 }),
    });
    fc.assert(
      fc.property(span, ({ low, width, count }) => {
        const { values, step, places } = niceTicks({ low, high: low + width }, count);
        expect(values.length).toBeLessThanOrEqual(count);
        for (const [i, value] of values.entries()) {
          expect(value).toBeGreaterThanOrEqual(low - 1e-8 * step);
          expect(value).toBeLessThanOrEqual(low + width + 1e-8 * step);
          expect(Number(value.toFixed(Math.min(places, 20)))).toBe(value);
          if (i > 0) expect(value - values[i - 1]!).toBeCloseTo(step, 8);
        }
      }),
    );
  });

  test("whole numbers only, also where the span is short", () => {
    expect(wholeTicks({ low: 0.5, high: 3.5 }, 8)).toEqual([1, 2, 3]);
    expect(wholeTicks({ low: 1, high: 500 }, 6)).toEqual([100, 200, 300, 400, 500]);
  });

  test("a broken span is refused", () => {
    expect(() => niceTicks({ low: 2, high: 1 }, 3)).toThrow(InvalidInput);
    expect(() => niceTicks({ low: Number.NaN, high: 1 }, 3)).toThrow(/low/);
  });
});

describe("scale and span", () => {
  test("by hand, upside down as screens are", () => {
    const y = linearScale({ low: 0, high: 10 }, { start: 200, end: 0 });
    expect([y(0), y(5), y(10)]).toEqual([200, 100, 0]);
  });

  test("without width everything lies in the middle", () => {
    expect(linearScale({ low: 3, high: 3 }, { start: 0, end: 80 })(3)).toBe(40);
  });

  test("span: all alike, nothing, gaps", () => {
    expect(spanOf([5, 5], { margin: 0.1 })).toEqual({ low: 4.995, high: 5.005 });
    expect(spanOf([], { margin: 0.1 })).toEqual({ low: 0, high: 1 });
    expect(spanOf([0, 0], { margin: 0 })).toEqual({ low: -1, high: 1 });
    expect(spanOf([1, Number.NaN, 3], { margin: 0.5 })).toEqual({ low: 0, high: 4 });
  });
});

describe("decimation", () => {
  test("a short history is drawn whole", () => {
    expect([...decimate({ values: [3, 1, 2], mustKeep: () => false, most: 8 })]).toEqual([0, 1, 2]);
  });

  test("law: ends, extremes and every kept point are drawn, at most as many as allowed", () => {
    const history = fc.record({
      values: fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 100, maxLength: 400 }),
      keepEvery: fc.integer({ min: 15, max: 120 }),
    });
    fc.assert(
      fc.property(history, ({ values, keepEvery }) => {
        const mustKeep = (i: number) => i % keepEvery === 7;
        const drawn = decimate({ values, mustKeep, most: 80 });
        const set = new Set(drawn);
        expect(drawn.length).toBeLessThanOrEqual(80);
        expect(set.has(0) && set.has(values.length - 1)).toBe(true);
        for (let i = 0; i < values.length; i++) if (mustKeep(i)) expect(set.has(i)).toBe(true);
        const shown = Array.from(drawn, (i) => values[i]!);
        expect(Math.max(...shown)).toBe(Math.max(...values));
        expect(Math.min(...shown)).toBe(Math.min(...values));
        expect([...drawn]).toEqual([...set].sort((a, b) => a - b));
      }),
    );
  });

  test("when more must be kept than may be drawn, none of them is lost", () => {
    const drawn = decimate({ values: Array(1000).fill(1), mustKeep: (i) => i % 2 === 0, most: 100 });
    expect(drawn.filter((i) => i % 2 === 0)).toHaveLength(500);
  });
});

const version = (number: number, sigma = 2): LimitsVersion => ({
  version: number,
  effectiveFrom: 0,
  chart: "xbar-r",
  centre: 10,
  sigma,
  estimator: "mean-range",
});

describe("limits as steps", () => {
  test("by hand: a new size and a new version each begin a step, a point without limits leaves a gap", () => {
    const points = { limits: [0, 0, 0, 1, -1, 1], size: [4, 4, 9, 9, 9, 9] };
    const runs = limitRuns(points, { versions: [version(1), version(2, 6)], window: { from: 0, to: 5 } });
    expect(runs.map(({ from, to, version: v }) => [from, to, v])).toEqual([
      [0, 1, 0],
      [2, 2, 0],
      [3, 3, 1],
      [5, 5, 1],
    ]);
    // 10 ± 3·2/√4, 10 ± 3·2/√9, 10 ± 3·6/√9.
    expect(runs.map(({ location }) => location.upper)).toEqual([13, 12, 16, 16]);
    expect(phasesOf(points, { from: 0, to: 5 })).toEqual([
      { from: 0, to: 2, version: 0 },
      { from: 3, to: 3, version: 1 },
      { from: 5, to: 5, version: 1 },
    ]);
  });

  test("no variation draws no limits", () => {
    const points = { limits: [0], size: [4] };
    expect(limitRuns(points, { versions: [version(1, 0)], window: { from: 0, to: 0 } })).toEqual([]);
  });
});

const signal = (rule: string, members: number[], rest: Partial<Signal> = {}): Signal => ({
  chart: "location",
  rule,
  at: members.at(-1)!,
  atTime: 1000 * members.at(-1)!,
  members,
  direction: "up",
  ...rest,
});
const run = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, i) => from + i);

describe("patterns", () => {
  test("firings of one run are one pattern; single points, other sides and other charts stay apart", () => {
    const patterns = joinSignals([
      signal("eight-one-side", run(1, 8)),
      signal("eight-one-side", run(2, 9)),
      signal("beyond-3s", [9]),
      signal("beyond-3s", [10]),
      signal("eight-one-side", run(3, 10), { chart: "spread" }),
      signal("eight-one-side", run(11, 18), { direction: "down" }),
      signal("eight-one-side", run(20, 27)),
    ]);
    expect(
      patterns.map(({ rule, firstAt, lastAt, members }) => [rule, firstAt, lastAt, members.length]),
    ).toEqual([
      ["eight-one-side", 8, 9, 9],
      ["beyond-3s", 9, 9, 1],
      ["beyond-3s", 10, 10, 1],
      ["eight-one-side", 10, 10, 8],
      ["eight-one-side", 18, 18, 8],
      ["eight-one-side", 27, 27, 8],
    ]);
    expect([patterns[0]!.firstTime, patterns[0]!.lastTime]).toEqual([8000, 9000]);
  });
});

describe("brackets", () => {
  const wide = { from: 0, to: 99 };
  const of = (patterns: Pattern[], window = wide, room = 0) =>
    bracketsOf(patterns, { window, room: () => room }).map(
      ({ from, to, lane, openLeft, openRight, phrase }) => ({
        from,
        to,
        lane,
        openLeft,
        openRight,
        phrase,
      }),
    );

  test("overlapping ones stack, the next free one comes down again; single points have none", () => {
    const brackets = of(
      joinSignals([
        signal("beyond-3s", [4]),
        signal("six-trend", run(3, 8)),
        signal("eight-one-side", run(5, 12)),
        signal("six-trend", run(9, 14), { direction: "down" }),
      ]),
    );
    expect(brackets.map(({ from, to, lane }) => [from, to, lane])).toEqual([
      [3, 8, 0],
      [5, 12, 1],
      [9, 14, 0],
    ]);
    expect(brackets.map(({ phrase }) => phrase)).toEqual(["6 rising", "8 above centre", "6 falling"]);
  });

  test("words need room as well, also at the right edge", () => {
    const patterns = joinSignals([
      signal("six-trend", run(3, 8)),
      signal("six-trend", run(12, 17), { direction: "down" }),
      signal("six-trend", run(94, 99)),
      signal("six-trend", run(85, 90), { direction: "down" }),
    ]);
    expect(of(patterns, wide, 14).map(({ lane }) => lane)).toEqual([0, 1, 0, 1]);
  });

  test("cut at the window and marked as open", () => {
    const patterns = joinSignals([
      signal("eight-one-side", run(1, 8)),
      signal("eight-one-side", run(40, 47)),
    ]);
    expect(of(patterns, { from: 5, to: 42 })).toMatchObject([
      { from: 5, to: 8, openLeft: true, openRight: false },
      { from: 40, to: 42, openLeft: false, openRight: true },
    ]);
    expect(of(patterns, { from: 10, to: 20 })).toEqual([]);
  });
});

describe("ribbons", () => {
  const formed = { count: 4, start: Uint32Array.of(0, 2, 4, 6, 8), order: Uint32Array.from(run(0, 7)) };

  test("a subgroup's source is that of all its members", () => {
    const ids = [7, 7, 7, 8, 0, 8, 0, 0];
    expect(run(0, 3).map((subgroup) => sourceOfSubgroup(ids, formed, subgroup))).toEqual([7, MIXED, 8, 0]);
  });

  test("runs of equal ids", () => {
    expect(ribbonRuns([7, 7, MIXED, 8, 8], 10)).toEqual([
      { id: 7, from: 10, to: 11 },
      { id: MIXED, from: 12, to: 12 },
      { id: 8, from: 13, to: 14 },
    ]);
    expect(ribbonRuns([], 0)).toEqual([]);
  });

  test("an event stands before the first subgroup that was measured after it", () => {
    const at = [10, 20, 30, 40];
    const all = { from: 0, to: 3 };
    expect(placeOfEvent(5, { at, window: all })).toBe(-0.5);
    expect(placeOfEvent(20, { at, window: all })).toBe(1.5);
    expect(placeOfEvent(25, { at, window: all })).toBe(1.5);
    expect(placeOfEvent(99, { at, window: all })).toBe(3.5);
    expect(placeOfEvent(5, { at, window: { from: 1, to: 2 } })).toBeNull();
    expect(placeOfEvent(15, { at, window: { from: 1, to: 2 } })).toBe(0.5);
    expect(placeOfEvent(99, { at, window: { from: 1, to: 2 } })).toBeNull();
  });

  test("events of a weekend are found, whichever subgroup a stretch begins with", () => {
    const [day, monday] = [86_400_000, 4 * 86_400_000];
    const at = [0.5 * day, monday, monday + 1];
    // On Saturday, two days before the first subgroup of the stretch.
    const changed = 2 * day;
    expect(eventsFrom({ at, window: { from: 1 } })).toBeLessThan(changed);
    expect(placeOfEvent(changed, { at, window: { from: 1, to: 2 } })).toBe(0.5);
    expect(eventsFrom({ at, window: { from: 0 } })).toBe(-0.5 * day);
  });
});
