import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { lognormal } from "../../../lib/distributions/lognormal";
import { normalDistribution } from "../../../lib/distributions/normal-distribution";
import { powerNormal } from "../../../lib/distributions/power-normal";

describe("the distribution behind Box and Cox's powers", () => {
  test("by hand: the square root of x/4 about 1: y = 2(√(x/4) − 1), so the median of μ = 1 is 4·1.5² = 9", () => {
    const half = powerNormal({ lambda: 0.5, geometricMean: 4, powerMean: 1, powerDeviation: 0.2 });
    expect(half.quantile(0.5)).toBeCloseTo(9, 10);
    // One deviation up: y = 1.2, x = 4·1.6² = 10.24, above which lies 15.8655 % of a normal curve.
    expect(half.upperTail(10.24)).toBeCloseTo(0.158655253931457, 10);
  });

  test("law: λ = 0 is the lognormal", () => {
    const ours = powerNormal({ lambda: 0, geometricMean: 2, powerMean: 0.3, powerDeviation: 0.4 });
    const theirs = lognormal({ logMean: Math.log(2) + 0.3, logStandardDeviation: 0.4 });
    for (const x of [0.2, 1, 2.5, 9]) {
      expect(ours.cdf(x)).toBeCloseTo(theirs.cdf(x), 14);
      expect(ours.upperTail(x)).toBeCloseTo(theirs.upperTail(x), 14);
      expect(ours.logDensity(x)).toBeCloseTo(theirs.logDensity(x), 12);
    }
    expect(ours.upperQuantile(1e-9)).toBeCloseTo(theirs.upperQuantile(1e-9), 8);
  });

  test("law: λ = 1 is the normal one moved by the geometric mean, far from its edge at 0", () => {
    const ours = powerNormal({ lambda: 1, geometricMean: 10, powerMean: 0.02, powerDeviation: 0.01 });
    const theirs = normalDistribution({ mean: 10 * 1.02, standardDeviation: 0.1 });
    for (const x of [9.8, 10.2, 10.6]) {
      expect(ours.cdf(x)).toBeCloseTo(theirs.cdf(x), 12);
      expect(ours.density(x)).toBeCloseTo(theirs.density(x), 10);
    }
    expect(ours.quantile(0.00135)).toBeCloseTo(theirs.quantile(0.00135), 10);
  });

  test.each([-1.5, -0.3, 0.4, 2])(
    "law: λ = %d, cut at its edge, holds one, and quantiles undo it",
    (lambda) => {
      // An edge within a few deviations, so that what is cut off counts.
      const ours = powerNormal({ lambda, geometricMean: 1, powerMean: 0, powerDeviation: 0.45 });
      for (const p of [0.001, 0.2, 0.5, 0.9, 0.999]) {
        expect(ours.cdf(ours.quantile(p))).toBeCloseTo(p, 10);
        expect(ours.upperTail(ours.upperQuantile(p))).toBeCloseTo(p, 10);
        expect(ours.cdf(ours.upperQuantile(p))).toBeCloseTo(1 - p, 10);
      }
      // The density is the slope of the share below: midpoint rule on a grid of logarithms.
      const steps = 40_000;
      let sum = 0;
      for (let i = 0; i < steps; i++) {
        const x = Math.exp(-12 + (24 * (i + 0.5)) / steps);
        sum += (ours.density(x) * x * 24) / steps;
      }
      const within = ours.cdf(Math.exp(12)) - ours.cdf(Math.exp(-12));
      expect(sum).toBeCloseTo(within, 5);
    },
  );

  test("edge: broken parameters", () => {
    const of = (change: object) => () =>
      powerNormal({ lambda: 1, geometricMean: 1, powerMean: 0, powerDeviation: 1, ...change });
    for (const change of [{ lambda: Number.NaN }, { geometricMean: 0 }, { powerDeviation: -1 }])
      expect(of(change)).toThrow(InvalidInput);
  });
});
