import { describe, expect, test } from "vitest";
import { planGroups } from "../../../lib/alarm-budget/plan-groups";
import { ruleCost, SHIFTS_BESIDE_RULES } from "../../../lib/alarm-budget/rule-cost";
import { RULE_SETS, ruleBySlug } from "../../../lib/rules/known-rules";

const simulation = { seed: 9, runs: 500 };
const LIMITS = RULE_SETS.LIMITS_ONLY.map(ruleBySlug);
const WESTERN = RULE_SETS.WESTERN.map(ruleBySlug);

describe("what a rule set costs", () => {
  test("by hand: 3-sigma limits for means alone signal 2.6998 times in 1,000 by chance", () => {
    // 2(1 − Φ(3)) = 0.0026998. A subgroup of one has no spread to plot.
    const { perThousand } = ruleCost({ chart: "xbar-s", subgroupSize: 1, rules: LIMITS, simulation });
    expect(perThousand.value).toBeCloseTo(2.6998, 4);
    expect(perThousand.standardError).toBeNull();
  });

  test("Champ and Woodall (1987), from memory: 91.75 in control; 9.22 and 3.13 at 1 and 2 sigma", () => {
    const cost = ruleCost({ chart: "xbar-s", subgroupSize: 1, rules: WESTERN, simulation });
    expect(1000 / cost.perThousand.value).toBeCloseTo(91.75, 2);
    expect(cost.detection.map(({ shift }) => shift)).toEqual(SHIFTS_BESIDE_RULES);
    for (const [i, printed] of [9.22, 3.13].entries()) {
      expect(cost.detection[i]!.subgroups!.value).toBeCloseTo(printed, 2);
    }
  });

  test("law: a simulated cost says so, and its share of error is that of the run length", () => {
    const rules = RULE_SETS.NELSON.map(ruleBySlug);
    const { perThousand, detection } = ruleCost({ chart: "i-mr", subgroupSize: 1, rules, simulation });
    // Run lengths scatter about as much as their mean: 1/√500 = 4.5 % of it.
    expect(perThousand.standardError! / perThousand.value).toBeGreaterThan(0.03);
    expect(perThousand.standardError! / perThousand.value).toBeLessThan(0.06);
    expect(detection[0]!.subgroups!.standardError).toBeGreaterThan(0);
  });

  test("refused: no rule", () => {
    expect(() => ruleCost({ chart: "i-mr", subgroupSize: 1, rules: [], simulation })).toThrow(
      expect.objectContaining({ name: "InvalidInput", field: "rules.length" }),
    );
  });
});

test("features are grouped by chart, size and rules in whatever order these stand", () => {
  const of = (id: number, subgroupSize: number, ...rules: string[]) => ({
    id,
    plan: { chart: "xbar-r" as const, subgroupSize, rules },
  });
  const groups = planGroups([
    of(1, 5, "beyond-3s", "six-trend"),
    of(2, 4, "beyond-3s"),
    of(3, 5, "six-trend", "beyond-3s"),
  ]);
  expect(groups.map(({ key, features }) => [key, features.map(({ id }) => id)])).toEqual([
    ["xbar-r.5.beyond-3s.six-trend", [1, 3]],
    ["xbar-r.4.beyond-3s", [2]],
  ]);
});
