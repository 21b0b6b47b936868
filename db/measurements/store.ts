import { firstAtOrAfter, merged, sliced } from "../../lib/measurements/order";
import type { MeasurementSeries } from "../../lib/measurements/series";
import { type Connection, once } from "../connection";
import {
  type ArrivalRow,
  markSettled,
  type WaitingReader,
  waitingFeatures,
  waitingOf,
  waitingReader,
} from "./arrivals";
import { BLOCK_SIZE, blockTimes, decodeBlocks, encodeBlock, TIMES_END } from "./block";

/*
 * Where measurements lie, and why in two places.
 *
 * Reading one feature's history wants its measurements side by side; storing one piece of 50 features wants
 * them in arrival order, or 50 different places of the file are written for 2 kB of news (266 kB of log
 * against 8 kB). So small news goes to `arrival`, a packed row for each request, and once many have
 * gathered there, or a large intake comes, they settle (`settle.ts`) into `measurement_block`: packed runs of one
 * feature in time order. A reader gets blocks and arrivals as one series and need not know.
 */

/** Fewer new rows of a feature than this go to the arrival table, if they are its latest. */
const SMALL = 256;

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
  count: sqlite.prepare("select coalesce(sum(count), 0) from measurement_block where feature_id = ?").pluck(),
  addBlock: sqlite.prepare(
    `insert into measurement_block (feature_id, first_at, first_intake, first_line, last_at, count, data)
       values (?, ?, ?, ?, ?, ?, ?)`,
  ),
  dropBlock: sqlite.prepare("delete from measurement_block where id = ?"),
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
  const inRange = whole ? settled : between(settled, from, to);
  return merged(inRange, between(waitingOf(connection, feature), from, to));
}

function between(series: MeasurementSeries, from: number, to: number): MeasurementSeries {
  return sliced(series, firstAtOrAfter(series, from), firstAtOrAfter(series, to + 1));
}

/**
 * Reads the ends of many histories: `tail(feature, at)` gives what is stored of a feature since `at`. What waits in
 * order of arrival is read once for all of them, not before the first call; so it must not change between calls for
 * one feature.
 */
export function tails(
  connection: Connection,
  waiting: WaitingReader = waitingReader(connection),
): (feature: number, at: number) => MeasurementSeries {
  return (feature, at) => {
    const { blocksBetween } = statementsOf(connection);
    const to = Number.MAX_SAFE_INTEGER - 1;
    const blocks = blocksBetween.all({ feature, from: at, to }) as { data: Buffer }[];
    const settled = decodeBlocks(blocks.map(({ data }) => data));
    return merged(between(settled, at, to), between(waiting(feature), at, to));
  };
}

/**
 * Adds measurements of one feature, in order and already free of duplicates. A few that are the feature's
 * latest go to the row of arrivals, and the id of that is returned; more, or late ones, are merged into its blocks,
 * and null is.
 */
export function addMeasurements(
  connection: Connection,
  row: ArrivalRow,
  { feature, news, isLatest }: { feature: number; news: MeasurementSeries; isLatest: boolean },
): number | null {
  if (isLatest && news.count < SMALL) return row.add(feature, news);
  mergeIntoBlocks(connection, feature, news);
  return null;
}

/** Rewrites the blocks that the new measurements fall into, and no others. */
export function mergeIntoBlocks(connection: Connection, feature: number, news: MeasurementSeries): void {
  if (news.count === 0) return;
  const { blocksBetween, dropBlock } = statementsOf(connection);
  const from = Math.min(news.takenAt[0] as number, lastBlockStart(connection, feature));
  const to = news.takenAt[news.count - 1] as number;
  const touched = blocksBetween.all({ feature, from, to }) as BlockRow[];
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

/**
 * The end of a feature's history, to be put back with something changed: all that was taken from a moment on, and what
 * lies in the same block before it. A corrected reading of a million costs the blocks behind it, not all five hundred.
 */
export function takenTail(
  connection: Connection,
  feature: number,
  at: number,
): { tail: MeasurementSeries; putBack: (series: MeasurementSeries) => void } {
  const { blocksBetween, dropBlock } = statementsOf(connection);
  const waiting = waitingOf(connection, feature);
  // What waits settles with it, and may lie among blocks that end before `at`.
  const from = Math.min(at, waiting.takenAt[0] ?? at);
  const blocks = blocksBetween.all({ feature, from, to: Number.MAX_SAFE_INTEGER }) as BlockRow[];
  return {
    tail: merged(decodeBlocks(blocks.map(({ data }) => data)), waiting),
    putBack(series) {
      for (const { id } of blocks) dropBlock.run(id);
      markSettled(connection, feature);
      writeBlocks(connection, feature, series);
    },
  };
}

type BlockRow = { id: number; data: Buffer };

/**
 * Replaces everything stored of one feature; used where rows change in place or go away. Its state goes on being what it
 * was until the feature is judged anew: whoever asks that for `latestAt` does so before.
 */
export function replaceSeries(connection: Connection, feature: number, series: MeasurementSeries): void {
  connection.sqlite.prepare("delete from measurement_block where feature_id = ?").run(feature);
  markSettled(connection, feature);
  writeBlocks(connection, feature, series);
}

/**
 * Tells of every measurement taken in [from, to] which feature it is of and when it was taken, in no order.
 * Reads of each block that reaches into the range only the times.
 */
export function tellTimes(
  connection: Connection,
  { from, to }: Required<TimeRange>,
  tell: (feature: number, takenAt: number) => void,
): void {
  const blocks = connection.sqlite
    .prepare(
      `select feature_id, substr(data, 1, ${TIMES_END}) from measurement_block
       where last_at >= ? and first_at <= ?`,
    )
    .raw();
  for (const [feature, data] of blocks.iterate(from, to) as Iterable<[number, Buffer]>) {
    for (const at of blockTimes(data)) if (at >= from && at <= to) tell(feature, at);
  }
  const waiting = waitingReader(connection);
  for (const feature of waitingFeatures(connection).keys())
    for (const at of waiting(feature).takenAt) if (at >= from && at <= to) tell(feature, at);
}

/** How many measurements are stored. */
export function measurementCount(connection: Connection): number {
  const settled = connection.sqlite.prepare("select sum(count) from measurement_block").pluck().get();
  let count = Number(settled ?? 0);
  for (const waiting of waitingFeatures(connection).values()) count += waiting.count;
  return count;
}

/** How many measurements of a feature lie in its blocks. */
export function settledCount(connection: Connection, feature: number): number {
  return statementsOf(connection).count.get(feature) as number;
}

export function hasMeasurements(connection: Connection, feature: number): boolean {
  const block = connection.sqlite.prepare("select 1 from measurement_block where feature_id = ? limit 1");
  return block.get(feature) !== undefined || waitingOf(connection, feature).count > 0;
}
