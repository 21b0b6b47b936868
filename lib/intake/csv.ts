import { Utf8Stream, utf8FaultAt } from "./encoding";
import type { FileEncoding, Separator } from "./mapping";
import { UnreadableFile } from "./unreadable-file";

/** Bounds in bytes of UTF-8; a measurement row has some hundred bytes and some dozen columns. */
export type CsvLimits = { fieldBytes: number; rowBytes: number; columns: number };
export const CSV_LIMITS: CsvLimits = { fieldBytes: 65_536, rowBytes: 1_048_576, columns: 4_096 };

/**
 * One row as offsets into bytes: field i is `bytes[starts[i]] … bytes[ends[i] - 1]`, quotes taken away.
 *
 * A string per field costs more than everything else that intake does, so none is made. The reader reuses the
 * row and its bytes: take what you need before you return.
 */
export interface FieldRow {
  /** Physical line, from 1, where the row starts. */
  readonly line: number;
  readonly count: number;
  readonly bytes: Uint8Array;
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /** What is wrong with the quoting of this row, or null. */
  readonly problem: string | null;
  /** No field is quoted: from one field to another the bytes hold nothing but fields and separators. */
  readonly isPlain: boolean;
  /** The row as it stands in the file, at most `most` characters. */
  raw(most: number): string;
}

const LF = 10;
const CR = 13;
const SPACE = 32;
const QUOTE = 34;

/** What a byte means outside (and inside) quotes; 0 is an ordinary byte of the field. */
const BREAK = 1;
const NUL = 2;
const HIGH = 3;

const FIRST_CAPACITY = 1 << 18;
const decoder = new TextDecoder("utf-8", { ignoreBOM: true });

/** The text of a field. Bytes that are not UTF-8 become U+FFFD. */
export function textOf(bytes: Uint8Array, start: number, end: number): string {
  return decoder.decode(bytes.subarray(start, end));
}

export function fieldText(row: FieldRow, index: number): string {
  return textOf(row.bytes, row.starts[index] as number, row.ends[index] as number);
}

/**
 * Reads CSV from chunks of bytes and calls `onRow` for every row that is not empty, in order.
 *
 * RFC 4180 with what files really hold: the separator is given, lines end in LF, CR LF or CR in any mix, the last
 * one may have no end, a quote inside an unquoted field is an ordinary character, spaces may follow a closing
 * quote. Other text after a closing quote makes `row.problem`. How the file is cut into chunks changes nothing:
 * bytes are gathered in a buffer of our own and rows are read when it is full.
 *
 * Source: RFC 4180, section 2 (from memory).
 *
 * @throws UnreadableFile on a NUL byte, text that is not UTF-8, a field, row or column count beyond `limits`, or a
 *   quote that is never closed
 */
export class CsvReader {
  private buffer = new Uint8Array(FIRST_CAPACITY);
  private filled = 0;
  private nextLine = 1;
  private readonly source: Utf8Stream;
  private readonly separator: number;
  private readonly outside = new Uint8Array(256);
  private readonly inside = new Uint8Array(256);
  private readonly limits: CsvLimits;
  private readonly row: BufferRow;

  constructor(
    {
      separator,
      encoding,
      limits = CSV_LIMITS,
    }: { separator: Separator; encoding: FileEncoding; limits?: CsvLimits },
    private readonly onRow: (row: FieldRow) => void,
    /**
     * May take the row that begins at `from` without having it cut into fields, and then tells where the next one
     * begins; -1 when it does not. Sees whole rows before `end` only.
     */
    private readonly takes: (bytes: Uint8Array, from: number, end: number, line: number) => number = () => -1,
  ) {
    this.source = new Utf8Stream(encoding, (bytes) => this.take(bytes));
    this.separator = separator.charCodeAt(0);
    this.limits = limits;
    this.row = new BufferRow(limits.columns);
    for (const meaning of [this.outside, this.inside]) {
      meaning[0] = NUL;
      meaning.fill(HIGH, 0x80);
      for (const byte of [LF, CR]) meaning[byte] = BREAK;
    }
    this.outside[this.separator] = BREAK;
    this.inside[QUOTE] = BREAK;
  }

  push(chunk: Uint8Array): void {
    this.source.push(chunk);
  }

  /** Reads the rows that are complete so far, for a look at the start of a file. */
  flush(): void {
    this.readRows(false);
  }

  end(): void {
    this.source.end();
    this.readRows(true);
  }

  private take(bytes: Uint8Array): void {
    let from = 0;
    while (from < bytes.length) {
      const part = bytes.subarray(from, from + this.buffer.length - this.filled);
      this.buffer.set(part, this.filled);
      this.filled += part.length;
      from += part.length;
      if (this.filled === this.buffer.length) this.readRows(false);
    }
  }

  private readRows(final: boolean): void {
    let from = 0;
    while (from < this.filled) {
      const most = Math.min(this.filled, from + this.limits.rowBytes);
      const behind = this.takes(this.buffer, from, most, this.nextLine);
      if (behind !== -1) {
        this.nextLine++;
        from = behind;
        continue;
      }
      const next = this.readRow(from, final);
      if (next === -1) break;
      from = next;
    }
    this.buffer.copyWithin(0, from, this.filled);
    this.filled -= from;
    if (this.filled * 2 > this.buffer.length) {
      // Doubling keeps the reading of one very long row linear: each attempt has twice the bytes of the last.
      const larger = new Uint8Array(this.buffer.length * 2);
      larger.set(this.buffer.subarray(0, this.filled));
      this.buffer = larger;
    }
  }

  /** Reads the row at `from` and hands it on. Returns where the next one starts, or -1 when bytes are missing. */
  private readRow(from: number, final: boolean): number {
    const { buffer, filled, outside, inside, separator, row } = this;
    const { fieldBytes, rowBytes, columns } = this.limits;
    const { starts, ends, doubled } = row;
    let at = from;
    let count = 0;
    let breaksInside = 0;
    let high = false;
    let quotes = false;
    let problem: string | null = null;
    if (doubled.length > 0) doubled.length = 0;

    for (;;) {
      let start = at;
      let end = -1;
      if (buffer[at] === QUOTE && at < filled) {
        quotes = true;
        start = ++at;
        let previous = -1;
        while (end === -1) {
          while (at < filled && inside[buffer[at] as number] === 0) at++;
          if (at - start > fieldBytes) throw this.fieldTooLong(true);
          if (at >= filled) {
            if (final) throw this.unclosedQuote();
            return this.incomplete(from, filled);
          }
          const byte = buffer[at] as number;
          if (byte === QUOTE) {
            if (at + 1 === filled && !final) return this.incomplete(from, filled);
            if (at + 1 < filled && buffer[at + 1] === QUOTE) {
              if (previous !== count) doubled.push(count);
              previous = count;
              at += 2;
            } else {
              end = at++;
            }
          } else {
            if (byte >= 0x80) high = true;
            else if (byte === 0) throw this.binary();
            else if (byte === LF || buffer[at + 1] !== LF) breaksInside++;
            at++;
          }
        }
        while (at < filled && buffer[at] === SPACE) at++;
      }

      const unquoted = at;
      for (;;) {
        while (at < filled && outside[buffer[at] as number] === 0) at++;
        if (at >= filled) break;
        const meaning = outside[buffer[at] as number];
        if (meaning === BREAK) break;
        if (meaning === NUL) throw this.binary();
        high = true;
        at++;
      }
      if (end === -1) end = at;
      else if (at > unquoted) problem = AFTER_QUOTE;
      if (at - start > fieldBytes) throw this.fieldTooLong(false);
      if (at >= filled && !final) return this.incomplete(from, filled);
      if (at - from > rowBytes) throw this.rowTooLong();
      if (count === columns) throw this.tooManyColumns();
      starts[count] = start;
      ends[count] = end;
      count++;
      if (at >= filled || buffer[at] !== separator) break;
      at++;
    }

    // A CR that ends the buffer may be the first half of a CR LF.
    if (buffer[at] === CR && at + 1 === filled && !final) return this.incomplete(from, filled);
    const stop = at;
    if (at < filled) at += buffer[at] === CR && at + 1 < filled && buffer[at + 1] === LF ? 2 : 1;
    if (high) this.requireUtf8(from, stop);

    const line = this.nextLine;
    this.nextLine += breaksInside + 1;
    if (count > 1 || stop > from || quotes) {
      row.set({ buffer, from, stop, line, count, problem, isPlain: !quotes });
      this.onRow(row);
    }
    return at;
  }

  private incomplete(from: number, filled: number): -1 {
    if (filled - from > this.limits.rowBytes) throw this.rowTooLong();
    return -1;
  }

  private requireUtf8(from: number, stop: number): void {
    const fault = utf8FaultAt(this.buffer, from, stop);
    if (fault === -1) return;
    let line = this.nextLine;
    for (let at = from; at < fault; at++) {
      if (this.buffer[at] === LF || (this.buffer[at] === CR && this.buffer[at + 1] !== LF)) line++;
    }
    const byte = (this.buffer[fault] as number).toString(16).toUpperCase();
    throw new UnreadableFile(
      "encoding",
      line,
      `the text is not UTF-8 (byte ${byte} hex). Save the file as UTF-8, or choose Windows-1252 in the mapping.`,
    );
  }

  private binary(): UnreadableFile {
    return new UnreadableFile(
      "binary",
      this.nextLine,
      "a zero byte: this is not a text file, or UTF-16 without its mark. Export it as CSV in UTF-8.",
    );
  }

  private fieldTooLong(quoted: boolean): UnreadableFile {
    const why = quoted
      ? " A quote that opens in this row is probably never closed."
      : " Is the separator right?";
    return new UnreadableFile(
      "field-too-long",
      this.nextLine,
      `a field is longer than ${shown(this.limits.fieldBytes)} bytes.${why}`,
    );
  }

  private rowTooLong(): UnreadableFile {
    return new UnreadableFile(
      "row-too-long",
      this.nextLine,
      `the row that starts here is longer than ${shown(this.limits.rowBytes)} bytes. Look for a quote that is never closed.`,
    );
  }

  private tooManyColumns(): UnreadableFile {
    return new UnreadableFile(
      "too-many-columns",
      this.nextLine,
      `the row has more than ${shown(this.limits.columns)} columns. Is the separator right?`,
    );
  }

  private unclosedQuote(): UnreadableFile {
    return new UnreadableFile(
      "unclosed-quote",
      this.nextLine,
      'a quote that opens in the row that starts here is never closed. Close it, or double a quote (") that is part of the text.',
    );
  }
}

const AFTER_QUOTE =
  'Text follows a closing quote. Double a quote (") that is part of the text, or take the quotes away.';

/** A row of the reader's buffer; where a field holds doubled quotes, of a copy in which they are single. */
class BufferRow implements FieldRow {
  line = 0;
  count = 0;
  bytes: Uint8Array = new Uint8Array(0);
  problem: string | null = null;
  isPlain = true;
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /** Indexes of the fields with doubled quotes. */
  readonly doubled: number[] = [];
  private buffer: Uint8Array = this.bytes;
  private from = 0;
  private stop = 0;

  constructor(columns: number) {
    this.starts = new Int32Array(columns);
    this.ends = new Int32Array(columns);
  }

  set(found: {
    buffer: Uint8Array;
    from: number;
    stop: number;
    line: number;
    count: number;
    problem: string | null;
    isPlain: boolean;
  }) {
    this.buffer = found.buffer;
    this.bytes = found.buffer;
    this.from = found.from;
    this.stop = found.stop;
    this.line = found.line;
    this.count = found.count;
    this.problem = found.problem;
    this.isPlain = found.isPlain;
    if (this.doubled.length > 0) this.undouble();
  }

  raw(most: number): string {
    // UTF-8 spends at most four bytes on a character.
    return textOf(this.buffer, this.from, Math.min(this.stop, this.from + most * 4)).slice(0, most);
  }

  /** Works on a copy: the refusal of a row shows it as it stands in the file. */
  private undouble(): void {
    const copy = this.buffer.slice(this.from, this.stop);
    for (let i = 0; i < this.count; i++) {
      this.starts[i] = (this.starts[i] as number) - this.from;
      this.ends[i] = (this.ends[i] as number) - this.from;
    }
    for (const field of this.doubled) {
      const end = this.ends[field] as number;
      let to = this.starts[field] as number;
      for (let at = to; at < end; at++) {
        copy[to++] = copy[at] as number;
        if (copy[at] === QUOTE) at++;
      }
      this.ends[field] = to;
    }
    this.bytes = copy;
  }
}

function shown(bytes: number): string {
  return bytes.toLocaleString("en-US");
}
