import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Histogram, histogram } from "../../../lib/capability/histogram";
import { InvalidInput } from "../../../lib/checks";
import heatFlow from "../../reference/heat-flow-meter.json";

const OPEN = { lower: null, upper: null };

function binsOf(
  values: readonly number[],
  {
    resolution = null as number | null,
    tolerance = OPEN as { lower: number | null; upper: number | null },
  } = {},
): Histogram {
  const found = histogram({ values, resolution, tolerance });
  if (!found.ok) throw new Error(found.problem.code);
  return found.value;
}

const counts = ({ bins }: Histogram) => bins.map(({ count }) => count);

describe("histogram", () => {
  test("by hand: eight whole readings, quartiles 2 and 4, give bins two steps wide", () => {
    // Sorted 1 1 2 3 3 4 4 6: x[2] = 2, x[6] = 4, so 2 · 2 / ∛8 = 2. Bins 0-1, 2-3, 4-5, 6-7 by whole steps.
    const found = binsOf([3, 1, 4, 1, 6, 2, 4, 3]);
    expect(found).toMatchObject({ rule: "freedman-diaconis", ruleWidth: 2, step: 1, width: 2 });
    expect(found.bins.map(({ from, to }) => [from, to])).toEqual([
      [-0.5, 1.5],
      [1.5, 3.5],
      [3.5, 5.5],
      [5.5, 7.5],
    ]);
    expect(counts(found)).toEqual([2, 3, 2, 1]);
  });

  test("by hand: when half of the readings are alike, Scott's width stands in", () => {
    // s = √(2 · 9/7) and ∛8 = 2.
    const found = binsOf([5, 5, 5, 5, 5, 5, 2, 8]);
    expect(found.rule).toBe("scott");
    expect(found.ruleWidth).toBeCloseTo((3.49 * Math.sqrt(18 / 7)) / 2, 12);
  });

  test("by hand: what lies beyond a limit is counted in its bin, what lies on it is not", () => {
    const found = binsOf([3, 1, 4, 1, 6, 2, 4, 3], { tolerance: { lower: 2, upper: 4 } });
    expect(found.bins.map(({ outside }) => outside)).toEqual([2, 0, 0, 1]);
  });

  test(`published readings: ${heatFlow.source}, all 195 once, in whole steps of a microunit`, () => {
    const found = binsOf(heatFlow.data.values);
    expect(counts(found).reduce((sum, count) => sum + count)).toBe(195);
    expect(found.step).toBe(1e-6);
    expect(found.width).toBeCloseTo(0.01, 12);
  });

  const onGrid = fc.record({
    indices: fc.array(fc.integer({ min: -400, max: 400 }), { minLength: 20, maxLength: 200 }),
    decimals: fc.integer({ min: 0, max: 4 }),
    offset: fc.integer({ min: -5000, max: 5000 }),
  });

  test("law: on a grid every bin holds equally many possible readings and every reading once", () => {
    fc.assert(
      fc.property(onGrid, ({ indices, decimals, offset }) => {
        // 0 and 1 make the step of the grid sure.
        const all = [0, 1, ...indices];
        const values = all.map((index) => Number(((index + offset) / 10 ** decimals).toFixed(decimals)));
        const { bins, width, step } = binsOf(values);
        expect(step).toBeCloseTo(10 ** -decimals, 12);
        const steps = width / step!;
        expect(Math.abs(steps - Math.round(steps))).toBeLessThan(1e-9);
        expect(bins.reduce((sum, { count }) => sum + count, 0)).toBe(values.length);
        for (const { from, to, count } of bins) {
          expect(values.filter((value) => value >= from && value < to).length).toBe(count);
        }
        expect(bins[0]!.count).toBeGreaterThan(0);
        expect(bins.at(-1)!.count).toBeGreaterThan(0);
        expect(bins.length).toBeLessThanOrEqual(81);
      }),
    );
  });

  test("law: equally frequent grid values make a level histogram, never a comb", () => {
    // 60 grid values with seven readings each. Inner bins hold equally many values.
    const values = Array.from({ length: 420 }, (_, i) => Number((12 + (i % 60) * 0.001).toFixed(3)));
    const inner = counts(binsOf(values)).slice(1, -1);
    expect(inner.length).toBeGreaterThan(2);
    expect(new Set(inner).size).toBe(1);
  });

  test("law: another order of the readings gives the same bins", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 99 }), { minLength: 5, maxLength: 60 }), (values) => {
        fc.pre(new Set(values).size > 1);
        expect(binsOf([...values].reverse())).toEqual(binsOf(values));
      }),
    );
  });

  test("edge: a reading far off widens the bins instead of making thousands", () => {
    const values = [...Array.from({ length: 99 }, (_, i) => i % 7), 100_000];
    expect(binsOf(values).bins.length).toBeLessThanOrEqual(80);
  });

  test("edge: computed readings take the stated resolution, or a round width where it is too coarse", () => {
    const values = Array.from({ length: 300 }, (_, i) => 20 + Math.sin(i) / 100 + 1e-12 * i);
    expect(binsOf(values, { resolution: 0.001 })).toMatchObject({ step: 0.001 });
    expect(binsOf(values, { resolution: 1 })).toMatchObject({ step: null, width: 0.005 });
  });

  test("edge: readings reduced to 20 °C lie on a grid of their own, and still take the gauge's step", () => {
    // A gauge step of 0.001 and temperatures in tenths of a kelvin: 20 · 1.15e-5 · 0.1 = 2.3e-5 a tenth.
    const values = Array.from({ length: 2000 }, (_, i) =>
      Number((20 + ((i * 37) % 9) * 0.001 - ((i * 53) % 41) * 2.3e-5).toFixed(7)),
    );
    expect(binsOf(values, { resolution: 0.001 })).toMatchObject({ step: 0.001, width: 0.001 });
  });

  test("edge: a stated resolution that the readings belie is passed over", () => {
    const values = Array.from({ length: 200 }, (_, i) => Number((5 + ((i * 37) % 101) / 1000).toFixed(3)));
    expect(binsOf(values, { resolution: 0.01 }).step).toBe(0.001);
  });

  test("edge: tiny and negative readings, one reading, all alike, not a number", () => {
    expect(binsOf([-3e-8, -2e-8, -2e-8, -1e-8, 1e-8]).bins.length).toBeGreaterThan(1);
    expect(histogram({ values: [1], resolution: null, tolerance: OPEN })).toMatchObject({
      problem: { code: "too-few-readings", needed: 2, got: 1 },
    });
    expect(histogram({ values: [2, 2, 2], resolution: null, tolerance: OPEN })).toMatchObject({
      problem: { code: "no-variation" },
    });
    expect(() => histogram({ values: [1, Number.NaN], resolution: null, tolerance: OPEN })).toThrow(
      InvalidInput,
    );
    expect(() => histogram({ values: [1, 2], resolution: 0, tolerance: OPEN })).toThrow(InvalidInput);
  });
});
