import type { FieldRow } from "./csv";
import { CSV_LIMITS, textOf } from "./csv";
import type { DecimalMark } from "./mapping";
import { UnreadableFile } from "./unreadable-file";

/** A cell of a spreadsheet. A date is the wall time it shows, held as if it were UTC. */
export type Cell =
  | string
  | number
  | boolean
  | Date
  | null
  | { formula: string; result: string | number | boolean | Date | { error: string } | null }
  | { error: string };

/**
 * The cell as the text a CSV file would hold, numbers at full precision with the decimal mark of the mapping.
 *
 * A formula stands for its stored result; without one its own text is left ("=A1+B1"), which every check refuses
 * by name. An error value is its text ("#N/A").
 */
export function cellText(cell: Cell, decimal: DecimalMark): string {
  if (cell === null) return "";
  if (typeof cell === "string") return cell;
  if (typeof cell === "number") return decimal === "." ? String(cell) : String(cell).replace(".", decimal);
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  if (cell instanceof Date) return Number.isNaN(cell.getTime()) ? "#VALUE!" : cell.toISOString().slice(0, -1);
  if ("error" in cell) return cell.error;
  return cell.result === null ? `=${cell.formula}` : cellText(cell.result, decimal);
}

/** A spreadsheet row in the shape of a CSV row, so that both pass the same checks. */
export class CellRow implements FieldRow {
  line = 0;
  count = 0;
  bytes = new Uint8Array(4_096);
  readonly starts = new Int32Array(CSV_LIMITS.columns);
  readonly ends = new Int32Array(CSV_LIMITS.columns);
  readonly problem = null;
  /** Cells lie end to end here, with nothing to tell one from the next. */
  readonly isPlain = false;
  private readonly encoder = new TextEncoder();

  constructor(private readonly decimal: DecimalMark) {}

  /** Takes the cells of a row; a row shorter than `width` is filled up, since empty cells at its end are not stored. */
  set(line: number, cells: readonly Cell[], width: number): void {
    this.line = line;
    let count = cells.length;
    while (count > width && (cells[count - 1] ?? null) === null) count--;
    this.count = Math.max(count, width);
    if (this.count > CSV_LIMITS.columns) {
      throw new UnreadableFile(
        "too-many-columns",
        line,
        `the row has more than ${CSV_LIMITS.columns} columns.`,
      );
    }
    let at = 0;
    for (let index = 0; index < this.count; index++) {
      const text = cellText(cells[index] ?? null, this.decimal);
      if (text.length > CSV_LIMITS.fieldBytes) {
        throw new UnreadableFile(
          "field-too-long",
          line,
          `a cell holds ${text.length} characters, at most ${CSV_LIMITS.fieldBytes} are read.`,
        );
      }
      if (at + text.length * 3 > this.bytes.length) {
        const larger = new Uint8Array((at + text.length * 3) * 2);
        larger.set(this.bytes.subarray(0, at));
        this.bytes = larger;
      }
      this.starts[index] = at;
      at += this.encoder.encodeInto(text, this.bytes.subarray(at)).written;
      this.ends[index] = at;
    }
  }

  raw(most: number): string {
    const fields: string[] = [];
    for (let i = 0; i < this.count; i++)
      fields.push(textOf(this.bytes, this.starts[i] as number, this.ends[i] as number));
    return fields.join("\t").slice(0, most);
  }
}
