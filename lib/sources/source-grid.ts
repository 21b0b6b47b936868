import { lotAdjusted } from "./lot-adjusted";
import type { SourceRows } from "./lot-cells";
import { poolFeatures } from "./pool-features";

/** A source in a lot. `deviation` is in sigma over `features`, null when nothing ran beside it. */
export type GridCell = { lot: number; deviation: number | null; features: number; count: number };

export type GridRow = { source: number; cells: GridCell[] };

/**
 * How each source of one kind lay in each of the given lots: its deviation from the others in that lot,
 * averaged over the features of the part. Sources that ran in none of the lots are left out; cells come in the
 * order of `lots`, and only where the source ran.
 *
 * Sigma is that of all readings handed over, not only of the lots shown.
 */
export function sourceGrid(
  features: readonly SourceRows[],
  { lots, isCompared }: { lots: readonly number[]; isCompared: boolean },
): GridRow[] {
  const shown = new Map(lots.map((lot, place) => [lot, place]));
  const rows = new Map<number, Map<number, GridCell>>();
  for (const { lots: ofReading, sources } of features) {
    for (let i = 0; i < ofReading.length; i++) {
      const lot = ofReading[i]!;
      const source = sources[i]!;
      if (source === 0 || !shown.has(lot)) continue;
      const cells = rows.get(source) ?? new Map<number, GridCell>();
      const cell = cells.get(lot) ?? { lot, deviation: null, features: 0, count: 0 };
      cell.count++;
      cells.set(lot, cell);
      rows.set(source, cells);
    }
  }
  if (isCompared) {
    for (const { source, lot, deviation, features: over } of poolFeatures(features.map(lotAdjusted)).cells) {
      const cell = rows.get(source)?.get(lot);
      if (cell) Object.assign(cell, { deviation, features: over });
    }
  }
  return [...rows].map(([source, cells]) => ({
    source,
    cells: lots.flatMap((lot) => cells.get(lot) ?? []),
  }));
}
