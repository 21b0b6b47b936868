import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { MARGIN, OLDEST, type StripFacts, stripGeometry } from "../../../lib/board/strip";
import { stripWords } from "../../../lib/board/strip-words";
import { ENGLISH } from "../../../lib/words/words";

const BOTH: StripFacts = {
  tolerance: { lower: 44.95, upper: 45.05 },
  naturalBound: null,
  limits: null,
  means: [],
};

describe("by hand", () => {
  test("the tolerance spans the same width whatever its size", () => {
    const { tolerance } = stripGeometry(BOTH);
    expect(tolerance).toEqual({ from: MARGIN, to: 1 - MARGIN, openFrom: false, openTo: false });
    const wide = stripGeometry({ ...BOTH, tolerance: { lower: -300, upper: 900 } });
    expect(wide.tolerance).toEqual(tolerance);
  });

  test("a mean in the middle of the tolerance stands in the middle, one at a limit at its margin", () => {
    const { ticks } = stripGeometry({ ...BOTH, means: [45, 44.95, 45.05] });
    expect(ticks[0]?.at).toBeCloseTo(0.5, 12);
    expect(ticks[1]?.at).toBeCloseTo(MARGIN, 12);
    expect(ticks[2]?.at).toBeCloseTo(1 - MARGIN, 12);
    expect(ticks.map(({ outside }) => outside)).toEqual([null, null, null]);
  });

  test("the newest is strongest, the oldest faintest", () => {
    const { ticks } = stripGeometry({ ...BOTH, means: [45, 45, 45] });
    expect(ticks[0]?.strength).toBe(OLDEST);
    expect(ticks[1]?.strength).toBeCloseTo((OLDEST + 1) / 2, 12);
    expect(ticks[2]?.strength).toBe(1);
    expect(ticks.map(({ age }) => age)).toEqual([2, 1, 0]);
  });

  test("what lies beyond the end is held there and marked", () => {
    const { ticks } = stripGeometry({ ...BOTH, means: [46, 44] });
    expect(ticks[0]).toMatchObject({ at: 1, clipped: true, outside: "above" });
    expect(ticks[1]).toMatchObject({ at: 0, clipped: true, outside: "below" });
  });

  test("control limits wider than the strip have open ends", () => {
    const { limits } = stripGeometry({ ...BOTH, limits: { lower: 40, centre: 45, upper: 50 } });
    expect(limits).toEqual({ from: 0, to: 1, openFrom: true, openTo: true });
  });
});

describe("one-sided tolerances", () => {
  test("form: from its natural bound of 0 to the limit", () => {
    const strip = stripGeometry({
      tolerance: { lower: null, upper: 0.05 },
      naturalBound: 0,
      limits: null,
      means: [0.025],
    });
    expect(strip.tolerance).toEqual({ from: MARGIN, to: 1 - MARGIN, openFrom: false, openTo: false });
    expect(strip.ticks[0]?.at).toBeCloseTo(0.5, 12);
  });

  test("without a natural bound the open side reaches to the farthest value seen", () => {
    const strip = stripGeometry({
      tolerance: { lower: null, upper: 10 },
      naturalBound: null,
      limits: null,
      means: [6, 8],
    });
    expect(strip.tolerance).toEqual({ from: 0, to: 1 - MARGIN, openFrom: true, openTo: false });
    expect(strip.ticks[0]?.at).toBeCloseTo(MARGIN, 12);
    expect(strip.ticks[1]?.at).toBeCloseTo(0.5, 12);
  });

  test("a lower limit alone", () => {
    const strip = stripGeometry({
      tolerance: { lower: 2, upper: null },
      naturalBound: null,
      limits: null,
      means: [4],
    });
    expect(strip.tolerance).toMatchObject({ from: MARGIN, to: 1, openTo: true });
    expect(strip.ticks[0]?.at).toBeCloseTo(1 - MARGIN, 12);
  });

  test("nothing measured, or everything beyond the one limit", () => {
    const none = stripGeometry({ ...BOTH, tolerance: { lower: null, upper: 0 } });
    expect(none.tolerance?.to).toBe(1 - MARGIN);
    const beyond = stripGeometry({ ...BOTH, tolerance: { lower: null, upper: 0 }, means: [3] });
    expect(beyond.ticks[0]).toMatchObject({ at: 1, outside: "above" });
  });
});

describe("no tolerance", () => {
  test("control limits take the middle half of the span", () => {
    const strip = stripGeometry({
      tolerance: { lower: null, upper: null },
      naturalBound: null,
      limits: { lower: 9, centre: 10, upper: 11 },
      means: [10],
    });
    expect(strip.scale).toBe("limits");
    expect(strip.tolerance).toBeNull();
    expect(strip.ticks[0]).toMatchObject({ at: 0.5, outside: null });
    expect(strip.limits?.from).toBeCloseTo(MARGIN + 0.25 * (1 - 2 * MARGIN), 12);
  });

  test("means alone, all alike, or nothing at all", () => {
    const free = { tolerance: { lower: null, upper: null }, naturalBound: null, limits: null };
    expect(stripGeometry({ ...free, means: [7, 7] }).ticks[0]?.at).toBe(0.5);
    expect(stripGeometry({ ...free, means: [1, 3] }).ticks[1]?.at).toBeCloseTo(1 - MARGIN, 12);
    expect(stripGeometry({ ...free, means: [] }).scale).toBe("nothing");
  });
});

describe("laws", () => {
  const value = fc.double({ min: -1000, max: 1000, noNaN: true });
  const facts = fc.record({
    lower: fc.option(value),
    upper: fc.option(value),
    naturalBound: fc.option(value),
    centre: value,
    reach: fc.option(fc.double({ min: 1e-6, max: 100, noNaN: true })),
    means: fc.array(value, { maxLength: 25 }),
  });

  test("every position lies on the strip, and a change of origin and unit changes nothing", () => {
    fc.assert(
      fc.property(facts, ({ lower, upper, naturalBound, centre, reach, means }) => {
        fc.pre(lower === null || upper === null || upper - lower > 1e-6);
        const at = (scale: number) =>
          stripGeometry({
            tolerance: {
              lower: lower === null ? null : lower * scale,
              upper: upper === null ? null : upper * scale,
            },
            naturalBound: naturalBound === null ? null : naturalBound * scale,
            limits:
              reach === null
                ? null
                : {
                    lower: (centre - reach) * scale,
                    centre: centre * scale,
                    upper: (centre + reach) * scale,
                  },
            means: means.map((mean) => mean * scale),
          });
        const strip = at(1);
        const positions = [
          ...strip.ticks.map((tick) => tick.at),
          ...(strip.limits ? [strip.limits.from, strip.limits.to] : []),
          ...(strip.tolerance ? [strip.tolerance.from, strip.tolerance.to] : []),
        ];
        for (const position of positions) {
          expect(position).toBeGreaterThanOrEqual(0);
          expect(position).toBeLessThanOrEqual(1);
        }
        // Doubling is exact in binary, so positions stay to the last digit unless nothing gives a span.
        const doubled = at(2);
        expect(doubled.ticks.map(({ outside }) => outside)).toEqual(
          strip.ticks.map(({ outside }) => outside),
        );
        if ((lower !== null && upper !== null) || (lower === null && upper === null)) {
          expect(doubled.ticks.map((tick) => tick.at)).toEqual(strip.ticks.map((tick) => tick.at));
        }
      }),
    );
  });
});

describe("in words", () => {
  const plan = { tolerance: { lower: 44.95, upper: 45.05 } };
  const mm = { unit: "mm", resolution: 0.001 };

  test("everything the strip shows", () => {
    expect(
      stripWords({ plan, ...mm, limits: { lower: 44.99, upper: 45.01 }, means: [45, 45.0604] }, ENGLISH),
    ).toBe(
      "Newest mean 45.0604\u00a0mm, above the tolerance. Tolerance 44.950 to 45.050\u00a0mm. " +
        "Control limits 44.9900 to 45.0100\u00a0mm. The last 2 means lie between 45.0000 and 45.0604\u00a0mm.",
    );
  });

  test("nothing to show", () => {
    const open = { tolerance: { lower: null, upper: null } };
    expect(stripWords({ plan: open, ...mm, limits: null, means: [] }, ENGLISH)).toBe(
      "No subgroups yet. No tolerance is stated.",
    );
  });
});
