import { inGroups, risingOrder } from "./order";
import type { PieceTable } from "./piece-table";

/**
 * Rows on which a feature was measured, and those of them that follow each other within a cell or, where cells hold too
 * few, in time within a lot: as pairs.
 */
export type Observed = { rows: Int32Array; first: Int32Array; second: Int32Array };

/** Fewer pairs within cells than this, and pairs within lots are taken. */
const LEAST_PAIRS = 15;

/** Most features of a table are measured on the same rows: these and their neighbours are found once. */
export class Neighbours {
  private readonly everyRow: Int32Array;
  private last: Observed | null = null;

  constructor(private readonly table: PieceTable) {
    this.everyRow = Int32Array.from({ length: table.pieces }, (_, row) => row);
  }

  around(values: Float64Array): Observed {
    const rows = this.observedRows(values);
    if (this.last === null || !isSame(this.last.rows, rows)) this.last = { rows, ...this.pairsOn(rows) };
    return this.last;
  }

  private observedRows(values: Float64Array): Int32Array {
    let count = 0;
    for (let row = 0; row < values.length; row++) if (!Number.isNaN(values[row])) count++;
    if (count === values.length) return this.everyRow;
    const rows = new Int32Array(count);
    count = 0;
    for (let row = 0; row < values.length; row++) if (!Number.isNaN(values[row])) rows[count++] = row;
    return rows;
  }

  private pairsOn(rows: Int32Array): Omit<Observed, "rows"> {
    const { lotOf, levels, takenAt, lots } = this.table;
    const fixture = levels.fixture.of;
    const inCells = pairsIn(rows, (a, b) => lotOf[a] === lotOf[b] && fixture[a] === fixture[b]);
    if (inCells.first.length >= LEAST_PAIRS) return inCells;
    const byTime = risingOrder(Float64Array.from(rows, (row) => takenAt[row]!));
    const byLot = inGroups(
      byTime,
      Int32Array.from(rows, (row) => lotOf[row]!),
      lots,
    );
    return pairsIn(
      byLot.map((place) => rows[place]!),
      (a, b) => lotOf[a] === lotOf[b],
    );
  }
}

function pairsIn(order: Int32Array, isPair: (a: number, b: number) => boolean): Omit<Observed, "rows"> {
  const first = new Int32Array(order.length);
  const second = new Int32Array(order.length);
  let count = 0;
  for (let i = 1; i < order.length; i++) {
    if (!isPair(order[i - 1]!, order[i]!)) continue;
    first[count] = order[i - 1]!;
    second[count++] = order[i]!;
  }
  return { first: first.subarray(0, count), second: second.subarray(0, count) };
}

/** Sizes of the differences of neighbours. */
export function successiveDifferences(values: Float64Array, { first, second }: Observed): Float64Array {
  const sizes = new Float64Array(first.length);
  for (let p = 0; p < sizes.length; p++) sizes[p] = Math.abs(values[second[p]!]! - values[first[p]!]!);
  return sizes;
}

/** Whether two lists of rows, or two columns of levels, are alike. */
export function isSame(a: Int32Array, b: Int32Array): boolean {
  if (a === b) return true;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return a.length === b.length;
}
