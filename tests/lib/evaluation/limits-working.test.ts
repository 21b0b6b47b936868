import { describe, expect, test } from "vitest";
import { evaluate } from "../../../lib/evaluation/evaluate";
import { limitsWorking } from "../../../lib/evaluation/limits-working";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import { suggestedBaseline } from "../../../lib/evaluation/suggested-baseline";
import { FROM_THE_START } from "../../../lib/evaluation/trial-limits";
import { ESTIMATORS } from "../../../lib/limits/estimators";
import type { FeaturePlan } from "../../../lib/plan/feature-plan";
import { estimators } from "../../../lib/words/en/estimators";
import { HOUR, START, seriesOf } from "../series-of";

const plan: FeaturePlan = {
  chart: "xbar-r",
  subgroupSize: 2,
  rules: ["beyond-3s"],
  tolerance: { lower: null, upper: null },
  target: null,
  naturalBound: null,
  reduction: null,
};

function setup(more: Partial<EvaluationSetup> = {}, changed: Partial<FeaturePlan> = {}): EvaluationSetup {
  return { plan: { ...plan, ...changed }, unit: "mm", versions: [], exclusions: [], ...more };
}

/** Means 11, 13, 12, 14; ranges 2, 2, 4, 4. */
const READINGS = [10, 12, 12, 14, 10, 14, 12, 16];

/** R̄ = 2 of the first two subgroups; d2 of two is 2/√π, so σ̂ = √π about 12. */
const FROZEN = {
  version: 1,
  effectiveFrom: FROM_THE_START,
  chart: "xbar-r" as const,
  centre: 12,
  sigma: Math.sqrt(Math.PI),
  estimator: "mean-range",
};
const BASELINE = { version: 1, baselineFrom: START, baselineTo: START + 3 * HOUR };

function working(given: EvaluationSetup, readings = READINGS) {
  return limitsWorking(evaluate(seriesOf(readings), given), { setup: given, frozen: [BASELINE] });
}

describe("frozen limits", () => {
  test("by hand: R̄ = 2 over d2 = 2/√π gives σ̂ = √π, as frozen", () => {
    const found = working(setup({ versions: [FROZEN] }));
    expect(found).toMatchObject({
      isTrial: false,
      window: { from: 0, to: 1 },
      subgroups: 2,
      readings: 4,
      sizes: [{ size: 2, subgroups: 2 }],
      agrees: true,
    });
    expect(found?.quotient?.spread).toBeCloseTo(2, 14);
    expect(found?.quotient?.divisor).toBeCloseTo(2 / Math.sqrt(Math.PI), 13);
  });

  test("an exclusion in the baseline that came later no longer agrees", () => {
    const exclusions = [{ from: START + 3 * HOUR, to: START + 3 * HOUR, cause: "chips on the stop" }];
    expect(working(setup({ versions: [FROZEN], exclusions }))).toMatchObject({
      subgroups: 1,
      agrees: false,
      quotient: null,
    });
  });

  test("another chart in the plan: the baseline cannot be taken again", () => {
    const found = working(setup({ versions: [FROZEN] }, { chart: "i-mr", subgroupSize: 1 }));
    expect(found).toMatchObject({ today: null, agrees: false });
  });
});

describe("trial limits", () => {
  test("by hand: all four subgroups, R̄ = 3", () => {
    const found = working(setup());
    expect(found).toMatchObject({ isTrial: true, window: { from: 0, to: 3 }, subgroups: 4, agrees: true });
    expect(found?.quotient?.spread).toBeCloseTo(3, 14);
    expect(found?.version.sigma).toBeCloseTo((3 * Math.sqrt(Math.PI)) / 2, 12);
  });

  test("single readings: 10, 12, 11, 13 have MR̄ = 5/3", () => {
    const found = working(setup({}, { chart: "i-mr", subgroupSize: 1 }), [10, 12, 11, 13]);
    expect(found?.quotient?.spread).toBeCloseTo(5 / 3, 14);
    expect(found).toMatchObject({ estimator: "mean-moving-range", agrees: true });
  });

  test("none without variation or without subgroups", () => {
    expect(working(setup(), [10, 10, 10, 10])).toBeNull();
    expect(working(setup(), [])).toBeNull();
  });
});

test("every quotient's formula names the spread it divides", () => {
  for (const estimator of ESTIMATORS) {
    const { formula, quotient } = estimators.within[estimator];
    if (quotient) expect(formula).toContain(`σ̂ = ${quotient.spread} / `);
    else expect(formula).toContain("Σ");
  }
});

describe("a baseline to begin with", () => {
  const excluded = new Uint8Array(60);
  excluded.set([1, 1], 3);

  test("the first 25 that count, or the latest once limits are frozen", () => {
    expect(suggestedBaseline({ count: 60, excluded }, { isFirst: true })).toEqual({ from: 0, to: 26 });
    expect(suggestedBaseline({ count: 60, excluded }, { isFirst: false })).toEqual({ from: 35, to: 59 });
  });

  test("what there is of a short history, nothing of none", () => {
    expect(suggestedBaseline({ count: 4, excluded }, { isFirst: true })).toEqual({ from: 0, to: 2 });
    expect(suggestedBaseline({ count: 0, excluded }, { isFirst: true })).toBeNull();
  });
});
