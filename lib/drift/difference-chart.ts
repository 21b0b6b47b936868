import { normalQuantile } from "../distributions/normal";
import type { Design } from "./design";
import type { LotAxis } from "./lot-axis";
import type { ScannedKind } from "./measured-part";
import type { Levels } from "./piece-table";
import type { TableScan } from "./scan-table";
import type { Strata } from "./strata";

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
    for (const [code, byLot] of own) addTo(sumsFor(sums, code, axis.codes.length), byLot, axis.indexOf[t]!);
  }
  return new Map([...sums].map(([code, byLot]) => [code, charted(byLot, axis)]));
}

/** Sums over features for each lot; a lot without features was not touched. */
type LotSums = Record<"difference" | "variance" | "features" | "pieces" | "alone", Float64Array>;
type LevelSums = Map<string, LotSums>;

function sumsFor(sums: LevelSums, code: string, lots: number): LotSums {
  const known = sums.get(code) ?? {
    difference: new Float64Array(lots),
    variance: new Float64Array(lots),
    features: new Float64Array(lots),
    pieces: new Float64Array(lots),
    alone: new Float64Array(lots),
  };
  sums.set(code, known);
  return known;
}

/** @param place of each lot in `into` */
function addTo(into: LotSums, sums: LotSums, place: ArrayLike<number>): void {
  for (let lot = 0; lot < sums.features.length; lot++) {
    if (sums.features[lot] === 0) continue;
    const at = place[lot]!;
    into.difference[at]! += sums.difference[lot]!;
    into.variance[at]! += sums.variance[lot]!;
    into.features[at]! += sums.features[lot]!;
    into.alone[at]! += sums.alone[lot]!;
    into.pieces[at] = Math.max(into.pieces[at]!, sums.pieces[lot]!);
  }
}

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

type ChartedKind = Exclude<ScannedKind, "lot" | "temperature">;

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
    addByLevel(fit.residuals[f]!, { of, strata: design.strata, width }, { own, total });
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
    const byLot = sumsFor(sums, code, lots);
    for (let lot = 0; lot < lots; lot++) {
      const at = lot * width + level;
      const n = count.own[at]!;
      if (n === 0) continue;
      byLot.difference[lot]! += difference[at]!;
      byLot.variance[lot]! += variance[at]!;
      byLot.features[lot]! += signed.length;
      byLot.alone[lot]! += n === count.total[lot]! ? signed.length : 0;
      byLot.pieces[lot] = Math.max(byLot.pieces[lot]!, n);
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
  { of, strata, width }: { of: Int32Array; strata: Strata; width: number },
  { own, total }: { own: Float64Array; total: Float64Array },
): void {
  const { lots, lotCells, cellStart } = strata;
  own.fill(0);
  // Rows come lot by lot: a sum is written once a lot, for each would have to wait for the one before.
  for (let lot = 0; lot < lots; lot++) {
    const end = cellStart[lotCells[lot + 1]!]!;
    let sum = 0;
    for (let i = cellStart[lotCells[lot]!]!; i < end; i++) {
      sum += residual[i]!;
      if (of[i]! >= 0) own[lot * width + of[i]!]! += residual[i]!;
    }
    total[lot] = sum;
  }
}

function charted({ difference, variance, features, pieces, alone }: LotSums, axis: LotAxis): LotDifference[] {
  return axis.codes.flatMap((code, lot) => {
    const count = features[lot]!;
    if (count === 0) return [];
    return [
      {
        lot,
        code,
        at: axis.at[lot]!,
        pieces: pieces[lot]!,
        difference: difference[lot]! / count,
        halfWidth: (BAND * Math.sqrt(variance[lot]!)) / count,
        alone: alone[lot]! > count / 2,
      },
    ];
  });
}
