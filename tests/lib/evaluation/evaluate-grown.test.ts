import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { evaluate } from "../../../lib/evaluation/evaluate";
import { evaluateGrown } from "../../../lib/evaluation/evaluate-grown";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import { appended, grownSeries } from "../../../lib/measurements/grown";
import { sliced } from "../../../lib/measurements/order";
import type { MeasurementSeries } from "../../../lib/measurements/series";
import { runs } from "../../laws";
import { HOUR, START, seriesOf } from "../series-of";

const plan = {
  chart: "xbar-r" as const,
  subgroupSize: 2,
  rules: ["beyond-3s", "nine-one-side", "six-trend"],
  tolerance: { lower: 9, upper: 11 },
  target: 10,
  naturalBound: null,
  reduction: null,
};
const frozen = {
  version: 1,
  effectiveFrom: START + 30 * HOUR,
  chart: "xbar-r" as const,
  centre: 10,
  sigma: 0.1,
  estimator: "mean-range" as const,
};
const trial: EvaluationSetup = { plan, unit: "mm", versions: [], exclusions: [] };

/** What is judged and told; how it was formed is kept besides only by who starts from the beginning. */
function told({ formed: { count, start, order }, ...rest }: Evaluation) {
  return { ...rest, formed: { count, start, order } };
}

describe("law: a history that grew is judged as if it had always been there", () => {
  const setups: Record<string, EvaluationSetup> = {
    "trial limits": trial,
    "single readings with trial limits": { ...trial, plan: { ...plan, chart: "i-mr", subgroupSize: 1 } },
    "limits that take over later, and subgroups left out": {
      ...trial,
      versions: [frozen, { ...frozen, version: 2, effectiveFrom: START + 90 * HOUR, centre: 10.02 }],
      exclusions: [{ from: START + 40 * HOUR, to: START + 44 * HOUR, cause: "chips" }],
    },
    "threes, reduced to 20 °C, watched by sums": {
      ...trial,
      plan: {
        ...plan,
        subgroupSize: 3,
        reduction: { length: 400, expansion: 11.5e-6 },
        alsoWatch: { kind: "cusum", reference: 0.5, decisionInterval: 2, headStart: 1 },
      },
    },
    "counts on samples of many sizes": {
      ...trial,
      plan: { ...plan, chart: "i-mr", subgroupSize: 1, counts: { chart: "p", size: 50 } },
      unit: "none",
    },
  };

  test.each(Object.entries(setups))("%s", (_, setup) => {
    const isCount = setup.plan.counts !== undefined;
    const reading = fc.integer({ min: -40, max: 40 });
    const parts = fc.array(fc.integer({ min: 0, max: 40 }), { minLength: 1, maxLength: 4 });
    fc.assert(
      fc.property(fc.array(reading, { minLength: 60, maxLength: 160 }), parts, (steps, sizes) => {
        const values = steps.map((step) => (isCount ? Math.abs(step) % 12 : 10 + step / 100));
        const whole = seriesOf(values);
        for (let i = 0; i < whole.count; i++) whole.partTemp[i] = i % 3 === 0 ? Number.NaN : 20 + (i % 7);
        if (isCount)
          whole.inspected = Float64Array.from(values, (_, i) => [Number.NaN, 40, 60, 50][i % 4] as number);
        let at = Math.max(0, whole.count - sizes.reduce((sum, size) => sum + size, 0));
        let series: MeasurementSeries = sliced(whole, 0, at);
        let evaluation = evaluate(series, setup);
        const before = structuredClone(told(evaluation));
        const first = evaluation;
        for (const size of sizes) {
          const to = Math.min(whole.count, at + size);
          series = grownSeries(series, sliced(whole, at, to));
          at = to;
          const grown = evaluateGrown(evaluation, series, setup);
          const anew = evaluate(series, setup);
          if (grown) expect(told(grown)).toEqual(told(anew));
          evaluation = grown ?? anew;
        }
        expect(told(first)).toEqual(before);
      }),
      { numRuns: runs(25) },
    );
  });
});

test("goes on once limits are settled, and not where labels may join a judged subgroup", () => {
  const values = Array.from({ length: 60 }, (_, i) => 10 + (i % 5) / 100);
  const whole = seriesOf(values);
  const goesOn = (from: number, series = whole) =>
    evaluateGrown(evaluate(sliced(series, 0, from), trial), series, trial) !== null;
  // 25 subgroups of two.
  expect(goesOn(48)).toBe(false);
  expect(goesOn(50)).toBe(true);
  expect(goesOn(50, seriesOf(values, { subgroup: values.map((_, i) => (i < 58 ? 0 : 1)) }))).toBe(false);
  expect(goesOn(50, seriesOf(values, { subgroup: values.map((_, i) => (i < 40 ? 0 : 1)) }))).toBe(false);
});

test("a column grows in place behind its end, and apart where another has grown there", () => {
  const own = Float64Array.of(1, 2, 3);
  const first = appended(own.subarray(0, 2), [7]);
  expect([...own]).toEqual([1, 2, 3]);
  expect([...first]).toEqual([1, 2, 7]);
  const second = appended(first, [8, 9]);
  expect(second.buffer).toBe(first.buffer);
  const other = appended(first, [5]);
  expect(other.buffer).not.toBe(first.buffer);
  expect([...first, ...second, ...other]).toEqual([1, 2, 7, 1, 2, 7, 8, 9, 1, 2, 7, 5]);
  const long = appended(second, new Float64Array(1_000));
  expect(long).toHaveLength(1_005);
  expect([...second]).toEqual([1, 2, 7, 8, 9]);
});
