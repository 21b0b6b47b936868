import { expect, test } from "vitest";
import { emptySeries, type MeasurementSeries } from "../../../lib/measurements/series";
import { gatherLabels } from "../../../lib/subgroups/gather-labels";

/** Values 0, 1, 2 … under the given labels, a minute apart. */
function labelled(labels: readonly number[], lots: readonly number[] = []): MeasurementSeries {
  const series = emptySeries(labels.length);
  series.subgroup.set(labels);
  series.lot.set(lots);
  series.value.set(labels.map((_, at) => at));
  series.takenAt.set(labels.map((_, at) => at * 60_000));
  return series;
}

test("by hand: neighbours of one label come together where none do", () => {
  const gathered = gatherLabels(labelled([1, 2, 1, 2]), false);
  expect([...gathered.subgroup]).toEqual([1, 1, 2, 2]);
  expect([...gathered.value]).toEqual([0, 2, 1, 3]);
  expect([...gathered.takenAt]).toEqual([0, 60_000, 120_000, 180_000]);
  // A label of another lot is another subgroup.
  expect([...gatherLabels(labelled([1, 1, 1, 1], [1, 2, 1, 2]), false).value]).toEqual([0, 2, 1, 3]);
});

test("the order is the shop's where there are times, a reading without label, or neighbours of one label", () => {
  for (const [series, timed] of [
    [labelled([1, 2, 1, 2]), true],
    [labelled([1, 0, 1, 2]), false],
    [labelled([1, 1, 2, 2, 1, 1]), false],
  ] as const) {
    expect(gatherLabels(series, timed)).toBe(series);
  }
});
