import { factorise, solve, type Triangle } from "./cholesky";
import { lotWeight, type Ratios, type Strata, weighted } from "./strata";

/** Indicator columns of one kind of source: which of its `count` columns is 1 on each row, −1 for none. */
export type IndicatorGroup = { of: Int32Array; count: number };

/**
 * The columns of a model: groups of indicators, then dense ones (faults that were explained).
 *
 * Nearly all columns are indicators, and on a row one of a group is 1 at most: a product with all of them is one
 * pass over the rows for each group, however many sources it has.
 */
export type Columns = {
  size: number;
  /** Number of the column that is 1 on each row, counted over all groups; −1 for none. */
  groups: Int32Array[];
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
  let size = 0;
  const groups = indicators.map(({ of, count }) => {
    const first = size;
    size += count;
    return first === 0 ? of : of.map((own) => (own < 0 ? -1 : own + first));
  });
  const firstDense = size;
  size += dense.length;
  const columns = { size, groups, dense: [...dense] };
  return {
    ...columns,
    cells: cellSums(strata, columns),
    products: crossProducts(strata.pieces, columns, firstDense),
  };
}

type Plain = Pick<Columns, "size" | "groups" | "dense">;

function cellSums({ cells, cellStart }: Strata, { size, groups, dense }: Plain): Columns["cells"] {
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
      for (const group of groups) if (group[i]! >= 0) add(group[i]!, 1);
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

function crossProducts(pieces: number, { size, groups, dense }: Plain, firstDense: number): Float64Array {
  const out = new Float64Array(size * size);
  for (const [g, a] of groups.entries()) {
    for (const b of groups.slice(0, g + 1)) {
      for (let i = 0; i < pieces; i++) {
        if (a[i]! >= 0 && b[i]! >= 0) out[a[i]! * size + b[i]!]!++;
      }
    }
  }
  for (const [d, column] of dense.entries()) {
    const row = (firstDense + d) * size;
    for (const group of groups) {
      for (let i = 0; i < pieces; i++) if (group[i]! >= 0) out[row + group[i]!]! += column[i]!;
    }
    for (const [e, other] of dense.slice(0, d + 1).entries()) {
      for (let i = 0; i < pieces; i++) out[row + firstDense + e]! += column[i]! * other[i]!;
    }
  }
  for (let a = 0; a < size; a++) for (let b = 0; b < a; b++) out[b * size + a] = out[a * size + b]!;
  return out;
}

/** Xᵀv over rows `from` to `to` − 1, added to `out` from `at` on. */
export function addProducts(
  { size, groups, dense }: Columns,
  v: Float64Array,
  into: { out: Float64Array; at: number; from: number; to: number },
): void {
  const { out, at, from, to } = into;
  for (const group of groups) {
    for (let i = from; i < to; i++) {
      const k = group[i]!;
      if (k >= 0) out[at + k]! += v[i]!;
    }
  }
  const firstDense = at + size - dense.length;
  for (let d = 0; d < dense.length; d++) {
    const column = dense[d]!;
    let sum = 0;
    for (let i = from; i < to; i++) sum += column[i]! * v[i]!;
    out[firstDense + d]! += sum;
  }
}

/** What is needed to take columns off a vector: the factor of XᵀV⁻¹X. */
export type Generalised = { strata: Strata; columns: Columns; ratios: Ratios; gram: Triangle };

const COLLINEAR = 1e-9;

/** XᵀV⁻¹X from sums by cell and lot alone, factorised. */
export function generalised(strata: Strata, columns: Columns, ratios: Ratios): Generalised {
  const { size, cells, products } = columns;
  const gram = Float64Array.from(products);
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

/** (XᵀV⁻¹X)⁻¹ XᵀV⁻¹ value */
export function coefficientsOf(gls: Generalised, value: Float64Array): Float64Array {
  const weights = scratch(value.length);
  weighted(gls.strata, gls.ratios, value, weights);
  const out = new Float64Array(gls.columns.size);
  addProducts(gls.columns, weights, { out, at: 0, from: 0, to: value.length });
  solve(gls.gram, out);
  return out;
}

/** residual = value − X (XᵀV⁻¹X)⁻¹ XᵀV⁻¹ value */
export function leave(gls: Generalised, value: Float64Array, residual: Float64Array): void {
  const { groups, dense, size } = gls.columns;
  const coefficients = coefficientsOf(gls, value);
  residual.set(value);
  for (const group of groups) {
    for (let i = 0; i < residual.length; i++) {
      const k = group[i]!;
      if (k >= 0) residual[i]! -= coefficients[k]!;
    }
  }
  for (const [d, column] of dense.entries()) {
    const b = coefficients[size - dense.length + d]!;
    if (b === 0) continue;
    for (let i = 0; i < residual.length; i++) residual[i]! -= b * column[i]!;
  }
}

/** One vector serves all: each caller is done with it before the next begins. */
let kept = new Float64Array(0);
function scratch(length: number): Float64Array {
  if (kept.length < length) kept = new Float64Array(length);
  return kept.subarray(0, length);
}
