/**
 * Pieces of one feature, sorted by lot and, within a lot, by cell (the pieces of one fixture in that lot).
 *
 * Cell c holds the pieces cellStart[c] … cellStart[c + 1] − 1, lot l the cells lotCells[l] … lotCells[l + 1] − 1;
 * a lot without a piece of this feature has none.
 */
export type Strata = {
  pieces: number;
  lots: number;
  cells: number;
  cellStart: Int32Array;
  lotCells: Int32Array;
};

/**
 * How much lots, and fixtures within a lot, differ from one time to the next, in units of the variance of
 * single pieces. An infinite `lot` trusts nothing but comparisons within lots.
 */
export type Ratios = { lot: number; cell: number };

/**
 * What V⁻¹, V = I + λ_C J_cell + λ_L J_lot, takes off the pieces of each cell, from sums by cell alone:
 *
 *   V⁻¹u = u − q_c on the pieces of cell c,     q_c = (λ_C u_c + s) / d_c
 *
 *   within a lot, with cell sums u_c, sizes n_c and d_c = 1 + n_c λ_C:
 *   s = [λ_L / (1 + λ_L A)] · Σ_c u_c / d_c,     A = Σ_c n_c / d_c
 *
 * Products with V⁻¹ so cost a pass over cells once the sums are known, and no matrix is formed. V couples pieces of
 * one lot only: `out` is written for the cells of lots `first` to `end` − 1, whatever u is in others.
 *
 * Source: Sherman and Morrison (1950), applied twice; the weighting of comparisons within and between blocks
 * is Yates' recovery of inter-block information (1940, from memory).
 */
export function takenOff(
  { lots, cellStart, lotCells }: Strata,
  { lot, cell }: Ratios,
  cells: Float64Array,
  { out, first = 0, end = lots }: { out: Float64Array; first?: number; end?: number },
): void {
  for (let l = first; l < end; l++) {
    const firstCell = lotCells[l]!;
    const endCell = lotCells[l + 1]!;
    let sum = 0;
    let size = 0;
    for (let c = firstCell; c < endCell; c++) {
      const n = cellStart[c + 1]! - cellStart[c]!;
      const d = 1 + n * cell;
      sum += cells[c]! / d;
      size += n / d;
    }
    if (size === 0) continue;
    const share = sum * lotWeight(lot, size);
    for (let c = firstCell; c < endCell; c++) {
      out[c] = (cell * cells[c]! + share) / (1 + (cellStart[c + 1]! - cellStart[c]!) * cell);
    }
  }
}

/** Σ u over the pieces of each cell. */
export function cellSums({ cells, cellStart }: Strata, u: Float64Array, out: Float64Array): void {
  for (let c = 0; c < cells; c++) {
    const to = cellStart[c + 1]!;
    let sum = 0;
    for (let i = cellStart[c]!; i < to; i++) sum += u[i]!;
    out[c] = sum;
  }
}

/** V⁻¹u; `out` may be `u` itself. */
export function weighted(strata: Strata, ratios: Ratios, u: Float64Array, out: Float64Array): void {
  const { cells, cellStart } = strata;
  const off = new Float64Array(cells);
  cellSums(strata, u, off);
  takenOff(strata, ratios, off, { out: off });
  for (let c = 0; c < cells; c++) {
    const to = cellStart[c + 1]!;
    const less = off[c]!;
    for (let i = cellStart[c]!; i < to; i++) out[i] = u[i]! - less;
  }
}

/** λ_L / (1 + λ_L A), which tends to 1/A. */
export function lotWeight(lot: number, size: number): number {
  return lot === Number.POSITIVE_INFINITY ? 1 / size : lot / (1 + lot * size);
}

export function dot(u: Float64Array, v: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < u.length; i++) sum += u[i]! * v[i]!;
  return sum;
}

/** Σ u·v with v from `at` on, in four sums that do not wait for each other: less than half the time of one. */
export function dotAt(u: Float64Array, v: Float64Array, at: number): number {
  const { length } = u;
  const whole = length - (length % 4);
  let a = 0;
  let b = 0;
  let c = 0;
  let d = 0;
  for (let i = 0; i < whole; i += 4) {
    a += u[i]! * v[at + i]!;
    b += u[i + 1]! * v[at + i + 1]!;
    c += u[i + 2]! * v[at + i + 2]!;
    d += u[i + 3]! * v[at + i + 3]!;
  }
  for (let i = whole; i < length; i++) a += u[i]! * v[at + i]!;
  return a + b + (c + d);
}
