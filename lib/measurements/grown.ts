import {
  type MeasurementSeries,
  NAME_COLUMNS,
  NUMBER_COLUMNS,
  noneInspected,
  ORIGIN_COLUMNS,
} from "./series";

type Column = Float64Array | Uint32Array | Uint8Array | Int16Array;

/** Up to which byte the memory that was taken here is in use; of other memory nobody knows. */
const inUse = new WeakMap<ArrayBufferLike, number>();
/** Room that is taken with the first growth, as a share of the column, and at least so many entries. */
const ROOM = 1 / 8;
const LEAST_ROOM = 256;

/**
 * A column with more at its end. It shares its memory with what it has grown from, which stays as it was: the first
 * time all of it is copied, with room behind it, and from then on what is new alone.
 */
export function appended<Kind extends Column>(column: Kind, more: ArrayLike<number>): Kind {
  const bytes = column.BYTES_PER_ELEMENT;
  const length = column.length + more.length;
  const view = column.constructor as new (buffer: ArrayBufferLike, offset: number, length: number) => Kind;
  const end = column.byteOffset + column.byteLength;
  // Where another has grown from the same, what lies behind the column is that one's.
  const isFree = inUse.get(column.buffer) === end && column.buffer.byteLength >= end + more.length * bytes;
  const buffer = isFree
    ? column.buffer
    : new ArrayBuffer(bytes * (length + Math.max(LEAST_ROOM, Math.ceil(ROOM * length))));
  const grown = new view(buffer, isFree ? column.byteOffset : 0, length);
  if (!isFree) grown.set(column);
  grown.set(more, column.length);
  inUse.set(buffer, grown.byteOffset + grown.byteLength);
  return grown;
}

/** A history with what was measured after it; see `appended`. */
export function grownSeries(series: MeasurementSeries, news: MeasurementSeries): MeasurementSeries {
  const isStated = series.inspected !== null || news.inspected !== null;
  const grown = {
    count: series.count + news.count,
    inspected: isStated
      ? appended(series.inspected ?? noneInspected(series.count), news.inspected ?? noneInspected(news.count))
      : null,
  } as MeasurementSeries;
  for (const column of NUMBER_COLUMNS) grown[column] = appended(series[column], news[column]);
  for (const column of [...NAME_COLUMNS, ...ORIGIN_COLUMNS])
    grown[column] = appended(series[column], news[column]);
  return grown;
}
