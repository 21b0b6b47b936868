import type { FieldRow } from "./csv";
import { textOf } from "./csv";

const SPACE = 32;

/** Where the text of a column comes from: a field of the row, or the same bytes for every row. */
export type Source = { index: number; constant: Uint8Array | null };

/** A field without the blanks around it. Reused from field to field, for the same reason as `FieldRow`. */
export class Field {
  bytes: Uint8Array = new Uint8Array(0);
  start = 0;
  end = 0;

  /** Moves to the column's text in this row and says whether there is any. */
  moveTo(row: FieldRow, source: Source): boolean {
    if (source.constant !== null) {
      this.bytes = source.constant;
      this.start = 0;
      this.end = source.constant.length;
    } else if (source.index >= row.count) {
      this.end = this.start;
    } else {
      const bytes = row.bytes;
      let start = row.starts[source.index] as number;
      let end = row.ends[source.index] as number;
      while (end > start && (bytes[end - 1] as number) <= SPACE) end--;
      while (start < end && (bytes[start] as number) <= SPACE) start++;
      this.bytes = bytes;
      this.start = start;
      this.end = end;
    }
    return this.end > this.start;
  }

  text(): string {
    return textOf(this.bytes, this.start, this.end);
  }
}

/** Several fields put together in bytes of our own, to be looked up or read as one. */
export class JoinedField {
  bytes = new Uint8Array(1_024);
  length = 0;

  clear(): void {
    this.length = 0;
  }

  byte(value: number): void {
    if (this.length === this.bytes.length) this.reserve(1);
    this.bytes[this.length++] = value;
  }

  append(field: Field): void {
    const { bytes, start, end } = field;
    if (this.length + end - start > this.bytes.length) this.reserve(end - start);
    const own = this.bytes;
    let to = this.length;
    for (let at = start; at < end; at++) own[to++] = bytes[at] as number;
    this.length = to;
  }

  text(): string {
    return textOf(this.bytes, 0, this.length);
  }

  private reserve(more: number): void {
    const larger = new Uint8Array((this.length + more) * 2);
    larger.set(this.bytes.subarray(0, this.length));
    this.bytes = larger;
  }
}
