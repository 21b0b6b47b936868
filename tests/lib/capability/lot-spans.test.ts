import { describe, expect, test } from "vitest";
import { lotSpans } from "../../../lib/capability/lot-spans";
import { InvalidInput } from "../../../lib/checks";
import { HOUR, START, seriesOf } from "../series-of";

const ALL = (count: number) => Uint32Array.from({ length: count }, (_, i) => i);

describe("lotSpans", () => {
  test("by hand: two lots and a reading without one, in the order of time", () => {
    const values = [5, 1, 3, 9, 4];
    const series = seriesOf(values, { lot: [7, 7, 2, 0, 7] });
    expect(lotSpans({ series, positions: ALL(5), values })).toEqual({
      withoutLot: 1,
      lots: [
        { lot: 7, count: 3, min: 1, mean: 10 / 3, max: 5, firstAt: START, lastAt: START + 4 * HOUR },
        { lot: 2, count: 1, min: 3, mean: 3, max: 3, firstAt: START + 2 * HOUR, lastAt: START + 2 * HOUR },
      ],
    });
  });

  test("only the readings of the study count, by their charted value", () => {
    const series = seriesOf([100, 200, 300], { lot: [1, 1, 1] });
    const { lots } = lotSpans({ series, positions: Uint32Array.of(0, 2), values: [10, 30] });
    expect(lots).toMatchObject([{ count: 2, min: 10, mean: 20, max: 30 }]);
  });

  test("law: counts add up, means weigh to the mean of all", () => {
    const values = Array.from({ length: 90 }, (_, i) => 50 + Math.sin(i * 1.7));
    const series = seriesOf(values, { lot: values.map((_, i) => 1 + (i % 7)) });
    const { lots, withoutLot } = lotSpans({ series, positions: ALL(90), values });
    expect(withoutLot + lots.reduce((sum, { count }) => sum + count, 0)).toBe(90);
    const weighed = lots.reduce((sum, { count, mean }) => sum + count * mean, 0) / 90;
    expect(weighed).toBeCloseTo(values.reduce((sum, value) => sum + value) / 90, 12);
  });

  test("edge: nothing studied, and values that do not belong to the positions", () => {
    const series = seriesOf([1]);
    expect(lotSpans({ series, positions: [], values: [] })).toEqual({ lots: [], withoutLot: 0 });
    expect(() => lotSpans({ series, positions: [0], values: [] })).toThrow(InvalidInput);
  });
});
