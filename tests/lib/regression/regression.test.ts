import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import type { Computed } from "../../../lib/computed";
import { leastSquares } from "../../../lib/regression/least-squares";
import { fitLine } from "../../../lib/regression/line";
import { modelOf } from "../../accuracy/table";
import strd from "../../reference/strd-regression.json";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

const sets = strd.data as unknown as Record<string, Parameters<typeof modelOf>[0]>;

const certified = (name: string): number[] => {
  const value = strd.printed.find((one) => one.name === name)!.printed;
  return (Array.isArray(value) ? value : [value]).map(Number);
};

describe(`published: ${strd.source}`, () => {
  // The passport asks for 1e-10 and for Longley 1e-8; these are the digits that doubles reach here.
  const digits: Record<string, number> = { Norris: 12, NoInt1: 14, Pontius: 11, Longley: 10 };

  test.each(Object.keys(sets))("%s", (name) => {
    const { y, columns } = modelOf(sets[name]!);
    const { coefficients, residualStandardDeviation, rSquared } = found(leastSquares(y, columns));
    const agree = (ours: number, theirs: number) =>
      expect(Math.abs(ours - theirs)).toBeLessThan(10 ** -digits[name]! * Math.abs(theirs));
    for (const [j, value] of certified(`${name} coefficients`).entries())
      agree(coefficients[j]!.estimate, value);
    for (const [j, value] of certified(`${name} standard errors`).entries())
      agree(coefficients[j]!.standardError, value);
    agree(residualStandardDeviation, certified(`${name} residual sd`)[0]!);
    agree(rSquared!, certified(`${name} R2`)[0]!);
  });
});

describe("the line", () => {
  test("by hand: 1, 3, 2 over 0, 1, 2", () => {
    // Slope ½, intercept 1.5; residuals −½, 1, −½: s² = 1.5 with one degree of freedom; se² of the slope 1.5/2.
    const { slope, intercept, residualStandardDeviation } = found(
      fitLine({ x: [0, 1, 2], y: [1, 3, 2], confidence: 0.95 }),
    );
    expect(slope.estimate).toBeCloseTo(0.5, 13);
    expect(intercept.estimate).toBeCloseTo(1.5, 13);
    expect(residualStandardDeviation).toBeCloseTo(Math.sqrt(1.5), 13);
    expect(slope.standardError).toBeCloseTo(Math.sqrt(0.75), 13);
    // With one degree of freedom P(|T| > t) = 1 − 2 atan(t)/π.
    expect(slope.p).toBeCloseTo(1 - (2 / Math.PI) * Math.atan(0.5 / Math.sqrt(0.75)), 12);
  });

  test("law: a shift and a scale of y and x move slope and intercept as they must", () => {
    const x = [3, 1, 4, 1.5, 9, 2.6];
    const y = [2, 7, 1, 8, 2.8, 1.8];
    const one = found(fitLine({ x, y, confidence: 0.9 }));
    const moved = found(
      fitLine({ x: x.map((v) => 10 * v + 5), y: y.map((v) => 3 * v - 2), confidence: 0.9 }),
    );
    expect(moved.slope.estimate).toBeCloseTo(0.3 * one.slope.estimate, 12);
    expect(moved.slope.t).toBeCloseTo(one.slope.t!, 10);
    expect(moved.rSquared).toBeCloseTo(one.rSquared!, 12);
  });

  test("edge: too few, one x only, equal columns, y all alike", () => {
    expect(fitLine({ x: [1, 2], y: [1, 2], confidence: 0.95 })).toEqual({
      ok: false,
      problem: { code: "too-few-readings", needed: 3, got: 2 },
    });
    expect(fitLine({ x: [1, 1, 1], y: [1, 2, 3], confidence: 0.95 }).ok).toBe(false);
    expect(
      leastSquares(
        [1, 2, 3, 5],
        [
          [1, 2, 3, 4],
          [2, 4, 6, 8],
        ],
      ),
    ).toEqual({ ok: false, problem: { code: "no-variation" } });
    expect(leastSquares([1, 2, 3], [[0, 0, 0]]).ok).toBe(false);
    expect(found(fitLine({ x: [1, 2, 3], y: [4, 4, 4], confidence: 0.95 })).rSquared).toBeNull();
  });
});

describe("bad input", () => {
  test.each([
    ["no columns", () => leastSquares([1], [])],
    ["lengths that differ", () => leastSquares([1, 2], [[1]])],
    ["a number that is none", () => leastSquares([1, Number.NaN, 3], [[1, 2, 3]])],
    ["certainty", () => fitLine({ x: [1, 2, 3], y: [1, 2, 3], confidence: 1 })],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
