import fc from "fast-check";
import { expect, test } from "vitest";
import {
  firstAtOrAfter,
  inOrder,
  isInOrder,
  joined,
  merged,
  picked,
  sliced,
} from "../../../lib/measurements/order";
import { emptySeries, type MeasurementSeries } from "../../../lib/measurements/series";

type Key = [takenAt: number, intake: number, line: number];

function seriesOf(keys: readonly Key[]): MeasurementSeries {
  const series = emptySeries(keys.length);
  keys.forEach(([takenAt, intake, line], i) => {
    series.takenAt[i] = takenAt;
    series.intake[i] = intake;
    series.line[i] = line;
    series.value[i] = takenAt * 10_000 + intake * 100 + line;
  });
  return series;
}

const small = fc.nat({ max: 5 });
const keys = fc.array(fc.tuple(small, small, small), { maxLength: 40 });

/** The order by plain sorting of triples. */
function sorted(all: readonly Key[]): number[] {
  return [...all]
    .sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2])
    .map(([t, k, l]) => t * 10_000 + k * 100 + l);
}

test("law: a series in order holds the same measurements by moment, intake and line", () => {
  fc.assert(
    fc.property(keys, (all) => {
      const ordered = inOrder(seriesOf(all));
      expect([...ordered.value]).toEqual(sorted(all));
      expect(isInOrder(ordered)).toBe(true);
    }),
  );
});

test("law: merging two series in order is sorting both together", () => {
  fc.assert(
    fc.property(keys, keys, (a, b) => {
      const both = merged(inOrder(seriesOf(a)), inOrder(seriesOf(b)));
      expect([...both.value]).toEqual(sorted([...a, ...b]));
    }),
  );
});

test("law: cutting a series and joining the parts gives it back", () => {
  fc.assert(
    fc.property(keys, fc.nat({ max: 40 }), (all, at) => {
      const series = seriesOf(all);
      const cut = Math.min(at, series.count);
      expect(joined([sliced(series, 0, cut), sliced(series, cut, series.count)])).toEqual(series);
    }),
  );
});

test("law: the first at or after a moment splits a series into earlier ones and the rest", () => {
  fc.assert(
    fc.property(keys, small, (all, moment) => {
      const series = inOrder(seriesOf(all));
      expect(firstAtOrAfter(series, moment)).toBe(all.filter(([takenAt]) => takenAt < moment).length);
    }),
  );
});

test("by hand: positions are picked in the order in which they are named", () => {
  expect([
    ...picked(
      seriesOf([
        [1, 0, 0],
        [2, 0, 0],
        [3, 0, 0],
      ]),
      [2, 0],
    ).takenAt,
  ]).toEqual([3, 1]);
});
