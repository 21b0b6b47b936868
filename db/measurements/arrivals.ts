import { inOrder, joined } from "../../lib/measurements/order";
import { emptySeries, type MeasurementSeries } from "../../lib/measurements/series";
import { type Connection, once } from "../connection";
import { blockCount, decodeOneInto, encodeBlock } from "./block";

/*
 * Small news in order of arrival: what one request or file brought of all its features is one packed row, a block
 * (`block.ts`) followed by the feature of each of its measurements, as 32-bit numbers. A piece of fifty features is a
 * row of 1.5 kB instead of fifty rows.
 *
 * Rows stay as they are until every feature in them has settled: which of a feature's measurements lie in its blocks
 * by now, `settled_arrival` says. Ids grow in the order of commits and are never given twice.
 */

/** More measurements than this make another row, so that a file of many features does not make one of megabytes. */
export const MOST_IN_A_ROW = 1000;

const statementsOf = once(({ sqlite }) => ({
  // The last id ever given, which a table that was emptied no longer shows.
  last: sqlite.prepare("select seq from sqlite_sequence where name = 'arrival'").pluck(),
  add: sqlite.prepare("insert into arrival (id, count, data) values (?, ?, ?)"),
  after: sqlite.prepare("select id, data from arrival where id > ? order by id").raw(),
  drop: sqlite.prepare("delete from arrival where id <= ?"),
  size: sqlite.prepare("select coalesce(sum(count), 0) from arrival").pluck(),
  settled: sqlite.prepare("select to_arrival from settled_arrival where feature_id = ?").pluck(),
  allSettled: sqlite.prepare("select feature_id, to_arrival from settled_arrival").raw(),
  settle: sqlite.prepare(
    `insert into settled_arrival (feature_id, to_arrival) values (?, ?)
       on conflict (feature_id) do update set to_arrival = excluded.to_arrival`,
  ),
}));

/** The id of the latest arrival; 0 before the first. */
export function lastArrival(connection: Connection): number {
  return (statementsOf(connection).last.get() as number | undefined) ?? 0;
}

/** What one transaction brings, gathered into as few rows as may be. */
export class ArrivalRow {
  private parts: { feature: number; news: MeasurementSeries }[] = [];
  private count = 0;
  private next: number;
  /** Measurements in the rows that were stored. */
  stored = 0;

  constructor(private readonly connection: Connection) {
    this.next = lastArrival(connection) + 1;
  }

  /** Adds measurements of a feature; the id of the arrival in which they will be. */
  add(feature: number, news: MeasurementSeries): number {
    if (this.count > 0 && this.count + news.count > MOST_IN_A_ROW) this.store();
    this.parts.push({ feature, news });
    this.count += news.count;
    return this.next;
  }

  /** Stores measurements of many features, at most a thousand, as a row of their own; the id of their arrival. */
  addOneOfEach(features: Uint32Array, news: MeasurementSeries): number {
    this.store();
    return this.pack(news, features);
  }

  /** Stores what was gathered. To be called at the end, and before anything reads a feature that was added. */
  store(): void {
    if (this.count === 0) return;
    const features = new Uint32Array(this.count);
    let at = 0;
    for (const { feature, news } of this.parts) {
      features.fill(feature, at, at + news.count);
      at += news.count;
    }
    this.pack(joined(this.parts.map(({ news }) => news)), features);
    this.parts = [];
    this.count = 0;
  }

  private pack(news: MeasurementSeries, features: Uint32Array): number {
    const { buffer, byteOffset, byteLength } = features;
    const data = Buffer.concat([encodeBlock(news), Buffer.from(buffer, byteOffset, byteLength)]);
    statementsOf(this.connection).add.run(this.next, news.count, data);
    this.stored += news.count;
    return this.next++;
  }
}

/** One row: a block, and the feature of each measurement in it. */
type Packed = { id: number; block: Buffer; features: Uint32Array };

function* rowsAfter(connection: Connection, after: number): Generator<Packed> {
  // All at once: a statement that is still being read would keep the transaction from going on.
  for (const [id, data] of statementsOf(connection).after.all(after) as [number, Buffer][]) {
    const bytes = data.byteOffset % 8 === 0 ? data : Buffer.from(new Uint8Array(data).buffer);
    const count = blockCount(bytes);
    const features = new Uint32Array(bytes.buffer, bytes.byteOffset + bytes.length - 4 * count, count);
    yield { id, block: bytes, features };
  }
}

/** A feature's measurements that wait, in order; those of arrivals after `after` alone. */
export function waitingOf(connection: Connection, feature: number, after = 0): MeasurementSeries {
  const settled = (statementsOf(connection).settled.get(feature) as number | undefined) ?? 0;
  const from = Math.max(after, settled);
  return seriesOf(placesIn(rowsAfter(connection, from), (each) => each === feature).get(feature) ?? [], from);
}

/** What waits of a feature after an arrival. */
export type WaitingReader = (feature: number, after?: number) => MeasurementSeries;

/**
 * The same for many features, for which the rows are read once, not before the first call: what waits of a feature must
 * not change between two calls for it.
 */
export function waitingReader(connection: Connection): WaitingReader {
  let read: { places: Map<number, Place[]>; settled: Map<number, number> } | null = null;
  return (feature, after = 0) => {
    read ??= { places: placesIn(rowsAfter(connection, 0), () => true), settled: settledOfAll(connection) };
    return seriesOf(read.places.get(feature) ?? [], Math.max(after, read.settled.get(feature) ?? 0));
  };
}

/** Where a measurement stands: at a position of a row. */
type Place = { row: Packed; position: number };

function placesIn(rows: Iterable<Packed>, isWanted: (feature: number) => boolean): Map<number, Place[]> {
  const places = new Map<number, Place[]>();
  for (const row of rows) {
    for (let position = 0; position < row.features.length; position++) {
      const feature = row.features[position] as number;
      if (!isWanted(feature)) continue;
      const known = places.get(feature);
      if (known) known.push({ row, position });
      else places.set(feature, [{ row, position }]);
    }
  }
  return places;
}

function seriesOf(places: readonly Place[], after: number): MeasurementSeries {
  const wanted = places.filter(({ row }) => row.id > after);
  const series = emptySeries(wanted.length);
  for (const [at, { row, position }] of wanted.entries()) decodeOneInto(row.block, position, series, at);
  return inOrder(series);
}

function settledOfAll(connection: Connection): Map<number, number> {
  return new Map(statementsOf(connection).allSettled.all() as [number, number][]);
}

/** How much waits of a feature, and from which arrival to which. */
export type Waiting = { count: number; since: number; last: number };

/** Every feature of which something waits, the one that has waited longest first. */
export function waitingFeatures(connection: Connection): Map<number, Waiting> {
  const settled = settledOfAll(connection);
  const waiting = new Map<number, Waiting>();
  for (const { id, features } of rowsAfter(connection, 0)) {
    for (const feature of features) {
      const known = waiting.get(feature);
      if (known) {
        known.count++;
        known.last = id;
      } else if (id > (settled.get(feature) ?? 0)) waiting.set(feature, { count: 1, since: id, last: id });
    }
  }
  return waiting;
}

/** Notes that all of a feature's arrivals so far lie in its blocks, or have been replaced there. */
export function markSettled(connection: Connection, feature: number): void {
  statementsOf(connection).settle.run(feature, lastArrival(connection));
}

/** Drops the rows before the first in which something waits. `waiting` is what still does. */
export function dropSettled(connection: Connection, waiting: Iterable<Waiting>): void {
  let first = lastArrival(connection) + 1;
  for (const { since } of waiting) first = Math.min(first, since);
  statementsOf(connection).drop.run(first - 1);
}

/** Measurements in the rows there are, those included that have settled already: when to settle more. */
export function arrivedCount(connection: Connection): number {
  return statementsOf(connection).size.get() as number;
}
