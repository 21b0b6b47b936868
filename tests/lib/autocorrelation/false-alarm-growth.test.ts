import { describe, expect, test } from "vitest";
import { falseAlarmGrowth, type SigmaSource } from "../../../lib/autocorrelation/false-alarm-growth";
import { RULE_SETS, ruleBySlug } from "../../../lib/rules/known-rules";
import charts from "../../reference/charts.json";

const simulation = { seed: 80, runs: 4_000 };
const rules = charts.autocorrelated.rules.map(ruleBySlug);
const LIMITS = RULE_SETS.LIMITS_ONLY.map(ruleBySlug);
const growth = (r: number, sigmaFrom: SigmaSource = "overall", of = rules) =>
  falseAlarmGrowth({ rules: of, r, sigmaFrom, simulation });

describe(`two simulations, ${charts.source}`, () => {
  test.each(charts.autocorrelated.cases)("four Western Electric rules with r = $r", (one) => {
    const { correlated, factor, standardError, independent } = growth(one.r);
    const error = Math.hypot(one.standardError, (correlated! * standardError!) / factor!);
    expect(Math.abs(correlated! - one.averageRunLength)).toBeLessThan(4 * error);
    expect(independent).toBeCloseTo(91.75077312834875, 8);
    expect(factor).toBeCloseTo(independent! / correlated!, 12);
  });
});

describe("law", () => {
  test("independent points: a factor of 1 within four standard errors", () => {
    const { factor, standardError } = growth(0);
    expect(Math.abs(factor! - 1)).toBeLessThan(4 * standardError!);
  });

  test("the more alike neighbours are, the more false alarms; limits drawn from neighbours make it worse", () => {
    const factors = [-0.4, 0, 0.4, 0.8].map((r) => growth(r).factor!);
    for (let i = 1; i < factors.length; i++) expect(factors[i]).toBeGreaterThan(factors[i - 1]!);
    expect(growth(0.4, "moving-range").factor).toBeGreaterThan(growth(0.4).factor!);
  });

  test("limits drawn in by alike neighbours: no sooner than independent points within such limits", () => {
    // 3√(1 − 0.5) = 2.12 sigma is passed with a chance of 0.034, by independent points once in 29.5. Alike
    // points stay inside together (Z. Šidák, Journal of the American Statistical Association 62 (1967) 626-633,
    // from memory), which can only put the first passage off.
    const { correlated, standardError, factor } = growth(0.5, "moving-range", LIMITS);
    expect(correlated!).toBeGreaterThan(29.5 - 4 * ((correlated! * standardError!) / factor!));
  });

  test("the seed decides", () => {
    expect(growth(0.3)).toEqual(growth(0.3));
    const other = falseAlarmGrowth({
      rules,
      r: 0.3,
      sigmaFrom: "overall",
      simulation: { seed: 81, runs: 4_000 },
    });
    expect(other.correlated).not.toBe(growth(0.3).correlated);
  });
});

test("the sentence has both rates and the factor", () => {
  const { sentence, factor, correlated } = growth(0.3);
  expect(sentence).toContain("r = 0.30");
  expect(sentence).toContain(`${factor!.toPrecision(2)} times`);
  expect(sentence).toContain(`one in ${Math.round(correlated!)} points instead of one in 92`);
});

test.each([
  ["r", { rules, r: 1, sigmaFrom: "overall" as const, simulation }],
  ["r", { rules, r: Number.NaN, sigmaFrom: "overall" as const, simulation }],
  ["sigmaFrom", { rules, r: 0.1, sigmaFrom: "guess" as SigmaSource, simulation }],
  ["rules.length", { rules: [], r: 0.1, sigmaFrom: "overall" as const, simulation }],
  ["simulation.runs", { rules, r: 0.1, sigmaFrom: "overall" as const, simulation: { seed: 1, runs: 0 } }],
])("refused: %s", (field, given) => {
  expect(() => falseAlarmGrowth(given)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
});
