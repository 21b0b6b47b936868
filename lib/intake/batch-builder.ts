import { NAME_COLUMNS } from "../measurements/series";
import type { TidyBatch } from "./batch";

/** An empty batch with room for `capacity` measurements. */
export function newBatch(capacity: number): TidyBatch {
  const batch = {
    count: 0,
    line: new Uint32Array(capacity),
    feature: new Uint32Array(capacity),
    value: new Float64Array(capacity),
    takenAt: new Float64Array(capacity),
    partTemp: new Float64Array(capacity),
    pieces: [""],
  } as TidyBatch;
  for (const column of NAME_COLUMNS) batch[column] = new Uint32Array(capacity);
  return batch;
}

/** The same batch with arrays as long as its count. */
export function trimmed(batch: TidyBatch): TidyBatch {
  const { count } = batch;
  if (count === batch.line.length) return batch;
  const shorter = {
    count,
    line: batch.line.subarray(0, count),
    feature: batch.feature.subarray(0, count),
    value: batch.value.subarray(0, count),
    takenAt: batch.takenAt.subarray(0, count),
    partTemp: batch.partTemp.subarray(0, count),
    pieces: batch.pieces,
  } as TidyBatch;
  for (const column of NAME_COLUMNS) shorter[column] = batch[column].subarray(0, count);
  return shorter;
}
