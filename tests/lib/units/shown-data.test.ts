import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { featureStudy, WHOLE_HISTORY } from "../../../lib/capability/feature-study";
import { histogram } from "../../../lib/capability/histogram";
import { MODEL_NAMES } from "../../../lib/capability/models/model";
import { studyDistribution } from "../../../lib/capability/study-distribution";
import { evaluate } from "../../../lib/evaluation/evaluate";
import { inDigits, withUnit } from "../../../lib/format/numbers";
import type { FeaturePlan, KnownUnit, LimitsVersion } from "../../../lib/plan/feature-plan";
import { RULES } from "../../../lib/rules/known-rules";
import { shownFeatureData, shownHistory, shownStanding } from "../../../lib/units/shown-feature";
import { shownHistogram, shownStudy } from "../../../lib/units/shown-study";
import { runs } from "../../laws";
import reference from "../../reference/capability.json";
import { seriesOf } from "../series-of";

const plan: FeaturePlan = {
  chart: "i-mr",
  subgroupSize: 1,
  rules: RULES.map(({ slug }) => slug),
  tolerance: { lower: 24.98, upper: 25.02 },
  target: 25,
  naturalBound: null,
  reduction: null,
};

const LIMITS: LimitsVersion = {
  version: 1,
  effectiveFrom: 0,
  chart: "i-mr",
  centre: 25,
  sigma: 0.004,
  estimator: "mean-moving-range",
};

function historyOf(values: readonly number[], unit: KnownUnit = "mm", own: Partial<FeaturePlan> = {}) {
  const feature = { unit, resolution: 0.001, nominal: 25, plan: { ...plan, ...own } };
  return {
    feature,
    series: seriesOf(values),
    setup: { plan: feature.plan, unit, versions: [LIMITS], exclusions: [] },
    limits: [LIMITS],
  };
}

describe("a feature shown in inches", () => {
  test("has every length of its plan in inches, by hand", () => {
    // 24.98/25.4 and 25/25.4; 0.001 mm is shown to 0.00001 in.
    const shown = shownFeatureData(historyOf([]).feature, "in");
    expect(shown).toMatchObject({ unit: "in", nominal: 25 / 25.4 });
    expect(shown.resolution).toBeCloseTo(1e-5, 18);
    expect(shown.plan.tolerance).toEqual({ lower: 24.98 / 25.4, upper: 25.02 / 25.4 });
    expect(shown.plan.target).toBe(25 / 25.4);
  });

  test("has its strip in inches, and its indices as they are", () => {
    const standing = { centre: 25.4, sigma: 0.0254, betweenLots: 0.0508, means: [50.8], ppk: 1.33 };
    expect(shownStanding(standing, "mm", "in")).toEqual({
      centre: 1,
      sigma: 0.001,
      betweenLots: 0.002,
      means: [2],
      ppk: 1.33,
    });
  });

  test("is the very same where nothing is to be converted", () => {
    const [length, angle] = [historyOf([25]), historyOf([25], "deg")];
    expect(shownHistory(length, "plan")).toBe(length);
    expect(shownHistory(length, "mm")).toBe(length);
    expect(shownHistory(angle, "in")).toBe(angle);
  });
});

describe("law: the chart says the same in any unit", () => {
  // Steps of a gauge about limits on its grid: readings on the centre line, on a limit and on the 1 and 2 sigma lines.
  const readings = fc.array(fc.integer({ min: -14, max: 14 }), { minLength: 30, maxLength: 80 });

  test.each(["in", "mm"] as const)("shown in %s: signals, points left of no limits, and z", (display) => {
    fc.assert(
      fc.property(readings, (steps) => {
        const own = historyOf(
          steps.map((step) => 25 + step / 1000),
          display === "in" ? "mm" : "in",
        );
        const shown = shownHistory(own, display);
        const [judged, again] = [evaluate(own.series, own.setup), evaluate(shown.series, shown.setup)];
        expect(again.signals).toEqual(judged.signals);
        expect(again.excursions).toEqual(judged.excursions);
      }),
      { numRuns: runs(60) },
    );
  });
});

describe("a capability study shown in inches", () => {
  type Case = {
    id: string;
    input: { values: number[] | null; lowerLimit: number | null; upperLimit: number | null };
  };
  const cases = (reference.cases as unknown as Case[]).filter(
    ({ input: { values, lowerLimit, upperLimit } }) =>
      values !== null &&
      values.length >= 20 &&
      Math.min(...values) > 0 &&
      lowerLimit !== null &&
      upperLimit !== null,
  );

  test("there are published readings to try it on", () => {
    expect(cases.length).toBeGreaterThan(0);
  });

  test.each(MODEL_NAMES)("law: by the %s model the curve lies over the same readings", (model) => {
    const { input } = cases[0]!;
    const tolerance = { lower: input.lowerLimit, upper: input.upperLimit };
    const { series, setup } = historyOf(input.values!, "mm", { tolerance, target: null });
    const own = featureStudy({
      series,
      setup: { ...setup, versions: [] },
      window: WHOLE_HISTORY,
      resolution: null,
      gaugeShare: null,
      confidence: 0.95,
      model,
    });
    const shown = shownStudy(own, "mm", "in");
    expect(shown.study.Ppk).toBe(own.study.Ppk);
    expect(shown.study.lowerBounds).toEqual(own.study.lowerBounds);
    expect(shown.study.mean).toBe(own.study.mean! / 25.4);
    const [curve, before] = [
      studyDistribution(shown.study, { naturalBound: null })!,
      studyDistribution(own.study, { naturalBound: null })!,
    ];
    for (const p of [0.00135, 0.1, 0.5, 0.9, 0.99865]) {
      expect(25.4 * curve.quantile(p)).toBeCloseTo(before.quantile(p), 8);
      // A density is per unit of length: 25.4 times as high per inch.
      expect(curve.density(curve.quantile(p)) / 25.4).toBeCloseTo(before.density(before.quantile(p)), 6);
    }
  });

  test("its gates say lengths as the page writes them, and bare where nobody says how", () => {
    // By hand: readings step by 0.001 mm, which are 0.00003937 in.
    const { series, setup } = historyOf([25.001, 25.002, 25.002, 25.003, 25.003, 25.004, 25.006, 25.001]);
    const input = {
      series,
      setup,
      window: WHOLE_HISTORY,
      resolution: 0.001,
      gaugeShare: null,
      confidence: 0.95,
    };
    const reasonOf = (study: ReturnType<typeof featureStudy>) =>
      study.study.gates.find(({ gate }) => gate === "resolution")!.reason;
    const lengthWords = (value: number) => withUnit(inDigits(value / 25.4, 4), "in");
    expect(reasonOf(featureStudy({ ...input, lengthWords }))).toMatch(/step by 0\.00003937\u00a0in,/);
    expect(reasonOf(featureStudy(input))).toMatch(/step by 0\.001,/);
  });

  test("its bins hold what they held: edges in inches, counts untouched", () => {
    const values = [25.001, 25.002, 25.002, 25.003, 25.003, 25.003, 25.004, 25.004, 25.005];
    const made = histogram({ values, resolution: 0.001, tolerance: plan.tolerance });
    if (!made.ok) throw new Error("no bins");
    const shown = shownHistogram(made.value, "mm", "in");
    expect(shown.bins.map(({ count }) => count)).toEqual(made.value.bins.map(({ count }) => count));
    shown.bins.forEach(({ from, to }, i) => {
      expect(from).toBe(made.value.bins[i]!.from / 25.4);
      expect(to).toBe(made.value.bins[i]!.to / 25.4);
    });
  });
});
