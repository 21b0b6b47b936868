import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { logMixture, MixtureSums } from "../../../lib/drift/bayes-factor";
import { addProducts, coefficientsOf, columnsOf, generalised, leave } from "../../../lib/drift/columns";
import { type Strata, weighted } from "../../../lib/drift/strata";

/** Three lots; cells of 2, 2, 3, 1 and 2 pieces, two in each of the first two lots. */
const STRATA: Strata = {
  pieces: 10,
  lots: 3,
  cells: 5,
  cellStart: Int32Array.of(0, 2, 4, 7, 8, 10),
  lotCells: Int32Array.of(0, 2, 4, 5),
};
const CONSTANT = { of: new Int32Array(10), count: 1 };
const FIXTURES = { of: Int32Array.of(-1, -1, 0, 0, -1, -1, -1, 0, 1, 1), count: 2 };
const GAUGES = { of: Int32Array.of(0, -1, 0, -1, 0, 0, -1, -1, 0, -1), count: 1 };
const AGE = Float64Array.of(0, 0.1, 0.2, 0.3, 0, 0, 0.5, 0.6, 0, 0.8);

const COLUMNS = columnsOf(STRATA, [CONSTANT, FIXTURES, GAUGES], [AGE]);

/** The same columns written out. */
const WRITTEN_OUT = [
  Float64Array.from(CONSTANT.of, () => 1),
  Float64Array.from(FIXTURES.of, (one) => (one === 0 ? 1 : 0)),
  Float64Array.from(FIXTURES.of, (one) => (one === 1 ? 1 : 0)),
  Float64Array.from(GAUGES.of, (one) => (one === 0 ? 1 : 0)),
  AGE,
];

const number = fc.double({ min: -5, max: 5, noNaN: true });
const ratio = fc.double({ min: 0, max: 20, noNaN: true });
const pieces = fc.array(number, { minLength: 10, maxLength: 10 });

const product = (a: Float64Array, b: Float64Array) => a.reduce((sum, one, i) => sum + one * b[i]!, 0);

describe("columns kept as groups of indicators", () => {
  test("by hand: XᵀX counts the pieces that two columns share", () => {
    // Ten pieces; three in the first fixture, two in the second; five on the gauge, one of each fixture among them.
    const row = (k: number) => [...COLUMNS.products.subarray(5 * k, 5 * k + 4)];
    expect([row(0), row(1), row(2), row(3)]).toEqual([
      [10, 3, 2, 5],
      [3, 3, 0, 1],
      [2, 0, 2, 1],
      [5, 1, 1, 5],
    ]);
  });

  test("law: Xᵀv is that of the columns written out", () => {
    fc.assert(
      fc.property(pieces, (v) => {
        const out = new Float64Array(5);
        addProducts(COLUMNS, Float64Array.from(v), out);
        for (const [k, column] of WRITTEN_OUT.entries())
          expect(out[k]).toBeCloseTo(product(column, Float64Array.from(v)), 9);
      }),
    );
  });

  test("law: what is left over is orthogonal to every column, whatever the ratios", () => {
    fc.assert(
      fc.property(pieces, ratio, ratio, (v, lot, cell) => {
        const gls = generalised(STRATA, COLUMNS, { lot, cell });
        const residual = new Float64Array(10);
        leave(gls, Float64Array.from(v), residual);
        const out = new Float64Array(10);
        weighted(STRATA, { lot, cell }, residual, out);
        for (const column of WRITTEN_OUT) expect(product(column, out)).toBeCloseTo(0, 7);
      }),
    );
  });

  test("law: a combination of the columns is found again", () => {
    const gls = generalised(STRATA, COLUMNS, { lot: 0.7, cell: 0.1 });
    const wanted = [2, -1, 3, 0.5, 4];
    const value = Float64Array.from({ length: 10 }, (_, i) =>
      WRITTEN_OUT.reduce((sum, column, k) => sum + wanted[k]! * column[i]!, 0),
    );
    for (const [k, one] of coefficientsOf(gls, value).entries()) expect(one).toBeCloseTo(wanted[k]!, 9);
  });
});

test("law: sums of mixtures by products are sums of their logarithms, also where products overflow", () => {
  const shares = [0.05, 0.6, 1];
  const log = fc.double({ min: -40, max: 60, noNaN: true });
  fc.assert(
    fc.property(fc.array(log, { maxLength: 80 }), (logs) => {
      const sums = new MixtureSums(shares);
      for (const l of logs) sums.add(l);
      const out = new Float64Array(3);
      sums.addTo(out, 0);
      for (const [p, share] of shares.entries()) {
        const expected = logs.reduce((sum, l) => sum + logMixture(share, l), 0);
        expect(out[p]).toBeCloseTo(expected, 7);
      }
    }),
  );
});

test("law: a feature that counts for a share of itself adds that share of its logarithm", () => {
  const shares = [0.05, 0.6, 1];
  const feature = fc.tuple(
    fc.double({ min: -40, max: 60, noNaN: true }),
    fc.double({ min: 1, max: 20, noNaN: true }),
  );
  fc.assert(
    fc.property(fc.array(feature, { maxLength: 80 }), (features) => {
      const sums = new MixtureSums(shares);
      for (const [l, repeated] of features) sums.addShared(l, repeated);
      const out = new Float64Array(3);
      sums.addTo(out, 0);
      for (const [p, share] of shares.entries()) {
        const expected = features.reduce((sum, [l, repeated]) => sum + logMixture(share, l) / repeated, 0);
        expect(out[p]).toBeCloseTo(expected, 10);
      }
    }),
  );
});
