import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import type { Computed } from "../../../lib/computed";
import { biasOf } from "../../../lib/measurement-systems/bias";
import { linearityStudy } from "../../../lib/measurement-systems/linearity";
import { errorAgainstTolerance, permissibleError } from "../../../lib/measurement-systems/permissible-error";
import { setupVariation } from "../../../lib/measurement-systems/setup-variation";
import { typeOneStudy } from "../../../lib/measurement-systems/type-one";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

describe("type 1 and bias", () => {
  test("by hand: 1, 2, 3 about 1.5 with a tolerance of 30", () => {
    // s = 1, bias ½; Cg = 6/6, Cgk = (3 − ½)/3; t = ½·√3.
    const study = found(
      typeOneStudy([1, 2, 3], {
        reference: 1.5,
        toleranceWidth: 30,
        resolution: null,
        share: 0.2,
        width: 6,
        confidence: 0.95,
      }),
    );
    expect([study.Cg, study.bias, study.percentResolution]).toEqual([1, 0.5, null]);
    expect(study.Cgk).toBeCloseTo(2.5 / 3, 14);
    expect(study.t).toBeCloseTo(0.5 * Math.sqrt(3), 14);
  });

  test("edge: readings all alike have no t, and no Cg", () => {
    expect(found(biasOf([2, 2], { reference: 1, confidence: 0.9 }))).toMatchObject({
      bias: 1,
      t: null,
      p: null,
    });
    expect(
      typeOneStudy([2, 2], {
        reference: 1,
        toleranceWidth: 1,
        resolution: 0.1,
        share: 0.2,
        width: 4,
        confidence: 0.9,
      }).ok,
    ).toBe(false);
    expect(biasOf([2], { reference: 1, confidence: 0.9 }).ok).toBe(false);
  });
});

describe("linearity", () => {
  test("by hand: deviations that grow by 0.1 per mm", () => {
    const study = found(
      linearityStudy(
        [
          { reference: 10, deviations: [1] },
          { reference: 20, deviations: [2] },
          { reference: 30, deviations: [3.3] },
        ],
        { confidence: 0.95 },
      ),
    );
    // Slope (3.3 − 1)/20 = 0.115; the mean deviation is 2.1 at 20 mm.
    expect(study.line.slope.estimate).toBeCloseTo(0.115, 12);
    expect(study.fitted[1]!.bias).toBeCloseTo(2.1, 12);
    expect(study.pieces).toEqual([null, null, null]);
    expect(study.isFree).toBe(false);
  });
});

describe("maximum permissible error", () => {
  test("by hand: 1.7 + L/300 at 300 mm is 2.7 µm", () => {
    expect(permissibleError({ A: 1.7, K: 300 }, 300)).toBeCloseTo(0.0027, 15);
    expect(permissibleError({ A: 2, K: Number.POSITIVE_INFINITY }, 5000)).toBe(0.002);
  });

  test("by hand: 3 µm on a tolerance of 60 µm take a tenth; u = 3/√3 µm, ratio 60/(4u)", () => {
    const seen = errorAgainstTolerance({
      stated: { A: 3, K: Number.POSITIVE_INFINITY },
      length: 100,
      toleranceWidth: 0.06,
      further: 0,
    });
    expect(seen.share).toBeCloseTo(0.1, 14);
    expect(seen.testUncertaintyRatio).toBeCloseTo(0.06 / ((4 * 0.003) / Math.sqrt(3)), 12);
    const more = errorAgainstTolerance({
      stated: { A: 3, K: Number.POSITIVE_INFINITY },
      length: 100,
      toleranceWidth: 0.06,
      further: 0.001,
    });
    // u² = 3 + 1 µm².
    expect(more.standardUncertainty).toBeCloseTo(0.002, 15);
  });
});

describe("setting up anew", () => {
  test("by hand: three setups of two readings, {1, 3}, {7, 9}, {4, 6}", () => {
    // Means 2, 8, 5: MS setup 2·18/2 = 18, MS within 2. Component (18 − 2)/2 = 8.
    const seen = found(
      setupVariation({
        values: [1, 3, 7, 9, 4, 6],
        setups: [1, 1, 2, 2, 3, 3],
        pieces: null,
        confidence: 0.95,
      }),
    );
    expect(seen.setup).toBeCloseTo(Math.sqrt(8), 12);
    expect(seen.repeatability).toBeCloseTo(Math.sqrt(2), 12);
    expect(seen.share).toBeCloseTo(0.8, 12);
    expect(seen.setups).toBe(3);
    expect(seen.setupVarianceInterval![0]).toBeLessThan(8);
    expect(seen.setupVarianceInterval![1]).toBeGreaterThan(8);
  });

  test("pieces do not count as setups; one constant piece is none", () => {
    const values = [1, 3, 7, 9, 101, 103, 107, 109];
    const setups = [1, 1, 2, 2, 1, 1, 2, 2];
    const seen = found(
      setupVariation({ values, setups, pieces: [1, 1, 1, 1, 2, 2, 2, 2], confidence: 0.95 }),
    );
    // In each piece the setups' means differ by 6: MS 2·18 = 36 with two degrees of freedom, MS within 2.
    expect(seen.setup).toBeCloseTo(Math.sqrt(17), 12);
    const single = { values: [1, 3, 7, 9], setups: [1, 1, 2, 2], confidence: 0.95 };
    expect(setupVariation({ ...single, pieces: [5, 5, 5, 5] })).toEqual(
      setupVariation({ ...single, pieces: null }),
    );
  });

  test("edge: one setup; nothing repeats; unequal numbers have no interval", () => {
    expect(setupVariation({ values: [1, 2], setups: [1, 1], pieces: null, confidence: 0.95 }).ok).toBe(false);
    expect(setupVariation({ values: [1, 2, 3], setups: [1, 2, 3], pieces: null, confidence: 0.95 }).ok).toBe(
      false,
    );
    const uneven = found(
      setupVariation({ values: [1, 2, 3, 8, 9], setups: [1, 1, 1, 2, 2], pieces: null, confidence: 0.95 }),
    );
    expect(uneven.setupVarianceInterval).toBeNull();
  });
});

describe("bad input", () => {
  test.each([
    ["certainty", () => biasOf([1, 2], { reference: 0, confidence: 1 })],
    [
      "a share of 0",
      () =>
        typeOneStudy([1, 2], {
          reference: 0,
          toleranceWidth: 1,
          resolution: null,
          share: 0,
          width: 6,
          confidence: 0.95,
        }),
    ],
    [
      "a piece without readings",
      () => linearityStudy([{ reference: 1, deviations: [] }], { confidence: 0.95 }),
    ],
    ["a negative A", () => permissibleError({ A: -1, K: 300 }, 10)],
    ["a K of 0", () => permissibleError({ A: 1, K: 0 }, 10)],
    ["a negative length", () => permissibleError({ A: 1, K: 300 }, -10)],
    [
      "a tolerance of 0",
      () => errorAgainstTolerance({ stated: { A: 1, K: 300 }, length: 1, toleranceWidth: 0, further: 0 }),
    ],
    [
      "no confidence in a setup",
      () => setupVariation({ values: [1, 2], setups: [1, 2], pieces: null, confidence: 0 }),
    ],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
