import { describe, expect, test } from "vitest";
import { countedReadings } from "../../../lib/components/counted-readings";
import { lotSignals } from "../../../lib/components/lot-signals";
import { chanceWords, differenceWords } from "../../../lib/components/test-words";
import { sourceTests } from "../../../lib/components/variation";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import type { Exclusion } from "../../../lib/plan/feature-plan";
import { HOUR, START, seriesOf } from "../series-of";

function setup(exclusions: Exclusion[] = []): EvaluationSetup {
  return {
    plan: {
      chart: "xbar-r",
      subgroupSize: 2,
      rules: ["beyond-3s"],
      tolerance: { lower: null, upper: null },
      target: null,
      naturalBound: null,
      reduction: null,
    },
    unit: "mm",
    versions: [],
    exclusions,
  };
}

/** Lots of four readings in two subgroups: each lot's mean with ±0.1 about it. */
function lotsAt(means: readonly number[]) {
  const values = means.flatMap((mean) => [mean - 0.1, mean + 0.1, mean + 0.1, mean - 0.1]);
  return seriesOf(values, { lot: means.flatMap((_, i) => [i + 1, i + 1, i + 1, i + 1]) });
}

function signalsOf(means: readonly number[]) {
  const series = lotsAt(means);
  const evaluation = evaluate(series, setup());
  const { positions } = countedReadings(evaluation, { most: 1000 });
  const tests = sourceTests({ series, values: evaluation.values, positions });
  return lotSignals(evaluation, { series, positions, tests });
}

describe("nearly every lot signals", () => {
  test("by hand: ten lots by turns at 9 and 11, each far beyond limits of ± 0.38", () => {
    // R̄ = 0.2 in every subgroup, so 3σ̂/√2 = 3·0.2·(√π/2)/√2 = 0.376 about 10. The moving ranges of the
    // lots' means are all 2, so σ̂ = 2·√π/2 = √π and the limits are 10 ± 3√π.
    const found = signalsOf([9, 11, 9, 11, 9, 11, 9, 11, 9, 11]);
    expect(found).toMatchObject({ lots: 10, beyond: 10 });
    expect(found?.limits?.centre).toBeCloseTo(10, 12);
    expect(found?.limits?.upper).toBeCloseTo(10 + 3 * Math.sqrt(Math.PI), 12);
    expect(found?.limits?.lower).toBeCloseTo(10 - 3 * Math.sqrt(Math.PI), 12);
  });

  test("not for a few lots, for lots alike, or where the process has moved", () => {
    expect(signalsOf([9, 11, 9, 11])).toBeNull();
    expect(signalsOf([10, 10.01, 9.99, 10, 10.01, 9.99, 10, 10, 10.01, 10])).toBeNull();
    // Trial limits rest on the first 25 subgroups at 10; the 40 lots after them all lie above.
    expect(signalsOf([...Array(13).fill(10), ...Array(40).fill(12)])).toBeNull();
  });
});

describe("readings that count", () => {
  const series = lotsAt([10, 11, 12]);
  const subgroupEndsAt = (number: number) => START + (2 * number + 1) * HOUR;

  test("those of a left-out subgroup do not", () => {
    const left = [{ from: subgroupEndsAt(1), to: subgroupEndsAt(1), cause: "dropped" }];
    const { positions, subgroupOf } = countedReadings(evaluate(series, setup(left)), { most: 100 });
    expect([...positions]).toEqual([0, 1, 4, 5, 6, 7, 8, 9, 10, 11]);
    expect(subgroupOf[4]).toBe(2);
  });

  test("of a long history the latest whole subgroups", () => {
    const { positions } = countedReadings(evaluate(series, setup()), { most: 3 });
    expect([...positions]).toEqual([8, 9, 10, 11]);
  });
});

test("words for a p", () => {
  expect(differenceWords(0.0004)).toBe("differ by more than chance");
  expect(differenceWords(0.03)).toBe("probably differ");
  expect(differenceWords(0.3)).toBe("show no difference");
  expect(chanceWords(0.0004)).toBe("fewer than 1 in 1000 times");
  expect(chanceWords(0.025)).toBe("about 1 in 40 times");
  expect(chanceWords(0.55)).toBe("about 55 in 100 times");
});
