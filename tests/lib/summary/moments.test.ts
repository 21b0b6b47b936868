import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  maximum,
  mean,
  median,
  minimum,
  range,
  sampleStandardDeviation,
  sampleVariance,
} from "../../../lib/summary/moments";
import { add, sampleVarianceOf, startMoments } from "../../../lib/summary/running-moments";
import strd from "../../reference/strd-univariate.json";

describe("by hand", () => {
  test("2, 4, 4, 4, 5, 5, 7, 9: mean 5, squared deviations sum to 32", () => {
    const values = [2, 4, 4, 4, 5, 5, 7, 9];
    expect(mean(values)).toBe(5);
    expect(sampleVariance(values)).toBeCloseTo(32 / 7, 14);
    expect(sampleStandardDeviation(values)).toBeCloseTo(Math.sqrt(32 / 7), 14);
    expect(median(values)).toBe(4.5);
    expect(minimum(values)).toBe(2);
    expect(maximum(values)).toBe(9);
    expect(range(values)).toBe(7);
  });

  test("the middle of an odd count, whatever the order", () => {
    expect(median([9, 1, 5])).toBe(5);
    expect(median(Float64Array.of(-10, 100, 3))).toBe(3);
  });
});

describe(`published: ${strd.source}`, () => {
  type SetName = keyof typeof strd.data;
  /**
   * Correct digits we promise per set. PiDigits and NumAcc1 are whole numbers. Of the others the doubles
   * themselves differ from the decimals printed: 1000000.2 is held to 1.2e-10, which is a part in 1e9 of
   * the standard deviation 0.1, and 299.85 to 5.7e-14, a part in 1e12 of 0.079.
   */
  const PROMISED: Record<SetName, { mean: number; sd: number }> = {
    Michelso: { mean: 15, sd: 13 },
    NumAcc1: { mean: 15, sd: 15 },
    NumAcc3: { mean: 15, sd: 9 },
    PiDigits: { mean: 15, sd: 14 },
  };

  test.each(Object.keys(PROMISED) as SetName[])("%s: certified mean and standard deviation", (name) => {
    const values = strd.data[name].map(Number);
    const certified = (what: string) =>
      Number(strd.printed.find((entry) => entry.name === `${name} ${what}`)!.printed);
    expect(digits(mean(values), certified("mean"))).toBeGreaterThanOrEqual(PROMISED[name].mean);
    expect(digits(sampleStandardDeviation(values), certified("sd (n-1)"))).toBeGreaterThanOrEqual(
      PROMISED[name].sd,
    );
    const running = startMoments();
    for (const value of values) add(running, value);
    // One pass by updating loses up to one digit against two.
    expect(digits(Math.sqrt(sampleVarianceOf(running)), certified("sd (n-1)"))).toBeGreaterThanOrEqual(
      Math.min(13, PROMISED[name].sd - 1),
    );
  });
});

/** Correct significant digits, at most 15: certified values are printed with fifteen. */
function digits(value: number, certified: number): number {
  return value === certified ? 15 : Math.min(15, -Math.log10(Math.abs(value / certified - 1)));
}

describe("law", () => {
  const readings = fc.array(fc.integer({ min: -100000, max: 100000 }), { minLength: 2, maxLength: 60 });

  test("adding a constant moves the mean and leaves the spread; a factor scales both", () => {
    fc.assert(
      fc.property(readings, fc.integer({ min: -1000, max: 1000 }), (values, offset) => {
        const moved = values.map((value) => value + offset);
        const doubled = values.map((value) => value * 2);
        const tolerance = 1e-9 * (1 + sampleVariance(values));
        expect(Math.abs(mean(moved) - mean(values) - offset)).toBeLessThan(1e-9);
        expect(Math.abs(sampleVariance(moved) - sampleVariance(values))).toBeLessThan(tolerance);
        expect(Math.abs(sampleVariance(doubled) - 4 * sampleVariance(values))).toBeLessThan(4 * tolerance);
        expect(range(moved)).toBe(range(values));
        expect(median(doubled)).toBe(2 * median(values));
      }),
    );
  });

  test("one by one gives what all at once gives", () => {
    fc.assert(
      fc.property(readings, (values) => {
        const running = startMoments();
        for (const value of values) add(running, value);
        expect(running.n).toBe(values.length);
        expect(Math.abs(running.mean - mean(values))).toBeLessThan(1e-9);
        const variance = sampleVariance(values);
        expect(Math.abs(sampleVarianceOf(running) - variance)).toBeLessThanOrEqual(1e-12 * (1 + variance));
      }),
    );
  });

  test("the input is not changed", () => {
    const values = Object.freeze([3, 1, 2]);
    median(values);
    expect(values).toEqual([3, 1, 2]);
  });
});

describe("edge", () => {
  test("readings that are all alike have no spread at all", () => {
    expect(sampleVariance([0.1, 0.1, 0.1])).toBe(0);
    expect(range([12.3])).toBe(0);
  });

  test.each([mean, median, minimum, maximum, range, sampleVariance, sampleStandardDeviation])(
    "$name refuses too few readings, and one that is not a number by its place",
    (figure) => {
      expect(() => figure([])).toThrow(expect.objectContaining({ name: "InvalidInput", value: 0 }));
      expect(() => figure([1, Number.NaN, 2])).toThrow(
        expect.objectContaining({ name: "InvalidInput", where: figure.name, field: "values[1]" }),
      );
      expect(() => figure([1, 2, Number.NEGATIVE_INFINITY])).toThrow(/values\[2\]/);
    },
  );

  test("a spread needs two readings", () => {
    expect(() => sampleVariance([1])).toThrow(/at least 2/);
    const running = startMoments();
    add(running, 1);
    expect(() => sampleVarianceOf(running)).toThrow(/at least 2/);
    expect(() => add(running, Number.NaN)).toThrow(/finite/);
  });

  test("finite readings too large to sum are refused rather than answered with infinity", () => {
    expect(() => mean([1e308, 1e308])).toThrow(/small enough/);
    expect(() => sampleVariance([1e200, -1e200])).toThrow(/small enough/);
  });
});
