import type { Design } from "./design";

/** The rows of a design that something touched, and its value on each; null where that is 1 throughout. */
export type Sparse = { rows: Int32Array; x: Float64Array | null };

/** Designs that have a column in common, as the very same object, have what is made of it in common too. */
export function onEach<Column extends object>(
  designs: readonly Design[],
  columnOf: (design: Design) => Column,
  make: (column: Column) => Sparse | null,
): (Sparse | null)[] {
  const made = new Map<Column, Sparse | null>();
  return designs.map((design) => {
    const column = columnOf(design);
    if (!made.has(column)) made.set(column, make(column));
    return made.get(column)!;
  });
}

export function allRows(rows: Int32Array): Sparse {
  const all = new Int32Array(rows.length);
  for (let i = 0; i < all.length; i++) all[i] = i;
  return { rows: all, x: null };
}

export function rowsWhere(of: Int32Array, level: number): Sparse | null {
  if (level < 0) return null;
  let count = 0;
  for (let i = 0; i < of.length; i++) if (of[i] === level) count++;
  if (count === 0) return null;
  const rows = new Int32Array(count);
  for (let i = of.length - 1; count > 0; i--) if (of[i] === level) rows[--count] = i;
  return { rows, x: null };
}

export function picked(values: Float64Array, rows: Int32Array): Float64Array {
  const out = new Float64Array(rows.length);
  for (let r = 0; r < rows.length; r++) out[r] = values[rows[r]!]!;
  return out;
}

export function rowsByLife(rows: Int32Array, lifeOf: Int32Array): Map<number, number[]> {
  const byLife = new Map<number, number[]>();
  for (let r = 0; r < rows.length; r++) {
    const life = lifeOf[rows[r]!]!;
    const own = byLife.get(life);
    if (own === undefined) byLife.set(life, [rows[r]!]);
    else own.push(rows[r]!);
  }
  return byLife;
}

export function rowsSince(life: number, sparse: Sparse | null, lifeOf: Int32Array): Int32Array {
  if (sparse === null) return new Int32Array(0);
  const { rows } = sparse;
  const kept = new Int32Array(rows.length);
  let count = 0;
  for (let r = 0; r < rows.length; r++) if (lifeOf[rows[r]!]! >= life) kept[count++] = rows[r]!;
  return kept.slice(0, count);
}

export function touched(rows: Int32Array): Sparse | null {
  return rows.length === 0 ? null : { rows, x: null };
}
