import { describe, expect, test } from "vitest";
import { controlChartConstants } from "../../../lib/constants/control-chart-constants";
import { equivalentDegreesOfFreedom } from "../../../lib/limits/equivalent-degrees-of-freedom";
import type { SigmaEstimate } from "../../../lib/limits/estimators";
import { sigmaFromMeanMovingRange } from "../../../lib/limits/mean-moving-range";
import { sigmaFromMeanRange } from "../../../lib/limits/mean-range";
import { sigmaFromMeanSd } from "../../../lib/limits/mean-sd";
import { sigmaFromMedianMovingRange } from "../../../lib/limits/median-moving-range";
import type { SubgroupSummary } from "../../../lib/subgroups/summarise";

const subgroups = (count: number, size: number): SubgroupSummary[] =>
  Array.from({ length: count }, () => ({ size, mean: 0, range: 1, sd: 1 }));

test("by hand: one range of two is √2 times a chi variable with one degree of freedom", () => {
  expect(sigmaFromMeanRange(subgroups(1, 2), 2).degreesOfFreedom).toBeCloseTo(1, 12);
  expect(sigmaFromMeanMovingRange([0, 1]).degreesOfFreedom).toBeCloseTo(1, 12);
});

test("by hand: one standard deviation of n readings has n − 1", () => {
  for (const n of [2, 5, 30, 500]) {
    expect(sigmaFromMeanSd(subgroups(1, n), n).degreesOfFreedom / (n - 1)).toBeCloseTo(1, 9);
  }
});

describe("published: degrees of freedom of a mean range and d2*, AIAG MSA after Duncan (from memory)", () => {
  test.each([
    { count: 1, size: 3, printed: 2.0, d2Star: 1.91155 },
    { count: 1, size: 4, printed: 2.9, d2Star: 2.23887 },
    { count: 1, size: 5, printed: 3.8, d2Star: 2.48124 },
    { count: 1, size: 10, printed: 7.7, d2Star: 3.17905 },
    { count: 2, size: 2, printed: 1.9, d2Star: 1.27931 },
    { count: 3, size: 2, printed: 2.8, d2Star: 1.23105 },
    { count: 5, size: 2, printed: 4.6, d2Star: 1.19105 },
    { count: 5, size: 5, printed: 18.4, d2Star: 2.35781 },
  ])("$count subgroups of $size: $printed and $d2Star", ({ count, size, printed, d2Star }) => {
    const ours = sigmaFromMeanRange(subgroups(count, size), size).degreesOfFreedom;
    // Half a unit of the one printed decimal, and another half because the table rounds d2 and d3 first.
    expect(Math.abs(ours - printed)).toBeLessThan(0.1);
    // d2*² = d2² + d3²/k: the same two moments, seen as the scale of the chi variable; five decimals.
    const { d2, d3 } = controlChartConstants(size);
    expect(Math.abs(Math.sqrt(d2 ** 2 + d3 ** 2 / count) - d2Star)).toBeLessThan(1.5e-5);
  });
});

describe("simulated: the scatter of the estimate is that of a chi variable with these degrees", () => {
  /** Normal numbers from a fixed seed: the multiplicative generator of Park and Miller (1988), Box-Muller. */
  function normals(seed: number): () => number {
    let state = seed;
    const uniform = () => {
      state = (state * 48271) % 2147483647;
      return state / 2147483647;
    };
    return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
  }

  function relativeVariance(
    estimate: (values: number[]) => SigmaEstimate,
    length: number,
    runs: number,
  ): number {
    const next = normals(20240517);
    const sigmas = Array.from({ length: runs }, () => estimate(Array.from({ length }, next)).sigma);
    const mean = sigmas.reduce((sum, sigma) => sum + sigma, 0) / runs;
    return sigmas.reduce((sum, sigma) => sum + (sigma - mean) ** 2, 0) / (runs - 1) / mean ** 2;
  }

  // A variance from N runs has the relative standard error √(2/N); four of them are allowed.
  test("mean moving range of 30 readings", () => {
    const runs = 8000;
    const simulated = equivalentDegreesOfFreedom(relativeVariance(sigmaFromMeanMovingRange, 30, runs));
    const ours = sigmaFromMeanMovingRange(new Array<number>(30).fill(0)).degreesOfFreedom;
    expect(Math.abs(simulated / ours - 1)).toBeLessThan(4 * Math.sqrt(2 / runs));
  });

  test("median moving range of 200 readings", () => {
    const runs = 3000;
    const simulated = equivalentDegreesOfFreedom(relativeVariance(sigmaFromMedianMovingRange, 200, runs));
    const ours = sigmaFromMedianMovingRange(new Array<number>(200).fill(0)).degreesOfFreedom;
    // The formula is that of long series: another per cent or two at this length.
    expect(Math.abs(simulated / ours - 1)).toBeLessThan(4 * Math.sqrt(2 / runs) + 0.02);
  });
});

describe("edge", () => {
  test.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY, 1e9])(
    "a relative variance of %s is refused",
    (variance) => {
      expect(() => equivalentDegreesOfFreedom(variance)).toThrow(
        expect.objectContaining({ name: "InvalidInput", field: "relativeVariance" }),
      );
    },
  );

  test("a million subgroups still have a figure", () => {
    const { d2, d3 } = controlChartConstants(5);
    const many = equivalentDegreesOfFreedom((d3 / d2) ** 2 / 1e6);
    // For many subgroups ν tends to d2²/(2·d3²) per subgroup.
    expect(many / ((1e6 * d2 ** 2) / (2 * d3 ** 2))).toBeCloseTo(1, 5);
  });
});
