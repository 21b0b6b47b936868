import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decodeBlockInto, decodeBlocks, decodeOneInto, encodeBlock } from "../../../db/measurements/block";
import {
  emptySeries,
  type MeasurementSeries,
  NAME_COLUMNS,
  ORIGIN_COLUMNS,
} from "../../../lib/measurements/series";
import { runs } from "../../laws";

const id = fc.oneof(
  fc.constant(0),
  fc.nat({ max: 255 }),
  fc.nat({ max: 70_000 }),
  fc.nat({ max: 0xffffffff }),
);
const number = fc.oneof(fc.double({ noDefaultInfinity: true }), fc.constant(Number.NaN), fc.constant(-0));
const instant = fc.oneof(
  fc.integer({ min: 1_700_000_000_000, max: 1_700_000_900_000 }),
  fc.double({ noNaN: true }),
);

function seriesOf(count: number, take: (column: string, i: number) => number): MeasurementSeries {
  const series = emptySeries(count);
  for (const column of ["takenAt", "value", "partTemp", ...NAME_COLUMNS, ...ORIGIN_COLUMNS] as const) {
    for (let i = 0; i < count; i++) series[column][i] = take(column, i);
  }
  return series;
}

const anySeries = fc.integer({ min: 1, max: 40 }).chain((count) =>
  fc
    .record({
      times: fc.array(instant, { minLength: count, maxLength: count }),
      numbers: fc.array(number, { minLength: 2 * count, maxLength: 2 * count }),
      ids: fc.array(id, { minLength: 11 * count, maxLength: 11 * count }),
      constantIds: fc.boolean(),
      inspected: fc.option(
        fc.array(fc.oneof(fc.nat({ max: 500 }), fc.constant(Number.NaN)), {
          minLength: count,
          maxLength: count,
        }),
      ),
    })
    .map(({ times, numbers, ids, constantIds, inspected }) => {
      let next = 0;
      const series = seriesOf(count, (column, i) => {
        if (column === "takenAt") return times[i] as number;
        if (column === "value") return numbers[i] as number;
        if (column === "partTemp") return numbers[count + i] as number;
        return constantIds ? (ids[0] as number) : (ids[next++ % ids.length] as number);
      });
      // What nobody states is not kept as a column.
      if (inspected?.some((size) => !Number.isNaN(size))) series.inspected = Float64Array.from(inspected);
      return series;
    }),
);

describe("a packed block", () => {
  test("law: what was packed comes out the same, to the last bit", () => {
    fc.assert(
      fc.property(anySeries, (series) => {
        expect(decodeBlocks([encodeBlock(series)])).toEqual(series);
      }),
      { numRuns: runs(500) },
    );
  });

  test("law: blocks that follow each other become one series", () => {
    fc.assert(
      fc.property(anySeries, fc.nat(), (series, at) => {
        const cut = at % (series.count + 1);
        const parts = [encodeBlock(series, cut)];
        if (cut > 0) parts.unshift(encodeBlock(series, 0, cut));
        expect(decodeBlocks(cut === series.count ? parts.slice(0, 1) : parts)).toEqual(series);
      }),
    );
  });

  test("bytes that do not begin on an 8-byte boundary are read as well", () => {
    const series = seriesOf(3, (column, i) => (column === "value" ? 1 / (i + 3) : i));
    const packed = encodeBlock(series);
    const shifted = Buffer.alloc(packed.length + 3).subarray(3);
    packed.copy(shifted);
    expect(decodeBlocks([shifted])).toEqual(series);
  });

  test("by hand: a column that says one thing costs 16 bytes, whatever the number of measurements", () => {
    // 14 columns in all, each constant: 14 · (8 for the encoding + 8 for the number) + 16 for format and count.
    expect(encodeBlock(seriesOf(3, () => 7)).length).toBe(14 * 16 + 16);
  });

  test("by hand: what was inspected costs a column where a measurement states it, and nothing where none does", () => {
    const series = seriesOf(3, () => 7);
    series.inspected = Float64Array.of(Number.NaN, Number.NaN, Number.NaN);
    expect(encodeBlock(series)).toEqual(encodeBlock(seriesOf(3, () => 7)));
    series.inspected[1] = 212;
    // One encoding and three doubles, for no narrower width holds one that is not stated.
    expect(encodeBlock(series).length).toBe(15 * 8 + 14 * 8 + 3 * 8 + 16);
    const one = emptySeries(2);
    decodeOneInto(encodeBlock(series), 1, one, 0);
    expect([...one.inspected!]).toEqual([212, Number.NaN]);
  });

  test("a block of another format is refused", () => {
    const packed = encodeBlock(seriesOf(1, () => 1));
    packed[0] = 3;
    expect(() => decodeBlockInto(packed, emptySeries(1), 0)).toThrow(/format 3/);
  });
});
