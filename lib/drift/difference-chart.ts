import { normalQuantile } from "../distributions/normal";
import { liveLevel } from "./hypotheses";
import type { LotAxis } from "./lot-axis";
import type { ScannedSource } from "./measured-part";
import type { TableScan } from "./scan-table";

/** One lot of a source: how it lies against the rest of the lot, in sigma, over some features. */
export type LotDifference = {
  lot: number;
  code: string;
  at: number;
  pieces: number;
  difference: number;
  /** Half width of the 90 % band. */
  halfWidth: number;
  /** Nothing ran beside it: the difference is from the usual level, and lots differ. */
  alone: boolean;
};

/** A feature to look at, with the direction in which it moved: +1, −1, or +1 for all when nothing is known. */
export type SignedFeature = { part: string; feature: string; sign: number };

const BAND = normalQuantile(0.95);

/**
 * Per lot, the mean over features of sign × (source − the rest of the same lot), static offsets taken off: the
 * picture that carries a flag. Its neighbours, drawn the same way, must be flat.
 *
 * The band counts features as independent; features that move together make it wider than drawn.
 */
export function differenceChart(
  scans: readonly TableScan[],
  axis: LotAxis,
  { source, features }: { source: ScannedSource; features: readonly SignedFeature[] | null },
): LotDifference[] {
  const signs = features && new Map(features.map(({ part, feature, sign }) => [`${part}|${feature}`, sign]));
  const sums = new Map<
    number,
    { difference: number; variance: number; features: number; pieces: number; alone: number }
  >();
  for (const [t, { prepared, fit }] of scans.entries()) {
    for (const [f, { feature, design: d }] of prepared.features.entries()) {
      const sign = signs === null ? 1 : signs.get(`${prepared.table.part}|${feature.name}`);
      if (sign === undefined) continue;
      const design = prepared.designs[d]!;
      const column =
        source.kind === "lot" || source.kind === "temperature" || source.kind === "process"
          ? null
          : design[source.kind];
      const level = column === null ? -1 : liveLevel(column.levels, source.id);
      if (column !== null && level < 0) continue;
      const lots = prepared.table.lots;
      const own = { sum: new Float64Array(lots), count: new Float64Array(lots) };
      const rest = { sum: new Float64Array(lots), count: new Float64Array(lots) };
      for (let i = 0; i < design.rows.length; i++) {
        const into = column === null || column.of[i] === level ? own : rest;
        into.sum[design.lotOf[i]!]! += fit.residuals[f]![i]!;
        into.count[design.lotOf[i]!]!++;
      }
      const ratios = fit.ratios[f]!;
      for (let lot = 0; lot < lots; lot++) {
        const n = own.count[lot]!;
        if (n === 0) continue;
        const m = rest.count[lot]!;
        const alone = m === 0;
        const place = axis.indexOf[t]![lot]!;
        const entry = sums.get(place) ?? { difference: 0, variance: 0, features: 0, pieces: 0, alone: 0 };
        entry.difference += sign * (own.sum[lot]! / n - (alone ? 0 : rest.sum[lot]! / m));
        entry.variance += 1 / n + ratios.cell + (alone ? ratios.lot : 1 / m + ratios.cell);
        entry.features++;
        entry.alone += alone ? 1 : 0;
        entry.pieces = Math.max(entry.pieces, n);
        sums.set(place, entry);
      }
    }
  }
  return [...sums]
    .sort(([a], [b]) => a - b)
    .map(([lot, { difference, variance, features: count, pieces, alone }]) => ({
      lot,
      code: axis.codes[lot]!,
      at: axis.at[lot]!,
      pieces,
      difference: difference / count,
      halfWidth: (BAND * Math.sqrt(variance)) / count,
      alone: alone > count / 2,
    }));
}
