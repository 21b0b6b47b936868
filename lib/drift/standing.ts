import { solve } from "./cholesky";
import { type Columns, coefficientsOf, columnsOf, generalised } from "./columns";
import { type Design, indicatorsOf } from "./design";
import type { ScannedSource } from "./measured-part";
import { presentLevels } from "./piece-table";
import type { TableScan } from "./scan-table";
import { dot, type Ratios } from "./strata";

/** A feature on a source against the mean of that kind's sources, in the feature's unit. */
export type StandingFeature = {
  feature: string;
  unit: string;
  offset: number;
  standardError: number;
  offsetInSigma: number;
  shareOfTolerance: number | null;
};

/** Where a source has always stood: no drift, and never flagged. */
export type StandingOffset = {
  part: string;
  source: ScannedSource;
  pieces: number;
  /** Root mean square over features, in sigma. */
  sizeInSigma: number;
  /** Scatter of its pieces over that of all others, pooled over features; null where cells hold single pieces. */
  scatterRatio: number | null;
  /** Largest first, in standard errors. */
  features: StandingFeature[];
};

const KINDS = ["fixture", "machine", "operator", "setup", "gauge", "tool"] as const;

/**
 * What the model takes as given: each source against the unweighted mean of its kind, from the generalised least
 * squares fit over the window.
 */
export function standingOffsets(scans: readonly TableScan[]): StandingOffset[] {
  return scans.flatMap((scan) => {
    const found = known.get(scan) ?? offsetsOn(scan);
    known.set(scan, found);
    return found;
  });
}

/** Offsets hold as long as the scan they came from; a scan that memory kept need not be gone over again. */
const known = new WeakMap<TableScan, StandingOffset[]>();

function offsetsOn(scan: TableScan): StandingOffset[] {
  const { prepared, fit } = scan;
  const found = new Map<string, StandingOffset>();
  const scatter = new Map<string, Scatter>();
  const tellersOf = onceByStatics(fit.classes);
  for (const design of prepared.designs) {
    const squares = squaresWithinCells(scan, design);
    for (const kind of KINDS) {
      const { levels, of } = design[kind];
      const present = presentLevels(levels, of);
      if (present.length < 2) continue;
      const pieces = piecesOn(of, present);
      const tellers = tellersOf(design, kind, present);
      for (const f of design.features) {
        const contrasts = tellers[fit.classOf[f]!]!(fit.values[f]!);
        for (const [place, level] of present.entries()) {
          const contrast = contrasts[place];
          if (!levels.live[level] || contrast === null || contrast === undefined) continue;
          const source: ScannedSource = { kind, id: levels.codes[level]! };
          const key = `${kind}|${source.id}`;
          const entry = found.get(key) ?? {
            part: prepared.table.part,
            source,
            pieces: 0,
            sizeInSigma: 0,
            scatterRatio: null,
            features: [],
          };
          entry.pieces = Math.max(entry.pieces, pieces[place]!);
          entry.features.push(featureOffset(scan, f, contrast));
          found.set(key, entry);
        }
      }
      const keys = levels.codes.map((code, level) => (levels.live[level] ? `${kind}|${code}` : null));
      addScatter(scatter, design, { of, keys, squares });
    }
  }
  for (const [key, entry] of found) {
    const sums = scatter.get(key);
    entry.scatterRatio = sums === undefined ? null : ratioOf(sums);
    entry.features.sort(
      (a, b) => Math.abs(b.offset / b.standardError) - Math.abs(a.offset / a.standardError),
    );
    const squares = entry.features.reduce((sum, { offsetInSigma }) => sum + offsetInSigma ** 2, 0);
    entry.sizeInSigma = Math.sqrt(squares / Math.max(1, entry.features.length));
  }
  return [...found.values()].sort((a, b) => b.sizeInSigma - a.sizeInSigma);
}

type Contrast = { estimate: number; standardError: number };

type Teller = (values: Float64Array) => (Contrast | null)[];

/** By class; designs with the same static columns, and the same levels of a kind, tell them in the same way. */
function onceByStatics(
  classes: readonly Ratios[],
): (design: Design, kind: (typeof KINDS)[number], present: readonly number[]) => Teller[] {
  const made = new Map<Columns, Map<Int32Array, Teller[]>>();
  return (design, kind, present) => {
    const known = made.get(design.columns) ?? new Map<Int32Array, Teller[]>();
    made.set(design.columns, known);
    const { of } = design[kind];
    const tellers = known.get(of) ?? classes.map(contrastsIn(design, kind, present));
    known.set(of, tellers);
    return tellers;
  };
}

function piecesOn(of: Int32Array, levels: readonly number[]): number[] {
  const counts = new Map(levels.map((level) => [level, 0]));
  for (const level of of) if (level >= 0) counts.set(level, counts.get(level)! + 1);
  return levels.map((level) => counts.get(level)!);
}

/**
 * Each level of a kind against the mean of the levels that can be told apart, as a function of ratios and then of a
 * feature's values; null for a level that cannot. The other kinds' columns stay; those of this kind come last, so that
 * what cannot be told from another kind is left out here.
 */
function contrastsIn(
  { strata, statics, ...columns }: Design,
  kind: (typeof KINDS)[number],
  present: readonly number[],
): (ratios: Ratios) => Teller {
  const others = statics.filter((group) => group.kind !== kind);
  const own = indicatorsOf(columns[kind].of, present.slice(1));
  const all = columnsOf(strata, [...others, own], []);
  const start = others.reduce((sum, { count }) => sum + count, 0);
  return (ratios) => {
    const gls = generalised(strata, all, ratios);
    const told = present.map((_, place) => place === 0 || gls.gram.kept[start + place - 1] === 1);
    const count = told.filter(Boolean).length;
    if (count < 2) return () => present.map(() => null);
    const contrasts = present.map((_, place) => {
      if (!told[place]) return null;
      const weights = new Float64Array(gls.columns.size);
      for (const [other, isKnown] of told.entries()) {
        if (other > 0 && isKnown) weights[start + other - 1] = (other === place ? 1 : 0) - 1 / count;
      }
      const solved = Float64Array.from(weights);
      solve(gls.gram, solved);
      return { weights, standardError: Math.sqrt(Math.max(0, dot(weights, solved))) };
    });
    return (values) => {
      const coefficients = coefficientsOf(gls, values);
      return contrasts.map(
        (one) => one && { estimate: dot(one.weights, coefficients), standardError: one.standardError },
      );
    };
  };
}

function featureOffset({ prepared, fit }: TableScan, f: number, contrast: Contrast): StandingFeature {
  const { feature, sigma } = prepared.features[f]!;
  const unit = sigma * fit.scale[f]!;
  const offset = contrast.estimate * unit;
  const width = feature.lower === null || feature.upper === null ? null : feature.upper - feature.lower;
  return {
    feature: feature.name,
    unit: feature.unit,
    offset,
    standardError: contrast.standardError * unit,
    offsetInSigma: contrast.estimate,
    shareOfTolerance: width === null || !(width > 0) ? null : Math.abs(offset) / width,
  };
}

type Scatter = { own: number; ownFreedom: number; all: number; allFreedom: number };

/** By piece, squared deviations from its cell, all features of the design together; 0 where a cell holds a single one. */
function squaresWithinCells({ fit }: TableScan, { strata, features }: Design): Float64Array {
  const out = new Float64Array(strata.pieces);
  for (const f of features) {
    const residual = fit.residuals[f]!;
    const { cells } = fit.means[f]!;
    for (let c = 0; c < strata.cells; c++) {
      for (let i = strata.cellStart[c]!; i < strata.cellStart[c + 1]!; i++) {
        const deviation = residual[i]! - cells[c]!;
        out[i]! += deviation * deviation;
      }
    }
  }
  return out;
}

/** Squares within cells of every level of a column, over the features of a design. */
function addScatter(
  into: Map<string, Scatter>,
  { strata, cellOf, features }: Design,
  { of, keys, squares }: { of: Int32Array; keys: readonly (string | null)[]; squares: Float64Array },
): void {
  const own = new Float64Array(keys.length);
  const ownFreedom = new Float64Array(keys.length);
  let all = 0;
  let allFreedom = 0;
  for (let i = 0; i < of.length; i++) {
    const n = strata.cellStart[cellOf[i]! + 1]! - strata.cellStart[cellOf[i]!]!;
    const freedom = ((n - 1) / n) * features.length;
    all += squares[i]!;
    allFreedom += freedom;
    if (of[i]! < 0) continue;
    own[of[i]!]! += squares[i]!;
    ownFreedom[of[i]!]! += freedom;
  }
  for (const [level, key] of keys.entries()) {
    if (key === null) continue;
    const sums = into.get(key) ?? { own: 0, ownFreedom: 0, all: 0, allFreedom: 0 };
    into.set(key, {
      own: sums.own + own[level]!,
      ownFreedom: sums.ownFreedom + ownFreedom[level]!,
      all: sums.all + all,
      allFreedom: sums.allFreedom + allFreedom,
    });
  }
}

function ratioOf({ own, ownFreedom, all, allFreedom }: Scatter): number | null {
  const other = all - own;
  const otherFreedom = allFreedom - ownFreedom;
  if (!(ownFreedom > 1 && otherFreedom > 1 && other > 0)) return null;
  return Math.sqrt(own / ownFreedom / (other / otherFreedom));
}
