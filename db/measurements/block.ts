import {
  emptySeries,
  type MeasurementSeries,
  NAME_COLUMNS,
  NUMBER_COLUMNS,
  noneInspected,
  ORIGIN_COLUMNS,
} from "../../lib/measurements/series";

/*
 * A block is up to BLOCK_SIZE measurements of one feature, column after column, in one binary value.
 *
 *   byte 0       format (1, or 2 with one column more at the end: on how many pieces or units each count was found)
 *   bytes 8..15  count, as a double
 *   then per column, each starting at a multiple of 8 bytes:
 *     one double  the column's encoding
 *     contents    constant: one double · u8, u16, u32, f64: `count` numbers · offset: a double to add, `count` u32
 *
 * Most columns of a block say the same thing over and over (one machine, one intake, no set-up), and those
 * cost 16 bytes. The rest take the narrowest width that holds them, which makes about 30 bytes a measurement
 * where a row of an SQL table takes 60, and they are read with one copy instead of one call a row.
 * Numbers are little-endian, as on every processor that Node runs on.
 */

export const BLOCK_SIZE = 2048;

const FORMAT = 1;
/** Of blocks in which a measurement says what was inspected, which only counts do; the others stay as they were. */
const FORMAT_WITH_INSPECTED = 2;
const CONSTANT = 0;
const U8 = 1;
const U16 = 2;
const U32 = 3;
const F64 = 4;
const OFFSET = 5;

const WIDTH: Record<number, number> = { [U8]: 1, [U16]: 2, [U32]: 4, [F64]: 8, [OFFSET]: 4 };
const COLUMNS = [...NUMBER_COLUMNS, ...NAME_COLUMNS, ...ORIGIN_COLUMNS] as const;

const padded = (bytes: number) => (bytes + 7) & ~7;

/** Packs measurements from (inclusive) to (exclusive) of a series. */
export function encodeBlock(series: MeasurementSeries, from = 0, to = series.count): Buffer {
  const count = to - from;
  const columns = COLUMNS.map((name) => series[name].subarray(from, to));
  const inspected = statedIn(series, from, to);
  if (inspected !== null) columns.push(inspected);
  const encodings = columns.map(encodingOf);
  let size = 16;
  for (const encoding of encodings) size += columnSize(encoding, count);

  const bytes = new ArrayBuffer(size);
  new Uint8Array(bytes)[0] = inspected === null ? FORMAT : FORMAT_WITH_INSPECTED;
  new Float64Array(bytes, 8, 1)[0] = count;
  let at = 16;
  columns.forEach((column, c) => {
    const encoding = encodings[c] as number;
    new Float64Array(bytes, at, 1)[0] = encoding;
    writeColumn(bytes, at + 8, encoding, column);
    at += columnSize(encoding, count);
  });
  return Buffer.from(bytes);
}

function statedIn({ inspected }: MeasurementSeries, from: number, to: number): Float64Array | null {
  if (inspected === null) return null;
  const part = inspected.subarray(from, to);
  return part.some((size) => !Number.isNaN(size)) ? part : null;
}

function columnSize(encoding: number, count: number): number {
  if (encoding === CONSTANT) return 16;
  const base = encoding === OFFSET ? 16 : 8;
  return base + padded(count * (WIDTH[encoding] as number));
}

function encodingOf(column: Float64Array | Uint32Array): number {
  // A loop for each kind of array: one that saw both would be compiled for neither.
  return column instanceof Uint32Array ? encodingOfIds(column) : encodingOfNumbers(column);
}

function encodingOfIds(column: Uint32Array): number {
  const first = column[0] as number;
  let most = first;
  let same = true;
  for (let i = 0; i < column.length; i++) {
    const id = column[i] as number;
    if (id !== first) same = false;
    if (id > most) most = id;
  }
  if (same) return CONSTANT;
  return most <= 0xff ? U8 : most <= 0xffff ? U16 : U32;
}

function encodingOfNumbers(column: Float64Array): number {
  const first = column[0] as number;
  let least = first;
  let most = first;
  let same = true;
  let whole = true;
  for (let i = 0; i < column.length; i++) {
    const value = column[i] as number;
    if (!Object.is(value, first)) same = false;
    if (value < least) least = value;
    if (value > most) most = value;
    if (value !== Math.floor(value)) whole = false; // NaN is not whole either.
  }
  if (same) return CONSTANT;
  return whole && most - least <= 0xffffffff && Math.abs(least) <= Number.MAX_SAFE_INTEGER && least > 0
    ? OFFSET
    : F64;
}

function writeColumn(
  bytes: ArrayBuffer,
  at: number,
  encoding: number,
  column: Float64Array | Uint32Array,
): void {
  if (encoding === CONSTANT) {
    new Float64Array(bytes, at, 1)[0] = column[0] as number;
  } else if (encoding === OFFSET) {
    let base = column[0] as number;
    for (let i = 1; i < column.length; i++) if ((column[i] as number) < base) base = column[i] as number;
    new Float64Array(bytes, at, 1)[0] = base;
    const offsets = new Uint32Array(bytes, at + 8, column.length);
    for (let i = 0; i < column.length; i++) offsets[i] = (column[i] as number) - base;
  } else {
    numbersAt(bytes, at, encoding, column.length).set(column);
  }
}

function numbersAt(bytes: ArrayBufferLike, at: number, encoding: number, count: number) {
  switch (encoding) {
    case U8:
      return new Uint8Array(bytes, at, count);
    case U16:
      return new Uint16Array(bytes, at, count);
    case U32:
      return new Uint32Array(bytes, at, count);
    case F64:
      return new Float64Array(bytes, at, count);
    default:
      throw new Error(
        `Measurement block holds a column of unknown encoding ${encoding}: the database file is damaged.`,
      );
  }
}

/** Number of measurements in a packed block. */
export function blockCount(data: Buffer): number {
  return data.readDoubleLE(8);
}

/** Unpacks a block into `into`, beginning at position `at`; returns the position after its last measurement. */
export function decodeBlockInto(data: Buffer, into: MeasurementSeries, at: number): number {
  const aligned = readable(data);
  const bytes = aligned.buffer;
  const count = blockCount(aligned);
  let position = aligned.byteOffset + 16;
  for (const name of COLUMNS) {
    const encoding = new Float64Array(bytes, position, 1)[0] as number;
    readColumn(bytes, position + 8, encoding, count, into[name], at);
    position += columnSize(encoding, count);
  }
  if (aligned[0] === FORMAT_WITH_INSPECTED) {
    into.inspected ??= noneInspected(into.count);
    const encoding = new Float64Array(bytes, position, 1)[0] as number;
    readColumn(bytes, position + 8, encoding, count, into.inspected, at);
  }
  return at + count;
}

function readable(data: Buffer): Buffer {
  if (data[0] !== FORMAT && data[0] !== FORMAT_WITH_INSPECTED) {
    throw new Error(
      `Measurement block has format ${data[0]}, expected ${FORMAT} or ${FORMAT_WITH_INSPECTED}: written by a newer version?`,
    );
  }
  // Typed-array views need an 8-byte boundary; a buffer that Node took from its pool may not start on one.
  return data.byteOffset % 8 === 0 ? data : Buffer.from(new Uint8Array(data).buffer);
}

function readColumn(
  bytes: ArrayBufferLike,
  position: number,
  encoding: number,
  count: number,
  to: Float64Array | Uint32Array,
  at: number,
): void {
  if (encoding === CONSTANT) {
    to.fill(new Float64Array(bytes, position, 1)[0] as number, at, at + count);
  } else if (encoding === OFFSET) {
    const base = new Float64Array(bytes, position, 1)[0] as number;
    const offsets = new Uint32Array(bytes, position + 8, count);
    for (let i = 0; i < count; i++) to[at + i] = base + (offsets[i] as number);
  } else {
    to.set(numbersAt(bytes, position, encoding, count), at);
  }
}

/** Unpacks the measurement at one position of a block into `into` at `at`. `data` begins at a multiple of 8 bytes. */
export function decodeOneInto(data: Buffer, position: number, into: MeasurementSeries, at: number): void {
  const count = blockCount(data);
  let offset = 16;
  for (const name of COLUMNS) {
    const encoding = data.readDoubleLE(offset);
    into[name][at] = numberAt(data, offset + 8, encoding, position);
    offset += columnSize(encoding, count);
  }
  if (data[0] === FORMAT_WITH_INSPECTED) {
    into.inspected ??= noneInspected(into.count);
    into.inspected[at] = numberAt(data, offset + 8, data.readDoubleLE(offset), position);
  }
}

function numberAt(data: Buffer, offset: number, encoding: number, position: number): number {
  switch (encoding) {
    case CONSTANT:
      return data.readDoubleLE(offset);
    case U8:
      return data[offset + position] as number;
    case U16:
      return data.readUInt16LE(offset + 2 * position);
    case U32:
      return data.readUInt32LE(offset + 4 * position);
    case F64:
      return data.readDoubleLE(offset + 8 * position);
    default:
      return data.readDoubleLE(offset) + data.readUInt32LE(offset + 8 + 4 * position);
  }
}

/** No block has its times, which are its first column, behind this byte. */
export const TIMES_END = 16 + 16 + 8 * BLOCK_SIZE;

/** When the measurements of a block were taken, in its order; `data` may end at TIMES_END. */
export function blockTimes(data: Buffer): Float64Array {
  const aligned = readable(data);
  const count = blockCount(aligned);
  const times = new Float64Array(count);
  const position = aligned.byteOffset + 16;
  const encoding = new Float64Array(aligned.buffer, position, 1)[0] as number;
  readColumn(aligned.buffer, position + 8, encoding, count, times, 0);
  return times;
}

/** Unpacks blocks that follow each other into one series. */
export function decodeBlocks(blocks: readonly Buffer[]): MeasurementSeries {
  const series = emptySeries(blocks.reduce((sum, data) => sum + blockCount(data), 0));
  let at = 0;
  for (const data of blocks) at = decodeBlockInto(data, series, at);
  return series;
}
