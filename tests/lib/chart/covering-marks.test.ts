import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coveringMarks } from "../../../lib/chart/covering-marks";

describe("marks that stand for many", () => {
  test("as few as may be drawn are all drawn", () => {
    const values = [1, 1, 5, 5];
    expect(coveringMarks([1, 3], { values, span: { low: 0, high: 6 }, most: 200 })).toEqual([1, 3]);
  });

  test("by hand: on one level, 4,000 neighbours need a mark in each of 400 columns, and 200 where no more may be drawn", () => {
    const values = Array<number>(4_000).fill(1);
    const every = values.map((_, position) => position);
    const span = { low: 0, high: 2 };
    expect(coveringMarks(every, { values, span, most: 400 })).toEqual(every.filter((i) => i % 10 === 0));
    expect(coveringMarks(every, { values, span, most: 399 })).toEqual(every.filter((i) => i % 20 === 0));
  });

  test("law: at most as many as allowed, and each marked point has one near it along the strip", () => {
    const history = fc.record({
      values: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 500, maxLength: 3_000 }),
      every: fc.integer({ min: 1, max: 3 }),
      most: fc.integer({ min: 200, max: 900 }),
    });
    fc.assert(
      fc.property(history, ({ values, every, most }) => {
        const marked = values.map((_, i) => i).filter((i) => i % every === 0);
        const marks = coveringMarks(marked, { values, span: { low: 0, high: 1 }, most });
        expect(marks.length).toBeLessThanOrEqual(most);
        expect(marks.every((mark) => marked.includes(mark))).toBe(true);
        // A cell of every grid is at most a two-hundredth of the strip wide.
        const far = marked.filter((i) => !marks.some((mark) => Math.abs(mark - i) <= values.length / 200));
        expect(far).toEqual([]);
      }),
      { numRuns: 30 },
    );
  });
});
