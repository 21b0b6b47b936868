import cdf from "@stdlib/stats-base-dists-normal-cdf";
import fc from "fast-check";
import { mean, sampleStandardDeviation } from "simple-statistics";
import { expect, test } from "vitest";
import { normality } from "../../../lib/capability/normality";

/** By its definition, on sorted readings, from general-purpose libraries. */
function statisticOf(readings: readonly number[]): number {
  const sorted = [...readings].sort((a, b) => a - b);
  const [centre, sd] = [mean(sorted), sampleStandardDeviation(sorted)];
  const n = sorted.length;
  const sum = sorted.reduce((total, reading, i) => {
    const below = Math.log(cdf(reading, centre, sd));
    const above = Math.log(1 - cdf(sorted[n - 1 - i]!, centre, sd));
    return total + (2 * i + 1) * (below + above);
  }, 0);
  return -n - sum / n;
}

function statistic(readings: readonly number[]): { squared: number; distinct: number } {
  const tested = normality(readings);
  if (!tested.ok) throw new Error(tested.problem.code);
  return { squared: tested.value.A2, distinct: tested.value.distinct };
}

/** Both are sums of n terms of either sign; their last digits go. */
const DIGITS = 8;

test("law: readings counted on their grid, in any order, give what the definition gives for sorted ones", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -12, max: 12 }), { minLength: 8, maxLength: 60 }),
      fc.constantFrom(1, 10, 1000),
      (steps, scale) => {
        const readings = steps.map((step) => (2500 + step) / scale);
        fc.pre(new Set(readings).size > 2);
        const { squared, distinct } = statistic(readings);
        expect(squared).toBeCloseTo(statisticOf(readings), DIGITS);
        expect(distinct).toBe(new Set(readings).size);
      },
    ),
  );
});

test("edge: two doubles in one cell of the grid, and a grid far wider than its readings, are sorted", () => {
  const rounded = [0.1, 0.1 + 0.2, 0.3, 0.5, 0.2, 0.4, 0.3, 0.6];
  expect(0.1 + 0.2).not.toBe(0.3);
  expect(statistic(rounded).squared).toBeCloseTo(statisticOf(rounded), DIGITS);
  expect(statistic(rounded).distinct).toBe(7);
  const wide = [0.001, 250, 251.5, 249.25, 250.75, 248, 252, 250.1];
  expect(statistic(wide).squared).toBeCloseTo(statisticOf(wide), DIGITS);
});
