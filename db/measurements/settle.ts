import type { Connection } from "../connection";
import { dropSettled, markSettled, waitingFeatures, waitingReader } from "./arrivals";
import { storeCurrentState } from "./feature-state";
import { mergeIntoBlocks } from "./store";

/** Measurements that may wait in arrival order; a reader looks at them all, which takes a millisecond at this size. */
export const SETTLE_AT = 20_000;

/** A posted piece settles so many features at once, which costs one look at all that wait: some 5 ms. */
const SETTLED_AT_ONCE = 10;

/** Moves all that waits in order of arrival into the blocks of its features. The order of measurements does not change. */
export function settle(connection: Connection): void {
  settleFeatures(connection, waitingFeatures(connection).keys());
  dropSettled(connection, []);
}

/**
 * Moves what waits of the features that have waited longest, until at least `rows` measurements have moved. A posted
 * piece settles a little more than it brings, so that none of them has to wait for all 20,000: 110 ms at once, or 5 ms
 * now and then.
 */
export function settleSome(connection: Connection, { rows }: { rows: number }): void {
  const waiting = waitingFeatures(connection);
  const chosen: number[] = [];
  let moved = 0;
  for (const [feature, { count }] of waiting) {
    if (moved >= rows && chosen.length >= SETTLED_AT_ONCE) break;
    chosen.push(feature);
    moved += count;
  }
  settleFeatures(connection, chosen);
  for (const feature of chosen) waiting.delete(feature);
  dropSettled(connection, waiting.values());
}

function settleFeatures(connection: Connection, features: Iterable<number>): void {
  const waiting = waitingReader(connection);
  for (const feature of features) {
    // What its state has not seen could not be told from what it has, once both lie in blocks.
    storeCurrentState(connection, feature, waiting);
    mergeIntoBlocks(connection, feature, waiting(feature));
    markSettled(connection, feature);
  }
}
