import { expect, test } from "vitest";
import { connectionOf } from "../../../db/connection";
import { BLOCK_SIZE } from "../../../db/measurements/block";
import {
  addMeasurements,
  arrivalCount,
  readSeries,
  replaceSeries,
  settle,
  settleSome,
  tailsSince,
} from "../../../db/measurements/store";
import { emptySeries, type MeasurementSeries } from "../../../lib/measurements/series";
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

async function store() {
  const connection = connectionOf(await emptyPlant());
  const blocks = () =>
    connection.sqlite.prepare("select count(*) from measurement_block").pluck().get() as number;
  return { connection, blocks };
}

test("a few late-most rows wait in order of arrival and are read with the rest", async () => {
  const { connection, blocks } = await store();
  addMeasurements(connection, { feature: 1, news: at(moments(0, 300)), isLatest: true });
  expect(blocks()).toBe(1);
  addMeasurements(connection, { feature: 1, news: at([1000, 1001]), isLatest: true });
  expect([blocks(), arrivalCount(connection)]).toEqual([1, 2]);
  expect([...readSeries(connection, 1).value]).toEqual([...moments(0, 300), 1000, 1001]);
});

test("settling changes neither values nor order, and empties the waiting rows", async () => {
  const { connection } = await store();
  addMeasurements(connection, { feature: 1, news: at(moments(0, 300)), isLatest: true });
  addMeasurements(connection, { feature: 1, news: at([400, 401]), isLatest: true });
  addMeasurements(connection, { feature: 2, news: at([5]), isLatest: true });
  const before = readSeries(connection, 1);
  settle(connection);
  expect(arrivalCount(connection)).toBe(0);
  expect(readSeries(connection, 1)).toEqual(before);
  expect([...readSeries(connection, 2).value]).toEqual([5]);
});

test("settling some begins with those that have waited longest, and changes no history", async () => {
  const { connection } = await store();
  for (const moment of moments(0, 40)) {
    for (const feature of [3, 1, 2])
      addMeasurements(connection, { feature, news: at([moment]), isLatest: true });
  }
  const before = [1, 2, 3].map((feature) => readSeries(connection, feature));
  const waiting = () =>
    connection.sqlite.prepare("select distinct feature_id from measurement_arrival order by 1").pluck().all();
  settleSome(connection, { rows: 40 });
  expect(waiting()).toEqual([1, 2]);
  settleSome(connection, { rows: 41 });
  expect(waiting()).toEqual([]);
  settleSome(connection, { rows: 5 });
  expect([1, 2, 3].map((feature) => readSeries(connection, feature))).toEqual(before);
});

test("the end of a history is read the same, settled, waiting, or in part", async () => {
  const { connection } = await store();
  addMeasurements(connection, { feature: 1, news: at(moments(0, 300)), isLatest: true });
  addMeasurements(connection, { feature: 1, news: at([300, 301]), isLatest: true });
  addMeasurements(connection, { feature: 2, news: at([5, 299, 302]), isLatest: true });
  const tail = tailsSince(connection, 298);
  for (const moment of [298, 299, 300, 301, 302, 400]) {
    expect(tail(1, moment)).toEqual(readSeries(connection, 1, { from: moment }));
    expect(tail(2, moment)).toEqual(readSeries(connection, 2, { from: moment }));
  }
  expect(tail(3, 298).count).toBe(0);
});

test("late rows are merged into the blocks they fall into", async () => {
  const { connection } = await store();
  addMeasurements(connection, { feature: 1, news: at(moments(0, 3 * BLOCK_SIZE, 2)), isLatest: true });
  addMeasurements(connection, { feature: 1, news: at([101, 5001, 5003]), isLatest: false });
  const expected = [...moments(0, 3 * BLOCK_SIZE, 2), 101, 5001, 5003].sort((a, b) => a - b);
  expect([...readSeries(connection, 1).value]).toEqual(expected);
});

test("a range gives the measurements taken in it, both ends included", async () => {
  const { connection } = await store();
  addMeasurements(connection, { feature: 1, news: at(moments(0, 5000)), isLatest: true });
  addMeasurements(connection, { feature: 1, news: at([5000, 5001]), isLatest: true });
  expect([...readSeries(connection, 1, { from: 4998, to: 5000 }).value]).toEqual([4998, 4999, 5000]);
  expect(readSeries(connection, 1, { from: 9000 }).count).toBe(0);
  expect(readSeries(connection, 2).count).toBe(0);
});

test("blocks fill up: appending a few hundred rows again and again does not leave small blocks behind", async () => {
  const { connection, blocks } = await store();
  for (let k = 0; k < 20; k++)
    addMeasurements(connection, { feature: 1, news: at(moments(k * 300, 300)), isLatest: true });
  expect(blocks()).toBe(Math.ceil(6000 / BLOCK_SIZE));
  expect(readSeries(connection, 1).count).toBe(6000);
});

test("replacing a feature's measurements leaves the others alone", async () => {
  const { connection } = await store();
  addMeasurements(connection, { feature: 1, news: at(moments(0, 10)), isLatest: true });
  addMeasurements(connection, { feature: 2, news: at([7]), isLatest: true });
  replaceSeries(connection, 1, at([3]));
  expect([...readSeries(connection, 1).value]).toEqual([3]);
  expect([...readSeries(connection, 2).value]).toEqual([7]);
});
