import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { axisSpans, heldOn, isOff } from "../../../lib/chart/axis-spans";
import { runs } from "../../laws";

/** 112.00, 112.01 … 112.04, over and over. */
const bulk = Array.from({ length: 40 }, (_, i) => 112 + (i % 5) / 100);
const limits = [111.95, 112.09];

describe("an axis on which limits and most points can be read", () => {
  test("by hand: a misplaced decimal is left off it", () => {
    const { near, whole } = axisSpans([...bulk, 1120.2], { kept: limits, margin: 0 });
    expect(near).toEqual({ low: 111.95, high: 112.09 });
    expect(whole).toEqual({ low: 111.95, high: 1120.2 });
    expect(isOff(near, 1120.2)).toBe(true);
    expect(heldOn(near, 1120.2)).toBe(112.09);
    expect(heldOn(near, 11.2)).toBe(111.95);
    expect(heldOn(near, 112)).toBe(112);
  });

  test("by hand: room on both sides is a share of what is shown", () => {
    const { near } = axisSpans([...bulk, 1120.2], { kept: limits, margin: 0.5 });
    expect(near.low).toBeCloseTo(111.88, 10);
    expect(near.high).toBeCloseTo(112.16, 10);
  });

  test("by hand: without limits, what is not further than three interquartile ranges out is kept", () => {
    // The quartiles are 112.01 and 112.03, so that far out begins beyond 111.95 and 112.09.
    const { near } = axisSpans([...bulk, 112.08, 111.96, 115], { kept: [], margin: 0 });
    expect(near.low).toBe(111.96);
    expect(near.high).toBe(112.08);
  });

  test("by hand: a shift that leaves the rest a fifth of the axis is shown, one beyond it is not", () => {
    const shifted = (high: number) => axisSpans([...bulk, high], { kept: [112, 112.1], margin: 0 });
    expect(shifted(112.49).near).toEqual({ low: 112, high: 112.49 });
    expect(shifted(112.51).near).toEqual({ low: 112, high: 112.1 });
  });

  test("a slow drift is shown whole however far it leads", () => {
    const drift = Array.from({ length: 60 }, (_, i) => 10 + i);
    const { near, whole } = axisSpans(drift, { kept: [9, 11], margin: 0 });
    expect(near).toBe(whole);
  });

  test.each([
    ["nothing", [], []],
    ["all alike", [5, 5, 5], []],
    ["all alike but one, and no limits", [5, 5, 5, 5, 900], []],
    ["limits without width", [5, 5, 5, 5], [5, 5]],
    ["limits alone", [], [1, 2]],
    ["no figures", [Number.NaN, Number.POSITIVE_INFINITY], [1, 2]],
  ])("%s is shown whole", (_what, values, kept) => {
    const { near, whole } = axisSpans(values, { kept, margin: 0.1 });
    expect(near).toBe(whole);
    expect(near.high).toBeGreaterThan(near.low);
  });

  test("law: limits and at least half of the points are on it, whatever else there is, and it lies within the whole", () => {
    const figure = fc.oneof(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -1e6, max: 1e6 }));
    fc.assert(
      fc.property(
        fc.array(figure, { minLength: 1, maxLength: 60 }),
        fc.array(figure, { maxLength: 4 }),
        (values, kept) => {
          const { near, whole } = axisSpans(values, { kept, margin: 0 });
          for (const limit of kept) expect(isOff(near, limit)).toBe(false);
          expect(2 * values.filter((value) => !isOff(near, value)).length).toBeGreaterThanOrEqual(
            values.length,
          );
          expect(near.low).toBeGreaterThanOrEqual(whole.low);
          expect(near.high).toBeLessThanOrEqual(whole.high);
        },
      ),
      { numRuns: runs(300) },
    );
  });
});
