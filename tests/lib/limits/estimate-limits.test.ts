import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type EstimatedLimits, estimateLimits } from "../../../lib/limits/estimate-limits";
import type { Estimator } from "../../../lib/limits/estimators";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import type { ChartKind } from "../../../lib/plan/feature-plan";
import { type SubgroupSummary, summarise } from "../../../lib/subgroups/summarise";
import capability from "../../reference/capability.json";
import days from "../../reference/days-by-hours.json";
import flow from "../../reference/flow-rate.json";

type Request = { chart: ChartKind; subgroups: readonly SubgroupSummary[]; estimator?: Estimator };

function estimated(request: Request): EstimatedLimits {
  const result = estimateLimits(request);
  if (!result.ok) throw new Error(`no limits: ${result.problem.code}`);
  return result.value;
}

const single = (value: number) => summarise([value]);
const singles = (values: readonly number[]) => values.map(single);

describe("by hand", () => {
  test("10, 12, 11, 13 have moving ranges 2, 1, 2", () => {
    // MR̄ = 5/3 and d2 = 2/√π, so σ̂ = 5√π/6 about the mean of 11.5. The median range is 2.
    const subgroups = singles([10, 12, 11, 13]);
    const mean = estimated({ chart: "i-mr", subgroups });
    expect(mean).toMatchObject({ centre: 11.5, estimator: "mean-moving-range", subgroupSize: 1 });
    expect(mean.sigma).toBeCloseTo((5 * Math.sqrt(Math.PI)) / 6, 14);
    const median = estimated({ chart: "i-mr", subgroups, estimator: "median-moving-range" });
    // 0.95387 = √2 · 0.67449 from tables of the normal distribution; half a unit of its last place is
    // 1.1e-5 of the quotient.
    expect(Math.abs(median.sigma - 2 / 0.95387)).toBeLessThan(1.1e-5);
  });

  test("subgroups of two: R̄ = 2 and s̄ = √2 give the same σ̂ = √π", () => {
    const subgroups = [summarise([1, 2]), summarise([0, 3])];
    expect(estimated({ chart: "xbar-r", subgroups }).sigma).toBeCloseTo(Math.sqrt(Math.PI), 13);
    expect(estimated({ chart: "xbar-s", subgroups }).sigma).toBeCloseTo(Math.sqrt(Math.PI), 13);
  });

  test("unequal subgroups: ranges weighted by (d2/d3)², the centre over all readings", () => {
    // Table values: d2 1.128 and 1.693, d3 0.853 and 0.888 (ASTM E2587, from memory), so the weights are
    // 1.7487 and 3.6349, and σ̂ = (1.7487·1/1.128 + 3.6349·2/1.693)/(1.7487 + 3.6349) = 1.0856.
    const subgroups = [summarise([10, 11]), summarise([20, 22, 21])];
    const limits = estimated({ chart: "xbar-r", subgroups });
    expect(limits).toMatchObject({ estimator: "weighted-range", subgroupSize: null });
    // Half a unit of the third decimals is up to 6e-4 of d2 and d3, most of which the mean of two takes out.
    expect(limits.sigma).toBeCloseTo(1.0856, 3);
    expect(limits.centre).toBeCloseTo((10 + 11 + 20 + 22 + 21) / 5, 13);
  });

  test("unequal subgroups: pooled s² = (1·0.5 + 2·1)/3", () => {
    const limits = estimated({ chart: "xbar-s", subgroups: [summarise([10, 11]), summarise([20, 22, 21])] });
    expect(limits).toMatchObject({ estimator: "pooled-sd", degreesOfFreedom: 3, subgroupSize: null });
    expect(limits.sigma).toBeCloseTo(Math.sqrt(2.5 / 3), 14);
  });

  test("a subgroup of one counts for the centre and not for sigma", () => {
    const pair = [summarise([1, 2]), summarise([3, 5])];
    const with7 = estimated({ chart: "xbar-r", subgroups: [...pair, single(7)] });
    expect(with7.sigma).toBe(estimated({ chart: "xbar-r", subgroups: pair }).sigma);
    expect(with7.centre).toBeCloseTo(18 / 5, 14);
    expect(with7).toMatchObject({ estimator: "mean-range", subgroupSize: null });
  });
});

describe("published", () => {
  test(`${flow.source}: limits of the individuals chart`, () => {
    const limits = estimated({ chart: "i-mr", subgroups: singles(flow.data.values) });
    const printed = (name: string) => Number(flow.printed.find((entry) => entry.name === name)!.printed);
    // Half a unit of the last printed place throughout.
    expect(Math.abs(limits.centre - printed("mean"))).toBeLessThan(0.005);
    // The page divides by 1.128; our d2 is 2/√π. Undoing that leaves only its rounding to four decimals.
    const reach = (3 * limits.sigma * (2 / Math.sqrt(Math.PI))) / 1.128;
    expect(Math.abs(limits.centre + reach - printed("UCL"))).toBeLessThan(5e-5);
    expect(Math.abs(limits.centre - reach - printed("LCL"))).toBeLessThan(5e-5);
    const ours = limitsForSize(limits, 1);
    // Unadjusted they lie nearer the centre by 0.034 % of 3σ̂ = 4.99, that is 0.0017.
    expect(Math.abs(ours.location.upper - printed("UCL"))).toBeLessThan(0.0018);
    expect(Math.abs(ours.location.lower - printed("LCL"))).toBeLessThan(0.0018);
    // The computed values beside it come from exact d2, and from D4 printed as 3.267 (half a unit of
    // which is 0.0009 at MR̄ = 1.88).
    const computed = (name: string) => flow.computed.find((entry) => entry.name === name)!.value;
    expect(ours.location.upper).toBeCloseTo(computed("UCL with d2 = 2/sqrt(pi)"), 9);
    expect(ours.location.lower).toBeCloseTo(computed("LCL with d2 = 2/sqrt(pi)"), 9);
    expect(Math.abs(ours.spread!.upper - computed("MR chart UCL with D4 = 3.267"))).toBeLessThan(0.001);
    expect(ours.spread!.lower).toBe(0);
  });

  test(`${days.source}: means, ranges and standard deviations of 25 days`, () => {
    const subgroups = days.subgroups.map(summarise);
    const computed = (name: string) => [days.computed.find((entry) => entry.name === name)!.value].flat();
    const byRange = estimated({ chart: "xbar-r", subgroups });
    expect(byRange.centre).toBeCloseTo(12.94, 12);
    const range = limitsForSize(byRange, 5);
    // The other program prints the limits of the means to five or six decimals.
    const [upper, lower] = computed("X-bar limits by range, exact constants");
    expect(Math.abs(range.location.upper - upper!)).toBeLessThan(5e-6);
    expect(Math.abs(range.location.lower - lower!)).toBeLessThan(5e-6);
    expect(Math.abs(range.spread!.upper - computed("R UCL, exact D4")[0]!)).toBeLessThan(1e-9);
    expect(range.spread!.centre).toBeCloseTo(1.352, 12);

    const sd = limitsForSize(estimated({ chart: "xbar-s", subgroups }), 5);
    const [upperBySd, lowerBySd] = computed("X-bar limits by s, exact A3");
    expect(Math.abs(sd.location.upper - upperBySd!)).toBeLessThan(1e-6);
    expect(Math.abs(sd.location.lower - lowerBySd!)).toBeLessThan(1e-6);
    expect(Math.abs(sd.spread!.upper - computed("s UCL, exact B4")[0]!)).toBeLessThan(1e-9);

    // The book, from memory: 13.72, 12.16 and 2.85 with A2 = 0.577 and D4 = 2.11 (two decimals of D4 are
    // 0.005 of R̄ = 1.352).
    expect(Math.abs(range.location.upper - 13.72)).toBeLessThan(0.005);
    expect(Math.abs(range.location.lower - 12.16)).toBeLessThan(0.005);
    expect(Math.abs(range.spread!.upper - 2.85)).toBeLessThan(0.005 * 1.352 + 0.005);
    for (const { mean, range: spread } of subgroups) {
      expect(mean > range.location.upper || mean < range.location.lower || spread > range.spread!.upper).toBe(
        false,
      );
    }
  });
});

describe(`computed independently: ${capability.source}`, () => {
  const WAYS: readonly { name: string; chart: ChartKind; estimator: Estimator }[] = [
    { name: "meanMovingRangeOverD2", chart: "i-mr", estimator: "mean-moving-range" },
    { name: "medianMovingRangeOverFactor", chart: "i-mr", estimator: "median-moving-range" },
    { name: "meanRangeOverD2", chart: "xbar-r", estimator: "mean-range" },
    { name: "meanStandardDeviationOverC4", chart: "xbar-s", estimator: "mean-sd" },
    { name: "pooledStandardDeviation", chart: "xbar-s", estimator: "pooled-sd" },
  ];

  test.each(capability.cases)("within sigma of $id", ({ input, expected }) => {
    const subgroups = input.subgroups?.map(summarise) ?? singles(input.values ?? []);
    const wanted = new Map(Object.entries(expected.withinSigma));
    let compared = 0;
    for (const { name, chart, estimator } of WAYS) {
      const sigma = wanted.get(name);
      if (sigma === undefined) continue;
      const limits = estimated({ chart, subgroups, estimator });
      expect(limits.sigma / sigma, name).toBeCloseTo(1, 9);
      expect(limits.centre / expected.mean, name).toBeCloseTo(1, 12);
      compared += 1;
    }
    expect(compared).toBeGreaterThan(0);
  });
});

describe("law", () => {
  const readings = fc.integer({ min: -1000, max: 1000 });
  const equal = fc.array(fc.array(readings, { minLength: 3, maxLength: 3 }), { minLength: 2, maxLength: 20 });
  const anySize = fc.array(fc.array(readings, { minLength: 2, maxLength: 6 }), {
    minLength: 2,
    maxLength: 20,
  });

  test("another origin moves the centre only, another unit scales centre and sigma", () => {
    const ways: { chart: ChartKind; estimator: Estimator; groups: typeof equal }[] = [
      { chart: "xbar-r", estimator: "mean-range", groups: equal },
      { chart: "xbar-r", estimator: "weighted-range", groups: anySize },
      { chart: "xbar-s", estimator: "mean-sd", groups: equal },
      { chart: "xbar-s", estimator: "pooled-sd", groups: anySize },
      {
        chart: "i-mr",
        estimator: "mean-moving-range",
        groups: fc.array(fc.array(readings, { minLength: 1, maxLength: 1 }), { minLength: 2 }),
      },
    ];
    for (const { chart, estimator, groups } of ways) {
      fc.assert(
        fc.property(groups, (values) => {
          const change = (to: (value: number) => number) =>
            estimateLimits({ chart, estimator, subgroups: values.map((group) => summarise(group.map(to))) });
          const plain = change((value) => value);
          const moved = change((value) => value + 250);
          const scaled = change((value) => value * 25.4);
          expect([moved.ok, scaled.ok]).toEqual([plain.ok, plain.ok]);
          if (!plain.ok || !moved.ok || !scaled.ok) return;
          expect(Math.abs(moved.value.centre - plain.value.centre - 250)).toBeLessThan(1e-9);
          expect(moved.value.sigma / plain.value.sigma).toBeCloseTo(1, 9);
          expect(scaled.value.sigma / plain.value.sigma / 25.4).toBeCloseTo(1, 9);
          expect(scaled.value.degreesOfFreedom).toBe(plain.value.degreesOfFreedom);
        }),
      );
    }
  });

  test("with equal sizes the weighted range is the mean range, sigma and degrees of freedom alike", () => {
    const subgroups = days.subgroups.map(summarise);
    const plain = estimated({ chart: "xbar-r", subgroups });
    const weighted = estimated({ chart: "xbar-r", subgroups, estimator: "weighted-range" });
    expect(weighted.sigma).toBeCloseTo(plain.sigma, 13);
    expect(weighted.degreesOfFreedom).toBeCloseTo(plain.degreesOfFreedom, 9);
  });

  test("two outliers move the median moving range far less than the mean", () => {
    const quiet = Array.from({ length: 40 }, (_, i) => Math.sin(i * 12.9898) * 3);
    const loud = quiet.map((value, i) => (i === 10 || i === 30 ? value + 100 : value));
    const ratio = (estimator: Estimator) =>
      estimated({ chart: "i-mr", subgroups: singles(loud), estimator }).sigma /
      estimated({ chart: "i-mr", subgroups: singles(quiet), estimator }).sigma;
    expect(ratio("mean-moving-range")).toBeGreaterThan(2);
    expect(ratio("median-moving-range")).toBeLessThan(1.5);
  });
});

describe("edge", () => {
  const two = [summarise([1, 2]), summarise([2, 4])];

  test("too few is a value, not an error", () => {
    expect(estimateLimits({ chart: "xbar-r", subgroups: [] })).toEqual({
      ok: false,
      problem: { code: "too-few-subgroups", needed: 2, got: 0 },
    });
    expect(estimateLimits({ chart: "xbar-s", subgroups: [two[0]!, single(3), single(4)] })).toEqual({
      ok: false,
      problem: { code: "too-few-subgroups", needed: 2, got: 1 },
    });
    expect(estimateLimits({ chart: "i-mr", subgroups: [single(3)] })).toEqual({
      ok: false,
      problem: { code: "too-few-readings", needed: 2, got: 1 },
    });
  });

  test.each<Request>([
    { chart: "xbar-r", subgroups: [summarise([0.1, 0.1, 0.1]), summarise([0.1, 0.1, 0.1])] },
    { chart: "xbar-s", subgroups: [summarise([0.1, 0.1, 0.1]), summarise([0.2, 0.2, 0.2, 0.2])] },
    { chart: "i-mr", subgroups: singles([5, 5, 5]) },
    { chart: "i-mr", subgroups: singles([5, 5, 5, 6]), estimator: "median-moving-range" },
  ])("no variation at this resolution is named: $chart", (request) => {
    expect(estimateLimits(request)).toEqual({ ok: false, problem: { code: "no-variation" } });
  });

  test.each<[string, unknown]>([
    ["estimator", { chart: "xbar-r", subgroups: two, estimator: "mean-sd" }],
    ["estimator", { chart: "xbar-r", subgroups: [...two, summarise([1, 2, 3])], estimator: "mean-range" }],
    ["estimator", { chart: "i-mr", subgroups: singles([1, 2]), estimator: "mean-range" }],
    ["chart", { chart: "pie", subgroups: two }],
    ["subgroups[0].size", { chart: "i-mr", subgroups: two }],
    ["subgroups[1].size", { chart: "xbar-r", subgroups: [two[0], { size: 1.5, mean: 1, range: 1, sd: 1 }] }],
    ["mean", { chart: "xbar-r", subgroups: [{ size: 2, mean: Number.NaN, range: 1, sd: 1 }] }],
    ["n", { chart: "xbar-r", subgroups: [1, 2].map(() => ({ size: 1001, mean: 1, range: 1, sd: 1 })) }],
  ])("a broken %s is refused by name", (field, request) => {
    expect(() => estimateLimits(request as Request)).toThrow(
      expect.objectContaining({ name: "InvalidInput", field }),
    );
  });
});
