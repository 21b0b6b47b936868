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
  const { part } = scan.prepared.table;
  const sums: LevelSums = new Map();
  for (const design of scan.prepared.designs) {
    const signed = design.features.flatMap((f) => {
      const { feature } = scan.prepared.features[f]!;
      const sign = signs === null ? 1 : signs.get(`${part}|${feature.name}`);
      return sign === undefined ? [] : [{ f, sign }];
    });
    if (signed.length === 0) continue;
    const levels =
      kind === "process"
        ? { codes: [part], of: new Int32Array(design.rows.length) }
        : { codes: liveCodes(design[kind].levels), of: design[kind].of };
    addDesign(sums, scan, { design, levels, signed });
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

type ChartedLevels = { codes: readonly (string | null)[]; of: Int32Array };

/** Features of a design share the pieces of each level in each lot: these are counted once. */
function addDesign(
  sums: LevelSums,
  { prepared, fit }: TableScan,
  {
    design,
    levels,
    signed,
  }: { design: Design; levels: ChartedLevels; signed: readonly { f: number; sign: number }[] },
): void {
  const { lots } = prepared.table;
  const { codes, of } = levels;
  const width = codes.length;
  const count = countsOf(design, levels, lots);
  const difference = new Float64Array(lots * width);
  const variance = new Float64Array(lots * width);
  const own = new Float64Array(lots * width);
  const total = new Float64Array(lots);
  for (const { f, sign } of signed) {
    addByLevel(fit.residuals[f]!, { of, lotOf: design.lotOf, width }, { own, total });
    const ratios = fit.ratios[f]!;
    for (let at = 0; at < own.length; at++) {
      const n = count.own[at]!;
      if (n === 0) continue;
      const lot = Math.floor(at / width);
      const m = count.total[lot]! - n;
      const sum = own[at]!;
      difference[at]! += sign * (sum / n - (m === 0 ? 0 : (total[lot]! - sum) / m));
      variance[at]! += 1 / n + ratios.cell + (m === 0 ? ratios.lot : 1 / m + ratios.cell);
    }
  }
  for (const [level, code] of codes.entries()) {
    if (code === null) continue;
    const byLot = sums.get(code) ?? new Map<number, Sum>();
    sums.set(code, byLot);
    for (let lot = 0; lot < lots; lot++) {
      const at = lot * width + level;
      const n = count.own[at]!;
      if (n === 0) continue;
      const sum = {
        difference: difference[at]!,
        variance: variance[at]!,
        features: signed.length,
        pieces: n,
        alone: n === count.total[lot]! ? signed.length : 0,
      };
      byLot.set(lot, added(byLot.get(lot), sum));
    }
  }
}

/** Pieces of each level in each lot, at lot × levels + level, and of each lot. */
function countsOf({ lotOf }: Design, { codes, of }: ChartedLevels, lots: number) {
  const own = new Float64Array(lots * codes.length);
  const total = new Float64Array(lots);
  for (let i = 0; i < of.length; i++) {
    total[lotOf[i]!]!++;
    if (of[i]! >= 0) own[lotOf[i]! * codes.length + of[i]!]!++;
  }
  return { own, total };
}

function addByLevel(
  residual: Float64Array,
  { of, lotOf, width }: { of: Int32Array; lotOf: Int32Array; width: number },
  { own, total }: { own: Float64Array; total: Float64Array },
): void {
  own.fill(0);
  total.fill(0);
  for (let i = 0; i < residual.length; i++) {
    const lot = lotOf[i]!;
    total[lot]! += residual[i]!;
    if (of[i]! >= 0) own[lot * width + of[i]!]! += residual[i]!;
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
