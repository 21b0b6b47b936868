import { describe, expect, test } from "vitest";
import { lagOneAutocorrelation } from "../../../lib/autocorrelation/lag-one";
import { InvalidInput } from "../../../lib/checks";
import beam from "../../reference/beam-deflection.json";
import heatFlow from "../../reference/heat-flow-meter.json";

function rOf(values: readonly number[]): number {
  const result = lagOneAutocorrelation(values);
  if (!result.ok) throw new Error(result.problem.code);
  return result.value.r;
}

function printed(set: { printed: { name: string; printed: unknown }[] }, name: string): number {
  return Number(set.printed.find((one) => one.name === name)?.printed);
}

describe("lag-1 autocorrelation", () => {
  test("by hand: 1, 2, 3 has deviations −1, 0, 1", () => {
    // (−1·0 + 0·1) / 2 = 0.
    expect(rOf([1, 2, 3])).toBe(0);
    // −1, 1, −1, 1: three products of −1 over four squares; z = −0.75·√4.
    const swing = lagOneAutocorrelation([-1, 1, -1, 1]);
    expect(swing.ok && [swing.value.r, swing.value.z]).toEqual([-0.75, -1.5]);
  });

  test(`certified: ${beam.source}`, () => {
    // Certified to fifteen figures.
    expect(Math.abs(rOf(beam.data.values) - printed(beam, "certified r1"))).toBeLessThan(1e-14);
  });

  test(`published: ${heatFlow.source}`, () => {
    expect(Math.abs(rOf(heatFlow.data.values) - printed(heatFlow, "lag-1 autocorrelation"))).toBeLessThan(
      5e-4,
    );
  });

  test("law: origin, unit and direction of time do not matter", () => {
    const values = heatFlow.data.values;
    const r = rOf(values);
    expect(rOf(values.map((value) => 1000 - 25.4 * value))).toBeCloseTo(r, 10);
    expect(rOf([...values].reverse())).toBeCloseTo(r, 12);
  });

  test("edge: too few, all alike, not a number", () => {
    expect(lagOneAutocorrelation([1, 2])).toEqual({
      ok: false,
      problem: { code: "too-few-readings", needed: 3, got: 2 },
    });
    expect(lagOneAutocorrelation([5, 5, 5, 5])).toEqual({ ok: false, problem: { code: "no-variation" } });
    expect(() => lagOneAutocorrelation([1, 2, Number.NaN])).toThrow(InvalidInput);
  });
});
