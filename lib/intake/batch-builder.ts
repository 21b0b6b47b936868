import { NAME_COLUMNS } from "../measurements/series";
import type { TidyBatch } from "./batch";

/** An empty batch with room for `capacity` measurements, and for what was inspected where the file has it. */
export function newBatch(capacity: number, { hasInspected }: { hasInspected: boolean }): TidyBatch {
  const batch = {
    count: 0,
    line: new Uint32Array(capacity),
    feature: new Uint32Array(capacity),
    value: new Float64Array(capacity),
    takenAt: new Float64Array(capacity),
    partTemp: new Float64Array(capacity),
    inspected: hasInspected ? new Float64Array(capacity) : null,
    pieces: [""],
  } as TidyBatch;
  for (const column of NAME_COLUMNS) batch[column] = new Uint32Array(capacity);
  return batch;
}

/** The same batch with arrays as long as its count, and without what was inspected where no row states it. */
export function trimmed(batch: TidyBatch): TidyBatch {
  const { count } = batch;
  const inspected = statedIn(batch);
  if (count === batch.line.length) return inspected === batch.inspected ? batch : { ...batch, inspected };
  const shorter = {
    count,
    line: batch.line.subarray(0, count),
    feature: batch.feature.subarray(0, count),
    value: batch.value.subarray(0, count),
    takenAt: batch.takenAt.subarray(0, count),
    partTemp: batch.partTemp.subarray(0, count),
    inspected,
    pieces: batch.pieces,
  } as TidyBatch;
  for (const column of NAME_COLUMNS) shorter[column] = batch[column].subarray(0, count);
  return shorter;
}

function statedIn({ count, inspected }: TidyBatch): Float64Array | null {
  if (inspected === null) return null;
  const stated = count === inspected.length ? inspected : inspected.subarray(0, count);
  return stated.some((size) => !Number.isNaN(size)) ? stated : null;
}
