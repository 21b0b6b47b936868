import { describe, expect, test } from "vitest";
import { lotMeans, lotsOf } from "../../../lib/charts/lot-means";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import gear from "../../reference/gear-diameter.json";
import { HOUR, START, seriesOf } from "../series-of";

const setup: EvaluationSetup = {
  plan: {
    chart: "i-mr",
    subgroupSize: 1,
    rules: ["beyond-3s"],
    tolerance: { lower: null, upper: null },
    target: null,
    naturalBound: null,
    reduction: null,
  },
  unit: "mm",
  versions: [],
  exclusions: [],
};

test("lots stand in the order in which they first appear, without what is left out or states no lot", () => {
  const series = seriesOf([1, 2, 3, 4, 5, 6], { lot: [7, 7, 3, 0, 3, 7] });
  const exclusions = [{ from: START + 5 * HOUR, to: START + 5 * HOUR, cause: "test" }];
  const lots = lotsOf(evaluate(series, { ...setup, exclusions }), series);
  expect(lots).toMatchObject([
    { id: 7, size: 2, mean: 1.5 },
    { id: 3, size: 2, mean: 4, lastAt: START + 4 * HOUR },
  ]);
});

test(`published: ${gear.source}: F = 2.2969 with 9 and 90 degrees of freedom`, () => {
  const series = seriesOf(gear.data.diameter, { lot: gear.data.batch });
  const found = lotMeans(lotsOf(evaluate(series, setup), series));
  if (!found.ok) throw new Error(found.problem.code);
  expect(found.value.test).toMatchObject({ numerator: 9, denominator: 90 });
  // Printed to four decimals.
  expect(Math.abs(found.value.test.F - 2.2969)).toBeLessThan(5e-5);
});

describe("edge", () => {
  const lot = (id: number, size: number, mean: number, sd: number) => ({
    id,
    size,
    mean,
    sd,
    range: sd,
    lastAt: 0,
  });

  test("no lot, one reading a lot, and nothing that varies within lots are told apart", () => {
    expect(lotMeans([])).toMatchObject({ problem: { code: "too-few-subgroups", got: 0 } });
    expect(lotMeans([lot(1, 1, 0, 0), lot(2, 1, 1, 0)])).toMatchObject({
      problem: { code: "too-few-readings" },
    });
    const alike = [1, 2, 3].map((id) => lot(id, 4, id, 0));
    expect(lotMeans(alike)).toMatchObject({ problem: { code: "no-variation" } });
  });
});
