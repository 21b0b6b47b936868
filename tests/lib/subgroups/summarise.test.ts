import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formSubgroups } from "../../../lib/subgroups/form-subgroups";
import { summarise, summariseSubgroups } from "../../../lib/subgroups/summarise";
import { mean, range, sampleStandardDeviation } from "../../../lib/summary/moments";
import days from "../../reference/days-by-hours.json";

test("by hand: 3, 5, 4 has mean 4, range 2 and s = 1", () => {
  expect(summarise([3, 5, 4])).toEqual({ size: 3, mean: 4, range: 2, sd: 1 });
});

test("a single reading has range and standard deviation 0", () => {
  expect(summarise([7.5])).toEqual({ size: 1, mean: 7.5, range: 0, sd: 0 });
});

test(`computed independently for ${days.source}: mean range 1.352 and mean s 0.530586491917`, () => {
  const summaries = days.subgroups.map(summarise);
  expect(mean(summaries.map((one) => one.range))).toBeCloseTo(1.352, 12);
  expect(mean(summaries.map((one) => one.sd))).toBeCloseTo(0.530586491917, 12);
});

test("law: the same figures as for any set of readings", () => {
  const readings = fc.array(fc.integer({ min: -1e6, max: 1e6 }), { minLength: 2, maxLength: 20 });
  fc.assert(
    fc.property(readings, (values) => {
      const summary = summarise(values);
      expect(Math.abs(summary.mean - mean(values))).toBeLessThan(1e-8);
      expect(summary.range).toBe(range(values));
      expect(Math.abs(summary.sd - sampleStandardDeviation(values))).toBeLessThan(1e-8);
    }),
  );
});

test("the subgroups of a series one after the other", () => {
  const subgroups = formSubgroups({ subgroup: null, lot: new Uint32Array(5) }, 5, 2);
  expect(summariseSubgroups([1, 3, 10, 20, 99], subgroups).map((one) => one.mean)).toEqual([2, 15]);
});

describe("edge", () => {
  test("readings that are all alike have exactly no spread", () => {
    expect(summarise([0.1, 0.1, 0.1])).toEqual({ size: 3, mean: 0.1, range: 0, sd: 0 });
  });

  test.each([[[]], [[1, Number.NaN]], [[Number.POSITIVE_INFINITY, 1]], [[Number.NaN]]])(
    "%j is refused",
    (values) => {
      expect(() => summarise(values)).toThrow(expect.objectContaining({ name: "InvalidInput" }));
    },
  );

  test("a subgroup that points past the series is refused", () => {
    const subgroups = formSubgroups({ subgroup: null, lot: new Uint32Array(4) }, 4, 2);
    expect(() => summariseSubgroups([1, 2], subgroups)).toThrow(/finite/);
  });
});
