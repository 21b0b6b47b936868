import { firstAtOrAfter, inOrder, merged, sliced } from "../../lib/measurements/order";
import {
  emptySeries,
  type MeasurementSeries,
  NAME_COLUMNS,
  SOURCE_KINDS,
} from "../../lib/measurements/series";
import { type Connection, once } from "../connection";
import { BLOCK_SIZE, blockTimes, decodeBlocks, encodeBlock, TIMES_END } from "./block";

/*
 * Where measurements lie, and why in two places.
 *
 * Reading one feature's history wants its measurements side by side; storing one piece of 50 features wants
 * them in arrival order, or 50 different places of the file are written for 6 kB of news (266 kB of log
 * against 18 kB). So small news goes to `measurement_arrival` in order of arrival, and once SETTLE_AT rows
 * have gathered there, or a large intake comes, they settle into `measurement_block`: packed runs of one
 * feature in time order. A reader gets blocks and arrivals as one series and need not know.
 */

/** Rows that may wait in arrival order; a reader scans them all, which takes a few milliseconds at this size. */
export const SETTLE_AT = 20_000;

/** Fewer new rows of a feature than this go to the arrival table, if they are its latest. */
const SMALL = 256;

const ARRIVAL_COLUMNS = [
  "taken_at",
  "value",
  "part_temp",
  "piece_id",
  "lot_id",
  ...SOURCE_KINDS.map((kind) => `${kind}_id`),
  "subgroup_id",
  "intake_id",
  "line",
];

type ArrivalRow = [number, number, number | null, ...number[]];

export type TimeRange = { from?: number; to?: number };

const statementsOf = once(({ sqlite }) => ({
  blocks: sqlite
    .prepare(
      "select data from measurement_block where feature_id = ? order by first_at, first_intake, first_line",
    )
    .pluck(),
  blocksBetween: sqlite.prepare(
    `select id, data from measurement_block where feature_id = @feature and last_at >= @from and first_at <= @to
       order by first_at, first_intake, first_line`,
  ),
  arrivals: sqlite
    .prepare(
      `select ${ARRIVAL_COLUMNS.join(", ")} from measurement_arrival
         where feature_id = @feature and taken_at >= @from and taken_at <= @to`,
    )
    .raw(),
  arrivalsFrom: sqlite
    .prepare(`select feature_id, ${ARRIVAL_COLUMNS.join(", ")} from measurement_arrival where taken_at >= ?`)
    .raw(),
  addArrival: sqlite.prepare(
    `insert into measurement_arrival (feature_id, ${ARRIVAL_COLUMNS.join(", ")})
       values (${Array(ARRIVAL_COLUMNS.length + 1)
         .fill("?")
         .join(", ")})`,
  ),
  addBlock: sqlite.prepare(
    `insert into measurement_block (feature_id, first_at, first_intake, first_line, last_at, count, data)
       values (?, ?, ?, ?, ?, ?, ?)`,
  ),
  oldestArrival: sqlite.prepare("select feature_id from measurement_arrival order by id limit 1").pluck(),
  dropArrivals: sqlite.prepare("delete from measurement_arrival where feature_id = ?"),
  dropBlock: sqlite.prepare("delete from measurement_block where id = ?"),
  latest: sqlite.prepare("select last_at from feature_state where feature_id = ?").pluck(),
}));

/** One feature's measurements in time order, all of them or those taken in [from, to]. */
export function readSeries(
  connection: Connection,
  feature: number,
  range: TimeRange = {},
): MeasurementSeries {
  const { from = Number.MIN_SAFE_INTEGER, to = Number.MAX_SAFE_INTEGER } = range;
  const statements = statementsOf(connection);
  const whole = range.from === undefined && range.to === undefined;
  const blocks = whole
    ? (statements.blocks.all(feature) as Buffer[])
    : (statements.blocksBetween.all({ feature, from, to }) as { data: Buffer }[]).map((row) => row.data);
  const settled = decodeBlocks(blocks);
  const inRange = whole
    ? settled
    : sliced(settled, firstAtOrAfter(settled, from), firstAtOrAfter(settled, to + 1));
  return merged(inRange, arrivalsOf(connection, feature, from, to));
}

/**
 * Reads the ends of many histories: `tail(feature, at)` gives what is stored of a feature since `at`. Rows that wait in
 * order of arrival are scanned once for all of them, not before the first call, and from `from` on while no call asks
 * for earlier ones; so they must not change between calls for one feature.
 */
export function tailsSince(
  connection: Connection,
  from: number,
): (feature: number, at: number) => MeasurementSeries {
  let waiting: Map<number, ArrivalRow[]> | null = null;
  let scannedFrom = from;
  return (feature, at) => {
    if (at < scannedFrom) {
      scannedFrom = Number.MIN_SAFE_INTEGER;
      waiting = null;
    }
    waiting ??= arrivalsByFeature(connection, scannedFrom);
    const { blocksBetween } = statementsOf(connection);
    const to = Number.MAX_SAFE_INTEGER;
    const blocks = blocksBetween.all({ feature, from: at, to }) as { data: Buffer }[];
    const settled = decodeBlocks(blocks.map(({ data }) => data));
    const arrived = (waiting.get(feature) ?? []).filter(([takenAt]) => takenAt >= at);
    return merged(
      sliced(settled, firstAtOrAfter(settled, at), settled.count),
      inOrder(seriesFromRows(arrived)),
    );
  };
}

function arrivalsByFeature(connection: Connection, from: number): Map<number, ArrivalRow[]> {
  const byFeature = new Map<number, ArrivalRow[]>();
  for (const [feature, ...row] of statementsOf(connection).arrivalsFrom.all(from) as [
    number,
    ...ArrivalRow,
  ][]) {
    const rows = byFeature.get(feature);
    if (rows) rows.push(row);
    else byFeature.set(feature, [row]);
  }
  return byFeature;
}

function arrivalsOf(connection: Connection, feature: number, from: number, to: number): MeasurementSeries {
  const rows = statementsOf(connection).arrivals.all({ feature, from, to }) as ArrivalRow[];
  return inOrder(seriesFromRows(rows));
}

function seriesFromRows(rows: readonly ArrivalRow[]): MeasurementSeries {
  const series = emptySeries(rows.length);
  rows.forEach((row, i) => {
    series.takenAt[i] = row[0];
    series.value[i] = row[1];
    series.partTemp[i] = row[2] ?? Number.NaN;
    NAME_COLUMNS.forEach((column, k) => {
      series[column][i] = row[3 + k] as number;
    });
    series.intake[i] = row[3 + NAME_COLUMNS.length] as number;
    series.line[i] = row[4 + NAME_COLUMNS.length] as number;
  });
  return series;
}

/**
 * Adds measurements of one feature, in order and already free of duplicates. A few that are the feature's
 * latest go to the arrival table; more, or late ones, are merged into its blocks.
 */
export function addMeasurements(
  connection: Connection,
  { feature, news, isLatest }: { feature: number; news: MeasurementSeries; isLatest: boolean },
): void {
  if (isLatest && news.count < SMALL) {
    addArrivals(connection, feature, news);
  } else {
    mergeIntoBlocks(connection, feature, news);
  }
}

function addArrivals(connection: Connection, feature: number, news: MeasurementSeries): void {
  const { addArrival } = statementsOf(connection);
  for (let i = 0; i < news.count; i++) {
    const temperature = news.partTemp[i] as number;
    addArrival.run(
      feature,
      news.takenAt[i],
      news.value[i],
      Number.isNaN(temperature) ? null : temperature,
      ...NAME_COLUMNS.map((column) => news[column][i]),
      news.intake[i],
      news.line[i],
    );
  }
}

/** Rewrites the blocks that the new measurements fall into, and no others. */
function mergeIntoBlocks(connection: Connection, feature: number, news: MeasurementSeries): void {
  if (news.count === 0) return;
  const { blocksBetween, dropBlock } = statementsOf(connection);
  const from = Math.min(news.takenAt[0] as number, lastBlockStart(connection, feature));
  const to = news.takenAt[news.count - 1] as number;
  const touched = blocksBetween.all({ feature, from, to }) as { id: number; data: Buffer }[];
  const settled = decodeBlocks(touched.map((row) => row.data));
  for (const { id } of touched) dropBlock.run(id);
  writeBlocks(connection, feature, merged(settled, news));
}

/** Start of the feature's last block, so that appending fills it up; +infinity when there is none. */
function lastBlockStart(connection: Connection, feature: number): number {
  const row = connection.sqlite
    .prepare(
      "select first_at, count from measurement_block where feature_id = ? order by first_at desc, first_intake desc, first_line desc limit 1",
    )
    .get(feature) as { first_at: number; count: number } | undefined;
  return row && row.count < BLOCK_SIZE ? row.first_at : Number.POSITIVE_INFINITY;
}

function writeBlocks(connection: Connection, feature: number, series: MeasurementSeries): void {
  const { addBlock } = statementsOf(connection);
  for (let from = 0; from < series.count; from += BLOCK_SIZE) {
    const to = Math.min(from + BLOCK_SIZE, series.count);
    addBlock.run(
      feature,
      series.takenAt[from],
      series.intake[from],
      series.line[from],
      series.takenAt[to - 1],
      to - from,
      encodeBlock(series, from, to),
    );
  }
}

/** Replaces everything stored of one feature; used where rows change in place or go away. */
export function replaceSeries(connection: Connection, feature: number, series: MeasurementSeries): void {
  connection.sqlite.prepare("delete from measurement_block where feature_id = ?").run(feature);
  connection.sqlite.prepare("delete from measurement_arrival where feature_id = ?").run(feature);
  writeBlocks(connection, feature, series);
}

/**
 * Tells of every measurement taken in [from, to] which feature it is of and when it was taken, in no order.
 * Reads of each block that reaches into the range only the times.
 */
export function tellTimes(
  { sqlite }: Connection,
  { from, to }: Required<TimeRange>,
  tell: (feature: number, takenAt: number) => void,
): void {
  const blocks = sqlite
    .prepare(
      `select feature_id, substr(data, 1, ${TIMES_END}) from measurement_block
       where last_at >= ? and first_at <= ?`,
    )
    .raw();
  for (const [feature, data] of blocks.iterate(from, to) as Iterable<[number, Buffer]>) {
    for (const at of blockTimes(data)) if (at >= from && at <= to) tell(feature, at);
  }
  const arrivals = sqlite
    .prepare("select feature_id, taken_at from measurement_arrival where taken_at between ? and ?")
    .raw();
  for (const [feature, at] of arrivals.iterate(from, to) as Iterable<[number, number]>) tell(feature, at);
}

/** Rows waiting in arrival order. */
export function arrivalCount(connection: Connection): number {
  return connection.sqlite.prepare("select count(*) from measurement_arrival").pluck().get() as number;
}

/** Moves every row in arrival order into the blocks of its feature. The order of measurements does not change. */
export function settle(connection: Connection): void {
  const { sqlite } = connection;
  const features = sqlite
    .prepare("select distinct feature_id from measurement_arrival")
    .pluck()
    .all() as number[];
  for (const feature of features) {
    const news = arrivalsOf(connection, feature, Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER);
    mergeIntoBlocks(connection, feature, news);
  }
  sqlite.exec("delete from measurement_arrival");
}

/**
 * Moves the rows of the features that have waited longest, until at least `rows` have moved. A posted piece
 * settles a little more than it brings, so that none of them has to wait for all 20,000: 110 ms at once, or 3 ms
 * now and then.
 */
export function settleSome(connection: Connection, { rows }: { rows: number }): void {
  const { oldestArrival, dropArrivals } = statementsOf(connection);
  for (let moved = 0; moved < rows; ) {
    const feature = oldestArrival.get() as number | undefined;
    if (feature === undefined) return;
    const news = arrivalsOf(connection, feature, Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER);
    mergeIntoBlocks(connection, feature, news);
    dropArrivals.run(feature);
    moved += news.count;
  }
}

/** When the latest stored measurement of a feature was taken, as its judged state has it; null when it has none. */
export function latestAt(connection: Connection, feature: number): number | null {
  return (statementsOf(connection).latest.get(feature) as number | null | undefined) ?? null;
}
