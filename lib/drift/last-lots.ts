import { ColumnMaker } from "../measurements/alike";
import { formLots, type LotWindow } from "./lots";
import type { MeasuredPart } from "./measured-part";

/** `dropped` are ids of the lots that are left out. */
export type LastLots = { part: MeasuredPart; lots: string[]; dropped: ReadonlySet<number> };

/**
 * A part with only the measurements that the scan looks at, those of its last lots, so that a long history need not
 * be kept; what the scan finds is the same. `lots` names them in time. Where no measurement names a lot all are kept,
 * for the runs of pieces that stand for lots are cut from the whole history.
 */
export function withLastLots(
  part: MeasuredPart,
  { windowLots, lotCode }: { windowLots: number; lotCode: (id: number) => string },
): LastLots {
  const window = formLots(part, { codeOf: (_kind, id) => lotCode(id), windowLots });
  const dropped = new Set<number>();
  if (window.byTime !== null) return { part, lots: window.codes, dropped };
  let cut: Cut | null = null;
  const features = part.features.map((feature) => {
    const { series } = feature;
    // Most features have their column of lots in common.
    if (cut?.of !== series.lot) cut = cutOf(series.lot, window, dropped);
    const { rows, maker } = cut;
    return rows.length === series.count
      ? feature
      : { ...feature, series: maker.series(rows.length, [series]) };
  });
  return { part: { ...part, features }, lots: window.codes, dropped };
}

/** Rows of a column of lots that lie in the window. */
type Cut = { of: Uint32Array; rows: Uint32Array; maker: ColumnMaker };

function cutOf(of: Uint32Array, window: LotWindow, dropped: Set<number>): Cut {
  const rows = new Uint32Array(of.length);
  let count = 0;
  // Lots come in runs.
  let isIn = false;
  for (let i = 0; i < of.length; i++) {
    if (i === 0 || of[i] !== of[i - 1]) {
      isIn = window.indexOf(of[i]!) >= 0;
      if (!isIn) dropped.add(of[i]!);
    }
    if (isIn) rows[count++] = i;
  }
  const kept = rows.subarray(0, count);
  return { of, rows: kept, maker: new ColumnMaker(([column]) => pickedFrom(column!, kept)) };
}

// A loop for each kind of array: one that saw both would be compiled for neither.

function pickedFrom(column: Float64Array | Uint32Array, rows: Uint32Array): Float64Array | Uint32Array {
  return column instanceof Uint32Array ? pickedIds(column, rows) : pickedNumbers(column, rows);
}

function pickedIds(column: Uint32Array, rows: Uint32Array): Uint32Array {
  const out = new Uint32Array(rows.length);
  for (let k = 0; k < rows.length; k++) out[k] = column[rows[k]!]!;
  return out;
}

function pickedNumbers(column: Float64Array, rows: Uint32Array): Float64Array {
  const out = new Float64Array(rows.length);
  for (let k = 0; k < rows.length; k++) out[k] = column[rows[k]!]!;
  return out;
}
