import { type MeasurementSeries, NAME_COLUMNS, NUMBER_COLUMNS, ORIGIN_COLUMNS } from "./series";

const COLUMNS = [...NUMBER_COLUMNS, ...NAME_COLUMNS, ...ORIGIN_COLUMNS] as const;
type Column = Float64Array | Uint32Array;

/** Whether two columns hold the same; NaN is NaN. */
export function isAlike(a: Column, b: Column): boolean {
  if (a === b) return true;
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) {
    if (a[i] !== b[i] && !(Number.isNaN(a[i]) && Number.isNaN(b[i]))) return false;
  }
  return true;
}

/**
 * Makes columns of a series from those of others, `make` from one column of each. Where a column is made from the same
 * as that of the series made before, it is the very same: most features of a part are measured on the same pieces, and
 * hold nothing of their own but values.
 */
export class ColumnMaker {
  private before: { from: readonly MeasurementSeries[]; made: MeasurementSeries } | null = null;

  constructor(private readonly make: (columns: readonly Column[]) => Column) {}

  /** Without what was inspected: only counts state it, and nobody compares columns of these. */
  series(count: number, from: readonly MeasurementSeries[]): MeasurementSeries {
    const { before } = this;
    const made = { count, inspected: null } as Record<string, number | Column | null>;
    for (const name of COLUMNS) {
      const isAsBefore = before?.from.every((series, i) => isAlike(series[name], from[i]![name])) === true;
      made[name] = isAsBefore ? before!.made[name] : this.make(from.map((series) => series[name]));
    }
    this.before = { from, made: made as unknown as MeasurementSeries };
    return this.before.made;
  }
}

/** As it is. */
export function columnItself([column]: readonly Column[]): Column {
  return column!;
}

/** One behind the other. */
export function columnsJoined(columns: readonly Column[]): Column {
  const length = columns.reduce((sum, column) => sum + column.length, 0);
  const out = columns[0] instanceof Uint32Array ? new Uint32Array(length) : new Float64Array(length);
  let at = 0;
  for (const column of columns) {
    out.set(column, at);
    at += column.length;
  }
  return out;
}
