import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { attributeLimits } from "../../../lib/charts/attribute";
import { countLimits } from "../../../lib/limits/count-limits";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import { isOfPieces } from "../../../lib/plan/counts";
import { ATTRIBUTE_CHARTS, type CountPlan } from "../../../lib/plan/feature-plan";
import { summarise } from "../../../lib/subgroups/summarise";

const limitsOf = (plan: CountPlan, counts: readonly number[]) =>
  countLimits(
    plan,
    counts.map((count) => summarise([count])),
  );

test("by hand: 8 and 12 nonconforming of 100 each: centre 10, σ = √(10 · 0.9) = 3", () => {
  const found = limitsOf({ chart: "np", size: 100 }, [8, 12]);
  expect(found).toMatchObject({ ok: true, value: { centre: 10, estimator: "binomial", chart: "i-mr" } });
  expect(found.ok && found.value.sigma).toBeCloseTo(3, 14);
});

test("c̄ = 16, so σ = 4: NIST/SEMATECH e-Handbook 6.3.3.1, wafer counts: centre 16, limits 4 and 28 (from memory)", () => {
  const found = limitsOf({ chart: "c", size: 1 }, [12, 20, 16]);
  if (!found.ok) throw new Error(found.problem.code);
  expect(limitsForSize(found.value, 1).location).toEqual({ lower: 4, centre: 16, upper: 28 });
});

test("law: limits at 3 sigma are those of the attribute chart, but for where it cuts them", () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...ATTRIBUTE_CHARTS),
      fc.integer({ min: 20, max: 500 }),
      fc.array(fc.integer({ min: 1, max: 19 }), { minLength: 2, maxLength: 30 }),
      (chart, size, counts) => {
        const found = limitsOf({ chart, size }, counts);
        if (!found.ok) throw new Error(found.problem.code);
        const { location } = limitsForSize(found.value, 1);
        const scale = chart === "p" || chart === "u" ? size : 1;
        const { threeSigma } = attributeLimits(chart, { rate: found.value.centre / size, size });
        expect(Math.max(0, location.lower)).toBeCloseTo(threeSigma.lower * scale, 9);
        const most = isOfPieces(chart) ? size : Number.POSITIVE_INFINITY;
        expect(Math.min(most, location.upper)).toBeCloseTo(threeSigma.upper * scale, 9);
      },
    ),
  );
});

describe("edge", () => {
  test("one sample, nothing found, and every piece nonconforming", () => {
    const plan: CountPlan = { chart: "p", size: 5 };
    expect(limitsOf(plan, [1])).toMatchObject({ ok: false, problem: { code: "too-few-subgroups" } });
    expect(limitsOf(plan, [0, 0])).toEqual({ ok: false, problem: { code: "no-variation" } });
    expect(limitsOf(plan, [5, 5])).toEqual({ ok: false, problem: { code: "no-variation" } });
  });

  test("half a piece, and more than were looked at", () => {
    expect(() => limitsOf({ chart: "np", size: 5 }, [1, 0.5])).toThrow(/samples\[1\]\.count/);
    expect(() => limitsOf({ chart: "np", size: 5 }, [6, 1])).toThrow(/samples\[0\]\.count/);
  });
});
