import fc from "fast-check";
import { expect, test } from "vitest";
import { type Connection, connectionOf } from "../../../db/connection";
import { ArrivalRow, arrivedCount, waitingFeatures } from "../../../db/measurements/arrivals";
import { BLOCK_SIZE } from "../../../db/measurements/block";
import { settle, settleSome } from "../../../db/measurements/settle";
import {
  addMeasurements,
  measurementCount,
  readSeries,
  replaceSeries,
  tails,
  takenTail,
} from "../../../db/measurements/store";
import { sliced } from "../../../lib/measurements/order";
import { emptySeries, type MeasurementSeries } from "../../../lib/measurements/series";
import { runs } from "../../laws";
import { emptyPlant } from "../plant";

/** Measurements at the given moments, with the moment as value. */
function at(moments: readonly number[]): MeasurementSeries {
  const series = emptySeries(moments.length);
  moments.forEach((moment, i) => {
    series.takenAt[i] = moment;
    series.value[i] = moment;
    series.intake[i] = 1;
    series.line[i] = i + 2;
  });
  return series;
}

const moments = (from: number, count: number, step = 1) =>
  Array.from({ length: count }, (_, i) => from + i * step);

/** As one request brings them. */
function add(connection: Connection, news: Parameters<typeof addMeasurements>[2]): void {
  const row = new ArrivalRow(connection);
  addMeasurements(connection, row, news);
  row.store();
}

async function store() {
  const connection = connectionOf(await emptyPlant());
  const blocks = () =>
    connection.sqlite.prepare("select count(*) from measurement_block").pluck().get() as number;
  return { connection, blocks };
}

test("a few late-most rows wait in order of arrival and are read with the rest", async () => {
  const { connection, blocks } = await store();
  add(connection, { feature: 1, news: at(moments(0, 300)), isLatest: true });
  expect(blocks()).toBe(1);
  add(connection, { feature: 1, news: at([1000, 1001]), isLatest: true });
  expect([blocks(), arrivedCount(connection), measurementCount(connection)]).toEqual([1, 2, 302]);
  expect([...readSeries(connection, 1).value]).toEqual([...moments(0, 300), 1000, 1001]);
});

test("settling changes neither values nor order, and empties the waiting rows", async () => {
  const { connection } = await store();
  add(connection, { feature: 1, news: at(moments(0, 300)), isLatest: true });
  add(connection, { feature: 1, news: at([400, 401]), isLatest: true });
  add(connection, { feature: 2, news: at([5]), isLatest: true });
  const before = readSeries(connection, 1);
  settle(connection);
  expect([arrivedCount(connection), measurementCount(connection)]).toEqual([0, 303]);
  expect(readSeries(connection, 1)).toEqual(before);
  expect([...readSeries(connection, 2).value]).toEqual([5]);
});

test("settling some begins with those that have waited longest, and changes no history", async () => {
  const { connection } = await store();
  // Twelve features, of which ten settle at once; each came in a row of its own.
  const features = [3, 1, 2, 9, 8, 7, 6, 5, 4, 10, 12, 11];
  for (const moment of moments(0, 40))
    for (const feature of features) add(connection, { feature, news: at([moment]), isLatest: true });
  const histories = () => features.map((feature) => readSeries(connection, feature));
  const before = histories();
  const waiting = () => [...waitingFeatures(connection).keys()];
  settleSome(connection, { rows: 40 });
  expect(waiting()).toEqual([12, 11]);
  // Rows stay from the first in which something waits.
  expect(arrivedCount(connection)).toBe(12 * 40 - 10);
  expect(measurementCount(connection)).toBe(12 * 40);
  expect(histories()).toEqual(before);

  // One that has settled gets more, and the others follow.
  add(connection, { feature: 3, news: at([40]), isLatest: true });
  expect([...readSeries(connection, 3).value]).toEqual(moments(0, 41));
  settleSome(connection, { rows: 81 });
  expect(waiting()).toEqual([]);
  expect(arrivedCount(connection)).toBe(0);
  settleSome(connection, { rows: 5 });
  expect(measurementCount(connection)).toBe(12 * 40 + 1);
  expect(histories().slice(1)).toEqual(before.slice(1));
});

test("law: however small news come, settle and are replaced, each history is that of a plain list", async () => {
  const step = fc.record({
    brought: fc.array(
      fc.record({ feature: fc.integer({ min: 1, max: 4 }), count: fc.integer({ min: 1, max: 3 }) }),
      {
        maxLength: 4,
      },
    ),
    after: fc.constantFrom(
      "nothing",
      "nothing",
      "settle some",
      "settle all",
      "replace",
      "take the last away",
    ),
  });
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 25 }), async (steps) => {
      const { connection } = await store();
      const lists = new Map<number, number[]>();
      let now = 0;
      for (const { brought, after } of steps) {
        const row = new ArrivalRow(connection);
        for (const { feature, count } of uniqueBy(brought)) {
          const news = moments(now, count);
          now += count;
          addMeasurements(connection, row, { feature, news: at(news), isLatest: true });
          lists.set(feature, [...(lists.get(feature) ?? []), ...news]);
        }
        row.store();
        if (after === "settle some") settleSome(connection, { rows: 1 });
        if (after === "settle all") settle(connection);
        if (after === "replace") {
          const kept = (lists.get(2) ?? []).slice(0, 2);
          replaceSeries(connection, 2, at(kept));
          lists.set(2, kept);
        }
        const list = lists.get(3) ?? [];
        if (after === "take the last away" && list.length > 0) {
          const { tail, putBack } = takenTail(connection, 3, list[list.length >> 1]!);
          putBack(sliced(tail, 0, tail.count - 1));
          lists.set(3, list.slice(0, -1));
        }
        for (const [feature, list] of lists) expect([...readSeries(connection, feature).value]).toEqual(list);
        expect(measurementCount(connection)).toBe([...lists.values()].flat().length);
      }
    }),
    { numRuns: runs(30) },
  );
});

/** A request brings each feature once. */
function uniqueBy<T extends { feature: number }>(all: readonly T[]): T[] {
  return [...new Map(all.map((one) => [one.feature, one])).values()];
}

test("the end of a history is read the same, settled, waiting, or in part", async () => {
  const { connection } = await store();
  add(connection, { feature: 1, news: at(moments(0, 300)), isLatest: true });
  add(connection, { feature: 1, news: at([300, 301]), isLatest: true });
  add(connection, { feature: 2, news: at([5, 299, 302]), isLatest: true });
  const tail = tails(connection);
  for (const moment of [298, 299, 300, 301, 302, 400]) {
    expect(tail(1, moment)).toEqual(readSeries(connection, 1, { from: moment }));
    expect(tail(2, moment)).toEqual(readSeries(connection, 2, { from: moment }));
  }
  expect(tail(3, 298).count).toBe(0);
});

test("late rows are merged into the blocks they fall into", async () => {
  const { connection } = await store();
  add(connection, { feature: 1, news: at(moments(0, 3 * BLOCK_SIZE, 2)), isLatest: true });
  add(connection, { feature: 1, news: at([101, 5001, 5003]), isLatest: false });
  const expected = [...moments(0, 3 * BLOCK_SIZE, 2), 101, 5001, 5003].sort((a, b) => a - b);
  expect([...readSeries(connection, 1).value]).toEqual(expected);
});

test("a range gives the measurements taken in it, both ends included", async () => {
  const { connection } = await store();
  add(connection, { feature: 1, news: at(moments(0, 5000)), isLatest: true });
  add(connection, { feature: 1, news: at([5000, 5001]), isLatest: true });
  expect([...readSeries(connection, 1, { from: 4998, to: 5000 }).value]).toEqual([4998, 4999, 5000]);
  expect(readSeries(connection, 1, { from: 9000 }).count).toBe(0);
  expect(readSeries(connection, 2).count).toBe(0);
});

test("blocks fill up: appending a few hundred rows again and again does not leave small blocks behind", async () => {
  const { connection, blocks } = await store();
  for (let k = 0; k < 20; k++)
    add(connection, { feature: 1, news: at(moments(k * 300, 300)), isLatest: true });
  expect(blocks()).toBe(Math.ceil(6000 / BLOCK_SIZE));
  expect(readSeries(connection, 1).count).toBe(6000);
});

test("replacing a feature's measurements leaves the others alone", async () => {
  const { connection } = await store();
  add(connection, { feature: 1, news: at(moments(0, 10)), isLatest: true });
  add(connection, { feature: 2, news: at([7]), isLatest: true });
  replaceSeries(connection, 1, at([3]));
  expect([...readSeries(connection, 1).value]).toEqual([3]);
  expect([...readSeries(connection, 2).value]).toEqual([7]);
});

test("a change of the end writes the blocks behind it, and what waits among them, and no others", async () => {
  const { connection, blocks } = await store();
  add(connection, { feature: 1, news: at(moments(0, 3 * BLOCK_SIZE)), isLatest: true });
  const [first, second] = connection.sqlite.prepare("select id from measurement_block").pluck().all();
  // Waits, and then lies before the last block and behind the second.
  add(connection, { feature: 1, news: at([6200]), isLatest: true });
  add(connection, { feature: 1, news: at(moments(6300, 300)), isLatest: true });
  const { tail, putBack } = takenTail(connection, 1, 6400);
  expect(tail.value[tail.count - 1]).toBe(6599);
  tail.value[tail.count - 1] = 7;
  putBack(tail);
  expect([...readSeries(connection, 1).value]).toEqual([
    ...moments(0, 3 * BLOCK_SIZE),
    6200,
    ...moments(6300, 299),
    7,
  ]);
  expect(waitingFeatures(connection).size).toBe(0);
  const ids = connection.sqlite.prepare("select id from measurement_block order by id").pluck().all();
  expect(ids.slice(0, 2)).toEqual([first, second]);
  expect(blocks()).toBeGreaterThan(3);
});
