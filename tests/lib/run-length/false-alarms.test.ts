import { describe, expect, test } from "vitest";
import { gaussLegendre } from "../../../lib/constants/gauss-legendre";
import { relativeRange } from "../../../lib/constants/relative-range";
import { normalRangeTails } from "../../../lib/distributions/normal-range";
import { RULE_SETS, ruleBySlug } from "../../../lib/rules/known-rules";
import { runRule } from "../../../lib/rules/rule";
import { falseAlarms } from "../../../lib/run-length/false-alarms";
import { spreadBetween } from "../../../lib/run-length/spread-between";
import charts from "../../reference/charts.json";
import { casesOf } from "./cases";

const simulation = { seed: 3, runs: 3_000 };
const LIMITS = RULE_SETS.LIMITS_ONLY.map(ruleBySlug);
const WESTERN = RULE_SETS.WESTERN.map(ruleBySlug);

describe("the range of n normal readings", () => {
  test("by hand: two readings differ by a normal of variance 2", () => {
    // P(|X − Y| > √2 · 1.959963984540054) = 0.05, the two-sided point of the normal distribution.
    const { lower, upper } = normalRangeTails(Math.SQRT2 * 1.959963984540054, 2);
    expect(upper).toBeCloseTo(0.05, 14);
    expect(lower).toBeCloseTo(0.95, 14);
  });

  test("law: tails add up to 1, and the upper one to the mean range d2", () => {
    for (const n of [2, 5, 25, 200]) {
      for (const w of [0.5, 2, 4, 6]) {
        const { lower, upper } = normalRangeTails(w, n);
        expect(lower + upper).toBeCloseTo(1, 13);
      }
      const { points, weights } = gaussLegendre({ from: 0, to: 14, panels: 6 });
      const mean = points.reduce((sum, w, i) => sum + weights[i]! * normalRangeTails(w, n).upper, 0);
      expect(mean).toBeCloseTo(relativeRange(n).d2, 10);
    }
  });

  test("edge: nothing lies below 0; one reading has no range", () => {
    expect(normalRangeTails(-1, 3)).toEqual({ lower: 0, upper: 1 });
    expect(() => normalRangeTails(1, 1)).toThrow(
      expect.objectContaining({ name: "InvalidInput", field: "n" }),
    );
  });
});

describe("spread charts", () => {
  test.each(charts.spread)(`${charts.source}: subgroups of $size beyond 3 sigma`, (one) => {
    const outside = (chart: "xbar-r" | "xbar-s") => {
      const between = spreadBetween(chart, one.size);
      return between(-Infinity, -3) + between(3, Infinity);
    };
    // Those of the range are one minus an integral: good to some 1e-13.
    expect(Math.abs(outside("xbar-r") - one.rangeBeyond3Sigma)).toBeLessThan(1e-11);
    expect(outside("xbar-s") / one.deviationBeyond3Sigma).toBeCloseTo(1, 11);
  });

  test("law: what lies between cuts adds up to 1", () => {
    for (const chart of ["xbar-r", "xbar-s"] as const) {
      const between = spreadBetween(chart, 5);
      const cuts = [-Infinity, -3, -1, 0, 1, 3, Infinity];
      const sum = cuts.slice(1).reduce((total, cut, i) => total + between(cuts[i]!, cut), 0);
      expect(sum).toBeCloseTo(1, 13);
    }
  });
});

describe("false alarms of a feature", () => {
  test("limits only: rates of mean and spread add up, R and s exact", () => {
    const alarms = falseAlarms({ chart: "xbar-r", subgroupSize: 5, rules: LIMITS, simulation });
    const five = charts.spread.find(({ size }) => size === 5)!;
    expect(alarms.location.subgroups).toBeCloseTo(370.3983473449564, 8);
    expect(alarms.spread!.subgroups).toBeCloseTo(1 / five.rangeBeyond3Sigma, 6);
    expect(1 / alarms.together.subgroups!).toBeCloseTo(0.00269979606326 + five.rangeBeyond3Sigma, 10);
    expect(alarms.together.standardError).toBeNull();
  });

  test("single readings with their moving ranges: one chart, 105 readings", () => {
    const { together, spread } = falseAlarms({ chart: "i-mr", subgroupSize: 1, rules: LIMITS, simulation });
    const [one] = casesOf("individuals-moving-range-average-run-length");
    expect(together.subgroups! / one!.expected.averageRunLength![0]!).toBeCloseTo(1, 8);
    expect(spread!.method).toBe("integral-equation");
    expect(together.subgroups).toBeLessThan(spread!.subgroups!);
  });

  test("law: exact and simulated agree where the same rule is written so that it has no exact form", () => {
    // Two in a row beyond 9 sigma never happen; the rule only takes the short way away.
    const never = runRule({
      slug: "never",
      source: "common practice, no source",
      appliesToSpread: true,
      pattern: { kind: "zone", where: "beyond one side", distance: 9, count: 2, of: 2 },
    });
    const limits = { chart: "i-mr" as const, subgroupSize: 1, simulation };
    const exact = falseAlarms({ ...limits, rules: LIMITS });
    const drawn = falseAlarms({ ...limits, rules: [...LIMITS, never] });
    for (const part of ["spread", "together"] as const) {
      expect(drawn[part]!.method).toBe("simulation");
      const difference = Math.abs(drawn[part]!.subgroups! - exact[part]!.subgroups!);
      expect(difference, part).toBeLessThan(4 * drawn[part]!.standardError!);
    }

    const trend = runRule({
      slug: "long-trend",
      source: "common practice, no source",
      appliesToSpread: true,
      pattern: { kind: "trend", of: 28 },
    });
    for (const chart of ["xbar-r", "xbar-s"] as const) {
      const means = { chart, subgroupSize: 4, simulation };
      const chain = falseAlarms({ ...means, rules: WESTERN }).spread!;
      const tried = falseAlarms({ ...means, rules: [...WESTERN, trend] }).spread!;
      expect(tried.method).toBe("simulation");
      expect(Math.abs(tried.subgroups! - chain.subgroups!)).toBeLessThan(4 * tried.standardError!);
    }
  });

  test("more rules, more false alarms; eight on one side counts on the spread chart too", () => {
    const few = falseAlarms({ chart: "xbar-s", subgroupSize: 5, rules: LIMITS, simulation });
    const many = falseAlarms({ chart: "xbar-s", subgroupSize: 5, rules: WESTERN, simulation });
    expect(many.location.subgroups).toBeCloseTo(91.75077312834875, 8);
    expect(many.spread!.subgroups!).toBeLessThan(few.spread!.subgroups!);
    expect(many.together.subgroups!).toBeLessThan(few.together.subgroups!);
  });

  test("edge: subgroups of one on a chart of means have no spread; nor has a set of zone rules", () => {
    const one = falseAlarms({ chart: "xbar-r", subgroupSize: 1, rules: LIMITS, simulation });
    expect(one.spread).toBeNull();
    expect(one.together).toEqual(one.location);
    const zones = [ruleBySlug("two-of-three-2s")];
    expect(falseAlarms({ chart: "xbar-r", subgroupSize: 5, rules: zones, simulation }).spread).toBeNull();
  });

  test.each([
    ["subgroupSize", { chart: "i-mr" as const, subgroupSize: 2, rules: LIMITS, simulation }],
    ["subgroupSize", { chart: "xbar-r" as const, subgroupSize: 0, rules: LIMITS, simulation }],
    ["rules.length", { chart: "xbar-r" as const, subgroupSize: 5, rules: [], simulation }],
  ])("refused: %s", (field, question) => {
    expect(() => falseAlarms(question)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});
