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

export function lotStart({ cellStart, lotCells }: Strata, lot: number): number {
  return cellStart[lotCells[lot]!]!;
}

/**
 * V⁻¹u for V = I + λ_C J_cell + λ_L J_lot, in one pass over the pieces, no matrix formed.
 *
 *   within a lot, with cell sums u_c, sizes n_c and d_c = 1 + n_c λ_C:
 *   (V⁻¹u)_i = u_i − λ_C u_c / d_c − (1/d_c) · [λ_L / (1 + λ_L A)] · Σ_c u_c / d_c,     A = Σ_c n_c / d_c
 *
 * Source: Sherman and Morrison (1950), applied twice; the weighting of comparisons within and between blocks
 * is Yates' recovery of inter-block information (1940, from memory).
 */
export function weighted(strata: Strata, ratios: Ratios, u: Float64Array, out: Float64Array): void {
  weightedLots(strata, ratios, { u, out, first: 0, end: strata.lots });
}

/** The same for the pieces of lots `first` to `end` − 1 only: what u is in other lots does not matter to them. */
export function weightedLots(
  strata: Strata,
  { lot, cell }: Ratios,
  {
    u,
    out,
    first: firstLot,
    end: endLot,
  }: { u: Float64Array; out: Float64Array; first: number; end: number },
): void {
  const { cellStart, lotCells } = strata;
  for (let l = firstLot; l < endLot; l++) {
    const first = lotCells[l]!;
    const end = lotCells[l + 1]!;
    let sum = 0;
    let size = 0;
    for (let c = first; c < end; c++) {
      const from = cellStart[c]!;
      const to = cellStart[c + 1]!;
      let total = 0;
      for (let i = from; i < to; i++) total += u[i]!;
      const d = 1 + (to - from) * cell;
      sum += total / d;
      size += (to - from) / d;
      out[from] = total;
    }
    if (size === 0) continue;
    const share = sum * lotWeight(lot, size);
    for (let c = first; c < end; c++) {
      const from = cellStart[c]!;
      const to = cellStart[c + 1]!;
      const less = (cell * out[from]! + share) / (1 + (to - from) * cell);
      for (let i = from; i < to; i++) out[i] = u[i]! - less;
    }
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
