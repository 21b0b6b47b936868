/**
 * Lower triangle L of a symmetric matrix G = L Lᵀ, row by row, without the columns that others already say.
 *
 * A column whose remainder falls below `tolerance` times its own size is collinear with those before it; its
 * row and column in L are zero, and solving leaves it out. A floor catches columns that have no size at all.
 *
 * Source: Cholesky's factorisation without pivoting, as in Golub and Van Loan, Matrix Computations (from
 * memory).
 */
export type Triangle = { size: number; rows: Float64Array; kept: Uint8Array };

export function factorise(
  gram: Float64Array,
  size: number,
  { tolerance, floors }: { tolerance: number; floors: ArrayLike<number> },
): Triangle {
  const rows = new Float64Array(size * size);
  const kept = new Uint8Array(size);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      if (j < i && !kept[j]) continue;
      let sum = gram[i * size + j]!;
      for (let k = 0; k < j; k++) sum -= rows[i * size + k]! * rows[j * size + k]!;
      if (j < i) rows[i * size + j] = sum / rows[j * size + j]!;
      else if (sum > Math.max(tolerance * gram[i * size + i]!, floors[i]!)) {
        rows[i * size + i] = Math.sqrt(sum);
        kept[i] = 1;
      }
    }
    if (!kept[i]) for (let k = 0; k < i; k++) rows[i * size + k] = 0;
  }
  return { size, rows, kept };
}

/** Solves L v = u in place; left-out rows become 0. The sum of v² is uᵀG⁻¹u. */
export function solveLower({ size, rows, kept }: Triangle, u: Float64Array): void {
  for (let i = 0; i < size; i++) {
    if (!kept[i]) {
      u[i] = 0;
      continue;
    }
    let sum = u[i]!;
    for (let k = 0; k < i; k++) sum -= rows[i * size + k]! * u[k]!;
    u[i] = sum / rows[i * size + i]!;
  }
}

/** Solves G v = u in place. */
export function solve(triangle: Triangle, u: Float64Array): void {
  solveLower(triangle, u);
  const { size, rows, kept } = triangle;
  for (let i = size - 1; i >= 0; i--) {
    if (!kept[i]) continue;
    let sum = u[i]!;
    for (let k = i + 1; k < size; k++) sum -= rows[k * size + i]! * u[k]!;
    u[i] = sum / rows[i * size + i]!;
  }
}
