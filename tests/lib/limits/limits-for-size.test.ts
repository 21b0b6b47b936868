import { describe, expect, test } from "vitest";
import { controlChartConstants } from "../../../lib/constants/control-chart-constants";
import { type LimitsBasis, limitsForSize, spreadFactors } from "../../../lib/limits/limits-for-size";
import { movingRanges } from "../../../lib/limits/moving-ranges";
import { standardiseLocation, standardiseSpread } from "../../../lib/limits/standardise";
import { CHART_KINDS } from "../../../lib/plan/feature-plan";

const means: LimitsBasis = { chart: "xbar-r", centre: 10, sigma: 2 };

describe("by hand", () => {
  test("means of four with σ = 2: 10 ± 3", () => {
    expect(limitsForSize(means, 4).location).toEqual({ lower: 7, centre: 10, upper: 13 });
  });

  test("ranges of four with σ = 2, d2 = 2.059, d3 = 0.880: 4.118 + 5.28, nothing below 0", () => {
    const { spread } = limitsForSize(means, 4);
    // Half a unit of the third decimal of d2 and d3 is 0.001 and 0.003 here.
    expect(Math.abs(spread!.centre - 4.118)).toBeLessThan(0.001);
    expect(Math.abs(spread!.upper - 9.398)).toBeLessThan(0.004);
    expect(spread!.lower).toBe(0);
  });

  test("10, 12, 9: moving ranges 2 and 3", () => {
    expect(movingRanges([10, 12, 9])).toEqual([2, 3]);
    expect(movingRanges([10])).toEqual([]);
  });

  test("a mean of 11 of four with σ = 2 is one sigma of the mean above 10", () => {
    expect(standardiseLocation(means, { mean: 11, size: 4 })).toBe(1);
    expect(standardiseLocation({ ...means, chart: "i-mr" }, { mean: 6, size: 1 })).toBe(-2);
  });
});

describe("law", () => {
  test("the factors printed in handbooks come out: A2, D3, D4, A3, B3, B4, E2", () => {
    for (const n of [2, 5, 7, 12, 25, 200]) {
      const k = controlChartConstants(n);
      const range = limitsForSize({ chart: "xbar-r", centre: 0, sigma: 1 / k.d2 }, n);
      expect(range.location.upper).toBeCloseTo(k.A2, 12);
      expect(range.spread!.lower).toBeCloseTo(k.D3, 12);
      expect(range.spread!.upper).toBeCloseTo(k.D4, 12);
      const sd = limitsForSize({ chart: "xbar-s", centre: 0, sigma: 1 / k.c4 }, n);
      expect(sd.location.upper).toBeCloseTo(k.A3, 12);
      expect(sd.spread!.lower).toBeCloseTo(k.B3, 12);
      expect(sd.spread!.upper).toBeCloseTo(k.B4, 12);
    }
    const two = controlChartConstants(2);
    const singles = limitsForSize({ chart: "i-mr", centre: 0, sigma: 1 / two.d2 }, 1);
    expect(singles.location.upper).toBeCloseTo(two.E2, 12);
    expect(singles.spread!.upper).toBeCloseTo(two.D4, 12);
  });

  test("a point on its limit is three sigma out, one on the centre line is at 0", () => {
    for (const chart of CHART_KINDS) {
      const basis: LimitsBasis = { chart, centre: -3.2, sigma: 0.04 };
      const size = chart === "i-mr" ? 1 : 9;
      const { location, spread } = limitsForSize(basis, size);
      const at = (mean: number) => standardiseLocation(basis, { mean, size });
      const spreadAt = (value: number) => standardiseSpread(basis, { spread: value, size })!;
      expect([at(location.lower), at(location.centre), at(location.upper)].map(rounded)).toEqual([-3, 0, 3]);
      expect([spreadAt(spread!.centre), spreadAt(spread!.upper)].map(rounded)).toEqual([0, 3]);
    }
  });
});

const rounded = (z: number) => Math.round(z * 1e9) / 1e9 + 0;

describe("edge", () => {
  test("a subgroup of one on a chart of means has a location and no spread", () => {
    expect(limitsForSize(means, 1)).toEqual({ location: { lower: 4, centre: 10, upper: 16 }, spread: null });
    expect(standardiseSpread(means, { spread: 0, size: 1 })).toBeNull();
  });

  test.each([
    ["sigma", () => limitsForSize({ ...means, sigma: 0 }, 4)],
    ["sigma", () => limitsForSize({ ...means, sigma: Number.NaN }, 4)],
    ["centre", () => limitsForSize({ ...means, centre: Number.POSITIVE_INFINITY }, 4)],
    ["size", () => limitsForSize(means, 0)],
    ["size", () => limitsForSize({ ...means, chart: "i-mr" }, -0.5)],
    ["size", () => spreadFactors("i-mr", 2)],
    ["n", () => limitsForSize(means, 1001)],
    ["sigma", () => standardiseLocation({ ...means, sigma: -1 }, { mean: 1, size: 4 })],
    ["mean", () => standardiseLocation(means, { mean: Number.NaN, size: 4 })],
    ["size", () => standardiseLocation(means, { mean: 1, size: Number.NaN })],
    ["spread", () => standardiseSpread(means, { spread: Number.NaN, size: 4 })],
    ["sigma", () => standardiseSpread({ ...means, sigma: 0 }, { spread: 1, size: 4 })],
    ["chart", () => spreadFactors("pie" as "xbar-r", 4)],
  ])("a broken %s is refused by name", (field, broken) => {
    expect(broken).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});
