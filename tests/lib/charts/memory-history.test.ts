import fc from "fast-check";
import { expect, test } from "vitest";
import { memoryHistory } from "../../../lib/charts/memory-history";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { FeaturePlan, LimitsVersion, MemoryChart } from "../../../lib/plan/feature-plan";
import { HOUR, START, seriesOf } from "../series-of";

const plan: FeaturePlan = {
  chart: "i-mr",
  subgroupSize: 1,
  rules: ["beyond-3s"],
  tolerance: { lower: null, upper: null },
  target: null,
  naturalBound: null,
  reduction: null,
};

const version = (more: Partial<LimitsVersion>): LimitsVersion => ({
  version: 1,
  effectiveFrom: Number.MIN_SAFE_INTEGER,
  chart: "i-mr",
  centre: 0,
  sigma: 1,
  estimator: "mean-moving-range",
  ...more,
});

const anyChart = fc.constantFrom<MemoryChart>(
  { kind: "ewma", smoothing: 0.3, width: 1.5 },
  { kind: "cusum", reference: 0.25, decisionInterval: 2, headStart: 1 },
);

test("law: what the page draws is what was judged, over versions of limits and left-out points", () => {
  let signals = 0;
  fc.assert(
    fc.property(
      anyChart,
      fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 20, maxLength: 60 }),
      fc.nat({ max: 60 }),
      fc.nat({ max: 60 }),
      (alsoWatch, values, second, left) => {
        const evaluation = evaluate(seriesOf(values), {
          plan: { ...plan, alsoWatch },
          unit: "mm",
          versions: [version({}), version({ version: 2, effectiveFrom: START + second * HOUR, centre: 0.5 })],
          exclusions: [{ from: START + left * HOUR, to: START + (left + 1) * HOUR, cause: "test" }],
        });
        const drawn = memoryHistory(evaluation, alsoWatch).flatMap((point, at) =>
          point?.signal ? [[at, point.signal]] : [],
        );
        const judged = evaluation.signals.filter(({ chart }) => chart === "memory");
        signals += judged.length;
        expect(drawn).toEqual(judged.map(({ at, direction }) => [at, direction]));
      },
    ),
  );
  expect(signals).toBeGreaterThan(20);
});

test("a new version of the limits begins it anew", () => {
  const ewma: MemoryChart = { kind: "ewma", smoothing: 0.5, width: 3 };
  const evaluation = evaluate(seriesOf([1, 1, 1]), {
    plan,
    unit: "mm",
    versions: [version({}), version({ version: 2, effectiveFrom: START + 2 * HOUR })],
    exclusions: [],
  });
  // By hand: 0.5, 0.75, and anew 0.5.
  const smoothed = memoryHistory(evaluation, ewma).map((point) => point?.kind === "ewma" && point.smoothed);
  expect(smoothed).toEqual([0.5, 0.75, 0.5]);
});
