import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { normalQuantile } from "../../../lib/distributions/normal";
import { studentTCdf } from "../../../lib/distributions/student-t";
import {
  logBayesFactor,
  logMixture,
  logSumExp,
  normalScore,
  squaredScore,
} from "../../../lib/drift/bayes-factor";
import { factorise, solve } from "../../../lib/drift/cholesky";
import { middleOf } from "../../../lib/drift/middle";
import { shortTermSigma } from "../../../lib/drift/short-term-sigma";
import { type Strata, weighted } from "../../../lib/drift/strata";
import { readToolCode } from "../../../lib/drift/tool-code";
import { trimmedHalfSquare } from "../../../lib/drift/variance-ratios";
import { Random } from "../../drift/random";

/** Two lots; cells of 2, 1 and 3 pieces, the first two in the first lot. */
const STRATA: Strata = {
  pieces: 6,
  lots: 2,
  cells: 3,
  cellStart: Int32Array.of(0, 2, 3, 6),
  lotCells: Int32Array.of(0, 2, 3),
};
const CELL_OF = [0, 0, 1, 2, 2, 2];
const LOT_OF = [0, 0, 0, 1, 1, 1];

/** V times a vector, straight from its definition. */
function covariance(vector: ArrayLike<number>, { lot, cell }: { lot: number; cell: number }): number[] {
  return CELL_OF.map((_, i) =>
    CELL_OF.reduce((sum, __, j) => {
      const entry =
        (i === j ? 1 : 0) + (CELL_OF[i] === CELL_OF[j] ? cell : 0) + (LOT_OF[i] === LOT_OF[j] ? lot : 0);
      return sum + entry * vector[j]!;
    }, 0),
  );
}

describe("weighing by how much lots and cells differ", () => {
  test("law: V times V⁻¹u is u, whatever the ratios", () => {
    const number = fc.double({ min: -5, max: 5, noNaN: true });
    const ratio = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(fc.array(number, { minLength: 6, maxLength: 6 }), ratio, ratio, (u, lot, cell) => {
        const out = new Float64Array(6);
        weighted(STRATA, { lot, cell }, Float64Array.from(u), out);
        for (const [i, value] of covariance(out, { lot, cell }).entries())
          expect(value).toBeCloseTo(u[i]!, 9);
      }),
    );
  });

  test("law: with an infinite lot ratio a shift of a whole lot counts for nothing", () => {
    const out = new Float64Array(6);
    weighted(STRATA, { lot: Number.POSITIVE_INFINITY, cell: 0.3 }, Float64Array.of(4, 4, 4, -7, -7, -7), out);
    for (const value of out) expect(value).toBeCloseTo(0, 12);
  });

  test("by hand: without lots and cells nothing changes", () => {
    const out = new Float64Array(6);
    weighted(STRATA, { lot: 0, cell: 0 }, Float64Array.of(1, 2, 3, 4, 5, 6), out);
    expect([...out]).toEqual([1, 2, 3, 4, 5, 6]);
  });
});

describe("solving for the static offsets", () => {
  test("by hand: 2x + y = 5, x + 3y = 10 has x = 1, y = 3", () => {
    const triangle = factorise(Float64Array.of(2, 1, 1, 3), 2, { tolerance: 1e-9, floors: [0, 0] });
    const u = Float64Array.of(5, 10);
    solve(triangle, u);
    expect(u[0]).toBeCloseTo(1, 12);
    expect(u[1]).toBeCloseTo(3, 12);
  });

  test("edge: a column that repeats another is left out and gets no coefficient", () => {
    // The second column is the first once more.
    const gram = Float64Array.of(4, 4, 2, 4, 4, 2, 2, 2, 3);
    const triangle = factorise(gram, 3, { tolerance: 1e-9, floors: [0, 0, 0] });
    expect([...triangle.kept]).toEqual([1, 0, 1]);
    const u = Float64Array.of(6, 6, 5);
    solve(triangle, u);
    // 4a + 2c = 6, 2a + 3c = 5
    expect([...u]).toEqual([expect.closeTo(1, 12), 0, expect.closeTo(1, 12)]);
  });
});

describe("evidence of one feature", () => {
  test("by hand: no information is no evidence", () => expect(logBayesFactor(3, 0)).toBe(0));

  test("law: averaged over no change, the Bayes factor is 1", () => {
    // ∫ φ(z) BF(z) dz over ±12 by the trapezium rule, exact to many digits for so smooth an integrand.
    for (const g of [0.3, 4, 60]) {
      let sum = 0;
      const step = 0.001;
      for (let z = -14; z <= 14; z += step) {
        sum += (step * Math.exp(logBayesFactor(z, g) - 0.5 * z * z)) / Math.sqrt(2 * Math.PI);
      }
      expect(sum).toBeGreaterThan(g > 10 ? 0.9 : 0.999);
      expect(sum).toBeLessThan(1.001);
    }
  });

  test("law: the normal score has the tail of Student's t to 1 %, from 4 degrees of freedom on", () => {
    for (const freedom of [4, 12, 60]) {
      for (const t of [0.7, 2, 4]) {
        const exact = normalQuantile(studentTCdf(t, freedom));
        expect(Math.abs(normalScore(t, freedom) - exact)).toBeLessThan(0.01 * exact);
      }
    }
  });

  test("law: its square is the square, from shifts lost in the scatter to far ones", () => {
    for (const freedom of [4, 58, 3000]) {
      for (const t of [0, 1e-6, 0.1, 0.9, 1.1, 7, 38, 400]) {
        const score = normalScore(t, freedom);
        expect(Math.abs(squaredScore(t, freedom) - score * score)).toBeLessThanOrEqual(1e-14 * score * score);
      }
    }
  });

  test("by hand: mixtures and sums of logs, also where the exponential overflows", () => {
    expect(logMixture(0.2, Math.log(6))).toBeCloseTo(Math.log(2), 12);
    expect(logMixture(1, 3)).toBe(3);
    expect(logMixture(0.2, 2000)).toBeCloseTo(2000 + Math.log(0.2), 9);
    expect(logSumExp([Math.log(2), Math.log(3)])).toBeCloseTo(Math.log(5), 12);
    expect(logSumExp([5000, 5000])).toBeCloseTo(5000 + Math.LN2, 9);
    expect(logSumExp([])).toBe(Number.NEGATIVE_INFINITY);
  });
});

describe("scatter", () => {
  const differences = (values: readonly number[]) =>
    Float64Array.from(values.slice(1), (value, i) => Math.abs(value - values[i]!));

  test("law: consistent for normal data, blunders hardly matter", () => {
    const random = new Random(7);
    const values = Array.from({ length: 20_000 }, () => random.normal(3, 0.5));
    // Standard error of the estimate: 0.5 × √(about 1/n) = 0.4 %; the constant 1.93 has three figures.
    expect(shortTermSigma(differences(values), 0)!).toBeGreaterThan(0.493);
    expect(shortTermSigma(differences(values), 0)!).toBeLessThan(0.507);
    for (let i = 0; i < values.length; i += 200) values[i]! += 50;
    expect(shortTermSigma(differences(values), 0)!).toBeLessThan(0.53);
  });

  test("by hand: a coarse gauge takes the plain mean of squares, and never less than step/√6", () => {
    // Differences 0 and 1 step alternate: mean square 1/2, half of it 1/4.
    expect(shortTermSigma(Float64Array.of(0, 1, 0, 1, 0, 1), 1)).toBeCloseTo(0.5, 12);
    expect(shortTermSigma(Float64Array.of(0, 0, 0, 0, 0, 0), 1)).toBeCloseTo(Math.sqrt(1 / 6), 12);
    expect(shortTermSigma(Float64Array.of(1, 2, 3), 1)).toBeNull();
  });

  test("law: half the mean square successive difference is the variance, and a step adds almost nothing", () => {
    const random = new Random(11);
    const lots = Array.from({ length: 5000 }, () => random.normal());
    const steps = (shift: number) =>
      lots.slice(1).map((value, i) => value - lots[i]! + (i === 2000 ? shift : 0));
    // Mean of the smallest nine tenths of squared normal deviates: (0.9 − 2 · 1.645 · φ(1.645)) / 0.9 = 0.623, over
    // 0.67, is 0.93 in a long series; its standard error here is 0.025.
    expect(trimmedHalfSquare(steps(0))).toBeGreaterThan(0.85);
    expect(trimmedHalfSquare(steps(0))).toBeLessThan(1.01);
    expect(Math.abs(trimmedHalfSquare(steps(100)) - trimmedHalfSquare(steps(0)))).toBeLessThan(0.01);
  });

  test("law: the middle is what sorting finds, of few values and of many, and where most are equal", () => {
    const value = fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e6, max: 1e6 });
    const few = fc.array(value, { minLength: 1, maxLength: 60 });
    const long = { minLength: 256, maxLength: 700 };
    const many = fc.array(fc.oneof(value, fc.double({ noNaN: true, min: -1e-9, max: 1e-9 })), long);
    const equal = fc.array(fc.integer({ min: -2, max: 1 }), long);
    const far = fc.array(fc.constantFrom(-1e308, 0, 1, 2, 1e308), long);
    fc.assert(
      fc.property(fc.oneof(few, many, equal, far), (values) => {
        const sorted = [...values].sort((a, b) => a - b);
        const half = sorted.length >> 1;
        const expected = sorted.length % 2 === 1 ? sorted[half]! : sorted[half - 1]! / 2 + sorted[half]! / 2;
        expect(Math.abs(middleOf(values) - expected)).toBeLessThanOrEqual(
          1e-15 * Math.abs(expected) + 1e-300,
        );
      }),
    );
  });
});

test("by hand: a tool's code tells position and edge", () => {
  expect(readToolCode("T-114/3")).toEqual({ position: "T-114", edge: 3 });
  expect(readToolCode("T-114 / 12")).toEqual({ position: "T-114", edge: 12 });
  expect(readToolCode("T-114")).toEqual({ position: "T-114", edge: null });
  expect(readToolCode("A/B")).toEqual({ position: "A/B", edge: null });
});
