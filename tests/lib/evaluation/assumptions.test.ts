import { describe, expect, test } from "vitest";
import { chartAssumptions, isCorrelated, neighboursOf } from "../../../lib/evaluation/assumptions";
import { estimatorFault, estimatorsFor } from "../../../lib/evaluation/estimator-choice";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import type { FeaturePlan } from "../../../lib/plan/feature-plan";
import { randomStream } from "../../../lib/random/random-stream";
import beam from "../../reference/beam-deflection.json";
import heat from "../../reference/heat-flow-meter.json";
import { seriesOf } from "../series-of";

const plan: FeaturePlan = {
  chart: "i-mr",
  subgroupSize: 1,
  rules: ["beyond-3s"],
  tolerance: { lower: null, upper: null },
  target: null,
  naturalBound: null,
  reduction: null,
};
const setupOf = (changed: Partial<FeaturePlan> = {}): EvaluationSetup => ({
  plan: { ...plan, ...changed },
  unit: "none",
  versions: [],
  exclusions: [],
});

function standingOf(values: readonly number[], setup = setupOf()) {
  const found = chartAssumptions(evaluate(seriesOf(values), setup), setup);
  return found.map(({ holds }) => holds);
}

describe("what a chart takes for granted", () => {
  test(`published: ${heat.source}: independent and normal, as the handbook finds`, () => {
    // Its lag-1 correlation of 0.28 in 195 readings is beyond ±0.14, which the handbook calls mild; the test says so.
    const [enough, , normal] = standingOf(heat.data.values);
    expect([enough, normal]).toEqual([true, true]);
  });

  test(`published: ${beam.source}: not independent, not normal`, () => {
    const [enough, independent, normal] = standingOf(beam.data.values);
    expect([enough, independent, normal]).toEqual([true, false, false]);
  });

  test("5 readings are too few for limits that stay", () => {
    expect(standingOf([1, 2, 1, 3, 2])[0]).toBe(false);
  });

  test("Poisson counts scatter as they should; clustered ones do not, and counts all alike neither", () => {
    const counts = setupOf({ counts: { chart: "c", size: 1 } });
    const random = randomStream(5, "counts");
    // Sums of 400 events of chance 1/100 each: Poisson with a mean of 4, to within 1 %.
    const plain = Array.from({ length: 60 }, () =>
      Array.from({ length: 400 }, () => random.uniform()).reduce((sum, one) => sum + (one < 0.01 ? 1 : 0), 0),
    );
    expect(standingOf(plain, counts)[2]).toBe(true);
    expect(
      standingOf(
        plain.map((count) => 4 * count),
        counts,
      )[2],
    ).toBe(false);
    expect(
      standingOf(
        plain.map((_, i) => 4 + (i % 2)),
        counts,
      )[2],
    ).toBe(false);
  });

  test("neighbours: a slow wave is correlated, an alternation is too, with r below 0", () => {
    const wave = neighboursOf(Array.from({ length: 60 }, (_, i) => Math.sin(i / 5)));
    expect(isCorrelated(wave) && wave.r > 0.9).toBe(true);
    const swing = neighboursOf(Array.from({ length: 60 }, (_, i) => (i % 2 === 0 ? 1 : -1)));
    expect(isCorrelated(swing) && swing.r < -0.9).toBe(true);
    expect(neighboursOf([1])).toBeNull();
  });
});

describe("estimators that a baseline allows", () => {
  const twos = { chart: "xbar-r", subgroupSize: 2 } as const;
  const all = { from: Number.NEGATIVE_INFINITY, to: Number.POSITIVE_INFINITY };

  function offered(columns: Parameters<typeof seriesOf>[1]) {
    const series = seriesOf([1, 2, 3, 4, 5, 6, 7], columns);
    const setup = setupOf(twos);
    const asked = { plan: setup.plan, series, ...all };
    return { evaluation: evaluate(series, setup), asked };
  }

  test("equal subgroups: the mean range first, no weighting; each a lot of its own: lot means as well", () => {
    const { evaluation, asked } = offered({ lot: [1, 1, 2, 2, 3, 3, 0] });
    expect(estimatorsFor(evaluation, asked)).toEqual(["mean-range", "pooled-sd", "between-lots"]);
    expect(estimatorFault(evaluation, { ...asked, estimator: "between-lots" })).toBeNull();
  });

  test("two subgroups of one lot, or a subgroup of two lots: no lot means, and why", () => {
    for (const lot of [
      [1, 1, 1, 1, 2, 2, 0],
      [1, 2, 3, 3, 4, 4, 0],
    ]) {
      const { evaluation, asked } = offered({ lot });
      expect(estimatorsFor(evaluation, asked)).not.toContain("between-lots");
      expect(estimatorFault(evaluation, { ...asked, estimator: "between-lots" })?.code).toBe(
        "estimator-lots",
      );
    }
  });

  test("unequal subgroups: weighted ranges first, no plain mean range", () => {
    const { evaluation, asked } = offered({ subgroup: [1, 1, 2, 2, 2, 3, 3] });
    expect(estimatorsFor(evaluation, asked)).toEqual(["weighted-range", "pooled-sd"]);
    expect(estimatorFault(evaluation, { ...asked, estimator: "mean-range" })?.code).toBe("estimator-unequal");
  });

  test("counts leave nothing to choose", () => {
    const { evaluation, asked } = offered({});
    const counted = { ...asked, plan: { ...plan, counts: { chart: "c", size: 1 } as const } };
    expect(estimatorsFor(evaluation, counted)).toEqual([]);
  });
});
