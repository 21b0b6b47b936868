import { factorise, solve, type Triangle } from "./cholesky";
import { lotWeight, type Ratios, type Strata, takenOff } from "./strata";

/** Indicator columns of one kind of source: which of its `count` columns is 1 on each row, −1 for none. */
export type IndicatorGroup = { of: Int32Array; count: number };

/**
 * The columns of a model: groups of indicators, then dense ones (faults that were explained).
 *
 * Rows on which the same indicators are 1 are of one sort, and there are few sorts: a product with all indicators is
 * one pass over the rows, by sort, however many sources there are. Measured: a tenth of the time of a pass a group.
 */
export type Columns = {
  size: number;
  sortOf: Int32Array;
  /** Columns that are 1 on the rows of a sort: entries starts[sort] … starts[sort + 1] − 1. */
  sorts: { count: number; starts: Int32Array; column: Int32Array };
  dense: Float64Array[];
  /** Of each cell the columns that are not zero in it, with their sums: entries starts[c] … starts[c + 1] − 1. */
  cells: { starts: Int32Array; column: Int32Array; sum: Float64Array };
  /** XᵀX */
  products: Float64Array;
};

export function columnsOf(
  strata: Strata,
  indicators: readonly IndicatorGroup[],
  dense: readonly Float64Array[],
): Columns {
  const sorted = sortRows(strata.pieces, indicators);
  const size = indicators.reduce((sum, { count }) => sum + count, dense.length);
  return summed(strata, { size, ...sorted, dense: [...dense] });
}

/** The same columns and dense ones besides. */
export function withDense(strata: Strata, columns: Columns, dense: readonly Float64Array[]): Columns {
  if (dense.length === 0) return columns;
  const { size, sortOf, sorts } = columns;
  return summed(strata, { size: size + dense.length, sortOf, sorts, dense: [...columns.dense, ...dense] });
}

function summed(strata: Strata, columns: Plain): Columns {
  const { size, sortOf, sorts, dense } = columns;
  const cells = sumsInCells(strata, columns);
  // Written out, so that all columns have one shape for the compiler.
  return { size, sortOf, sorts, dense, cells, products: crossProducts(strata.pieces, columns) };
}

type Plain = Pick<Columns, "size" | "sortOf" | "sorts" | "dense">;

/** Each group of indicators splits the sorts there are so far. */
function sortRows(pieces: number, indicators: readonly IndicatorGroup[]): Pick<Columns, "sortOf" | "sorts"> {
  const sortOf = new Int32Array(pieces);
  let own: number[][] = [[]];
  let firstColumn = 0;
  for (const { of, count } of indicators) {
    const splits = new Int32Array(own.length * (count + 1)).fill(-1);
    const finer: number[][] = [];
    for (let i = 0; i < pieces; i++) {
      const split = sortOf[i]! * (count + 1) + of[i]! + 1;
      if (splits[split]! < 0) {
        const before = own[sortOf[i]!]!;
        splits[split] = finer.push(of[i]! < 0 ? before : [...before, firstColumn + of[i]!]) - 1;
      }
      sortOf[i] = splits[split]!;
    }
    own = finer;
    firstColumn += count;
  }
  const starts = new Int32Array(own.length + 1);
  for (const [sort, columns] of own.entries()) starts[sort + 1] = starts[sort]! + columns.length;
  return { sortOf, sorts: { count: own.length, starts, column: Int32Array.from(own.flat()) } };
}

function sumsInCells({ cells, cellStart }: Strata, { size, sortOf, sorts, dense }: Plain): Columns["cells"] {
  const starts = new Int32Array(cells + 1);
  const column: number[] = [];
  const sum: number[] = [];
  const sums = new Float64Array(size);
  const isSeen = new Uint8Array(size);
  const firstDense = size - dense.length;
  for (let c = 0; c < cells; c++) {
    const begin = column.length;
    const add = (k: number, value: number) => {
      if (isSeen[k] === 0) {
        isSeen[k] = 1;
        column.push(k);
      }
      sums[k]! += value;
    };
    for (let i = cellStart[c]!; i < cellStart[c + 1]!; i++) {
      const sort = sortOf[i]!;
      for (let at = sorts.starts[sort]!; at < sorts.starts[sort + 1]!; at++) add(sorts.column[at]!, 1);
      for (let d = 0; d < dense.length; d++) if (dense[d]![i] !== 0) add(firstDense + d, dense[d]![i]!);
    }
    for (let at = begin; at < column.length; at++) {
      const k = column[at]!;
      sum.push(sums[k]!);
      sums[k] = 0;
      isSeen[k] = 0;
    }
    starts[c + 1] = column.length;
  }
  return { starts, column: Int32Array.from(column), sum: Float64Array.from(sum) };
}

function crossProducts(pieces: number, columns: Plain): Float64Array {
  const { size, sortOf, sorts, dense } = columns;
  const out = new Float64Array(size * size);
  const counts = new Float64Array(sorts.count);
  for (let i = 0; i < pieces; i++) counts[sortOf[i]!]!++;
  for (let sort = 0; sort < sorts.count; sort++) {
    for (let a = sorts.starts[sort]!; a < sorts.starts[sort + 1]!; a++) {
      const row = sorts.column[a]! * size;
      for (let b = sorts.starts[sort]!; b < sorts.starts[sort + 1]!; b++) {
        out[row + sorts.column[b]!]! += counts[sort]!;
      }
    }
  }
  const firstDense = size - dense.length;
  const own = new Float64Array(size);
  for (const [d, column] of dense.entries()) {
    own.fill(0);
    addProducts(columns, column, own);
    for (let k = 0; k < size; k++)
      out[(firstDense + d) * size + k] = out[k * size + firstDense + d] = own[k]!;
  }
  return out;
}

/** Xᵀv, added to `out`. */
export function addProducts(columns: Plain, v: Float64Array, out: Float64Array): void {
  const sums = new Float64Array(columns.sorts.count);
  for (let i = 0; i < v.length; i++) sums[columns.sortOf[i]!]! += v[i]!;
  addProductsOf(columns, v, { sums, out });
}

/** @param sums Σ v by sort */
function addProductsOf(
  { size, sorts, dense }: Plain,
  v: Float64Array,
  { sums, out }: { sums: Float64Array; out: Float64Array },
): void {
  for (let sort = 0; sort < sorts.count; sort++) {
    const end = sorts.starts[sort + 1]!;
    for (let at = sorts.starts[sort]!; at < end; at++) out[sorts.column[at]!]! += sums[sort]!;
  }
  const firstDense = size - dense.length;
  for (let d = 0; d < dense.length; d++) {
    const column = dense[d]!;
    let sum = 0;
    for (let i = 0; i < v.length; i++) sum += column[i]! * v[i]!;
    out[firstDense + d]! += sum;
  }
}

/** The columns' values on row i, each times `share`, added to `out` from `at` on. */
export function addRow(
  { size, sortOf, sorts, dense }: Columns,
  i: number,
  share: number,
  out: Float64Array,
  at: number,
): void {
  const sort = sortOf[i]!;
  const end = sorts.starts[sort + 1]!;
  for (let place = sorts.starts[sort]!; place < end; place++) out[at + sorts.column[place]!]! += share;
  const firstDense = at + size - dense.length;
  for (let d = 0; d < dense.length; d++) out[firstDense + d]! += share * dense[d]![i]!;
}

/** What is needed to take columns off a vector: the factor of XᵀV⁻¹X. */
export type Generalised = { strata: Strata; columns: Columns; ratios: Ratios; gram: Triangle };

const COLLINEAR = 1e-9;

/** XᵀV⁻¹X from sums by cell and lot alone, factorised. */
export function generalised(strata: Strata, columns: Columns, ratios: Ratios): Generalised {
  const { size, cells, products } = columns;
  const gram = products.slice();
  const total = new Float64Array(size);
  for (let l = 0; l < strata.lots; l++) {
    let weight = 0;
    const first = strata.lotCells[l]!;
    const end = strata.lotCells[l + 1]!;
    for (let c = first; c < end; c++) {
      const n = strata.cellStart[c + 1]! - strata.cellStart[c]!;
      const d = 1 + n * ratios.cell;
      weight += n / d;
      const from = cells.starts[c]!;
      const to = cells.starts[c + 1]!;
      for (let a = from; a < to; a++) {
        const row = cells.column[a]! * size;
        const less = (ratios.cell * cells.sum[a]!) / d;
        total[cells.column[a]!]! += cells.sum[a]! / d;
        for (let b = from; b < to; b++) gram[row + cells.column[b]!]! -= less * cells.sum[b]!;
      }
    }
    if (weight === 0) continue;
    const less = lotWeight(ratios.lot, weight);
    const entries = presentIn(total);
    for (const a of entries) for (const b of entries) gram[a * size + b]! -= less * total[a]! * total[b]!;
    for (const a of entries) total[a] = 0;
  }
  const floors = Float64Array.from({ length: size }, (_, k) => COLLINEAR * products[k * size + k]!);
  return { strata, columns, ratios, gram: factorise(gram, size, { tolerance: COLLINEAR, floors }) };
}

function presentIn(values: Float64Array): number[] {
  const present: number[] = [];
  for (let k = 0; k < values.length; k++) if (values[k] !== 0) present.push(k);
  return present;
}

/**
 * Takes from the products of lots `first` to `end` − 1 what lots and cells take off: from Xᵀu it leaves XᵀV⁻¹u.
 *
 * @param off by cell, as `takenOff` gives it
 */
export function takeCellsOff(
  { cells: { starts, column, sum } }: Columns,
  { first, end }: { first: number; end: number },
  off: Float64Array,
  { out, at }: { out: Float64Array; at: number },
): void {
  for (let c = first; c < end; c++) {
    const less = off[c]!;
    if (less === 0) continue;
    const to = starts[c + 1]!;
    for (let place = starts[c]!; place < to; place++) out[at + column[place]!]! -= sum[place]! * less;
  }
}

/** (XᵀV⁻¹X)⁻¹ XᵀV⁻¹ value */
export function coefficientsOf(
  { strata, columns, ratios, gram }: Generalised,
  value: Float64Array,
): Float64Array {
  const out = new Float64Array(columns.size);
  const off = new Float64Array(strata.cells);
  const sums = new Float64Array(columns.sorts.count);
  const { cells, cellStart } = strata;
  const { sortOf } = columns;
  // By cell and by sort in one pass.
  for (let c = 0; c < cells; c++) {
    const to = cellStart[c + 1]!;
    let sum = 0;
    for (let i = cellStart[c]!; i < to; i++) {
      sum += value[i]!;
      sums[sortOf[i]!]! += value[i]!;
    }
    off[c] = sum;
  }
  addProductsOf(columns, value, { sums, out });
  takenOff(strata, ratios, off, { out: off });
  takeCellsOff(columns, { first: 0, end: strata.cells }, off, { out, at: 0 });
  solve(gram, out);
  return out;
}

/** residual = value − X (XᵀV⁻¹X)⁻¹ XᵀV⁻¹ value */
export function leave(gls: Generalised, value: Float64Array, residual: Float64Array): void {
  const { sortOf, sorts, dense, size } = gls.columns;
  const coefficients = coefficientsOf(gls, value);
  const fitted = new Float64Array(sorts.count);
  for (let sort = 0; sort < sorts.count; sort++) {
    const end = sorts.starts[sort + 1]!;
    for (let at = sorts.starts[sort]!; at < end; at++) fitted[sort]! += coefficients[sorts.column[at]!]!;
  }
  for (let i = 0; i < value.length; i++) residual[i] = value[i]! - fitted[sortOf[i]!]!;
  for (let d = 0; d < dense.length; d++) {
    const column = dense[d]!;
    const b = coefficients[size - dense.length + d]!;
    if (b === 0) continue;
    for (let i = 0; i < residual.length; i++) residual[i]! -= b * column[i]!;
  }
}
