import { normalQuantile } from "../distributions/normal";
import type { Design } from "./design";
import type { LotAxis } from "./lot-axis";
import type { ScannedKind } from "./measured-part";
import type { Levels } from "./piece-table";
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
 * picture that carries a flag. Its neighbours, drawn the same way, must be flat. By code, for all sources of a kind
 * at once; "process" is all pieces under the part's name.
 *
 * The band counts features as independent; features that move together make it wider than drawn.
 *
 * @param features null for all of them, each with its own sign
 */
export function differenceCharts(
  scans: readonly TableScan[],
  axis: LotAxis,
  { kind, features }: { kind: ScannedKind; features: readonly SignedFeature[] | null },
): Map<string, LotDifference[]> {
  if (kind === "lot" || kind === "temperature") return new Map();
  const signs = features && new Map(features.map(({ part, feature, sign }) => [`${part}|${feature}`, sign]));
  const sums: LevelSums = new Map();
  for (const [t, scan] of scans.entries()) {
    const own = signs === null ? allFeatures(scan, kind) : sumsOf(scan, kind, signs);
    for (const [code, byLot] of own) {
      const pooled = sums.get(code) ?? new Map<number, Sum>();
      sums.set(code, pooled);
      for (const [lot, sum] of byLot) {
        const place = axis.indexOf[t]![lot]!;
        pooled.set(place, added(pooled.get(place), sum));
      }
    }
  }
  return new Map([...sums].map(([code, byLot]) => [code, charted(byLot, axis)]));
}

type LevelSums = Map<string, Map<number, Sum>>;

/** The picture over all features holds as long as the scan it came from. */
const known = new WeakMap<TableScan, Map<ChartedKind, LevelSums>>();

function allFeatures(scan: TableScan, kind: ChartedKind): LevelSums {
  const ofScan = known.get(scan) ?? new Map<ChartedKind, LevelSums>();
  known.set(scan, ofScan);
  const sums = ofScan.get(kind) ?? sumsOf(scan, kind, null);
  ofScan.set(kind, sums);
  return sums;
}

function sumsOf(scan: TableScan, kind: ChartedKind, signs: ReadonlyMap<string, number> | null): LevelSums {
  const { prepared } = scan;
  const sums: LevelSums = new Map();
  for (const [f, { feature, design: d }] of prepared.features.entries()) {
    const sign = signs === null ? 1 : signs.get(`${prepared.table.part}|${feature.name}`);
    if (sign === undefined) continue;
    const design = prepared.designs[d]!;
    const levels = kind === "process" ? [prepared.table.part] : liveCodes(design[kind].levels);
    addFeature(sums, scan, { f, design, of: kind === "process" ? null : design[kind].of, levels, sign });
  }
  return sums;
}

function added(a: Sum | undefined, b: Sum): Sum {
  if (a === undefined) return b;
  return {
    difference: a.difference + b.difference,
    variance: a.variance + b.variance,
    features: a.features + b.features,
    pieces: Math.max(a.pieces, b.pieces),
    alone: a.alone + b.alone,
  };
}

type ChartedKind = Exclude<ScannedKind, "lot" | "temperature">;

type Sum = { difference: number; variance: number; features: number; pieces: number; alone: number };

/** Code of each level that is watched; null for what lies before an event. */
function liveCodes({ codes, live }: Levels): (string | null)[] {
  return codes.map((code, level) => (live[level] ? code : null));
}

function addFeature(
  sums: LevelSums,
  { prepared, fit }: TableScan,
  {
    f,
    design,
    of,
    levels,
    sign,
  }: {
    f: number;
    design: Design;
    of: Int32Array | null;
    levels: readonly (string | null)[];
    sign: number;
  },
): void {
  const { lots } = prepared.table;
  const total = new Float64Array(lots);
  const count = new Float64Array(lots);
  const own = new Float64Array(lots * levels.length);
  const ownCount = new Float64Array(lots * levels.length);
  for (let i = 0; i < design.rows.length; i++) {
    const lot = design.lotOf[i]!;
    const level = of === null ? 0 : of[i]!;
    const residual = fit.residuals[f]![i]!;
    total[lot]! += residual;
    count[lot]!++;
    if (level < 0) continue;
    own[lot * levels.length + level]! += residual;
    ownCount[lot * levels.length + level]!++;
  }
  const ratios = fit.ratios[f]!;
  for (const [level, code] of levels.entries()) {
    if (code === null) continue;
    const byLot = sums.get(code) ?? new Map<number, Sum>();
    sums.set(code, byLot);
    for (let lot = 0; lot < lots; lot++) {
      const n = ownCount[lot * levels.length + level]!;
      if (n === 0) continue;
      const m = count[lot]! - n;
      const sum = own[lot * levels.length + level]!;
      const entry = byLot.get(lot) ?? {
        difference: 0,
        variance: 0,
        features: 0,
        pieces: 0,
        alone: 0,
      };
      byLot.set(lot, entry);
      entry.difference += sign * (sum / n - (m === 0 ? 0 : (total[lot]! - sum) / m));
      entry.variance += 1 / n + ratios.cell + (m === 0 ? ratios.lot : 1 / m + ratios.cell);
      entry.features++;
      entry.alone += m === 0 ? 1 : 0;
      entry.pieces = Math.max(entry.pieces, n);
    }
  }
}

function charted(byLot: ReadonlyMap<number, Sum>, axis: LotAxis): LotDifference[] {
  return [...byLot]
    .sort(([a], [b]) => a - b)
    .map(([lot, { difference, variance, features, pieces, alone }]) => ({
      lot,
      code: axis.codes[lot]!,
      at: axis.at[lot]!,
      pieces,
      difference: difference / features,
      halfWidth: (BAND * Math.sqrt(variance)) / features,
      alone: alone > features / 2,
    }));
}
