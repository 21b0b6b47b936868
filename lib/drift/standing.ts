import { solve } from "./cholesky";
import { generalised } from "./fit";
import type { ScannedSource } from "./measured-part";
import type { TableScan } from "./scan-table";
import { dot } from "./strata";

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
  return scans.flatMap(offsetsOn);
}

function offsetsOn(scan: TableScan): StandingOffset[] {
  const { prepared, fit } = scan;
  const found = new Map<string, StandingOffset>();
  const scatter = new Map<string, { own: number; ownFreedom: number; other: number; otherFreedom: number }>();
  for (const [d, design] of prepared.designs.entries()) {
    for (const kind of KINDS) {
      const { levels, of } = design[kind];
      const present = [...new Set(of)].filter((level) => level >= 0).sort((a, b) => a - b);
      if (present.length < 2) continue;
      const indicators = present.map((level) => Float64Array.from(of, (one) => (one === level ? 1 : 0)));
      // The other kinds' columns stay; those of this kind are put in as indicators, so that all are comparable.
      const others = fit.columns[d]!.filter(
        (column) => !indicators.some((own) => own.every((value, i) => value === column[i])),
      );
      for (const f of design.features) {
        const contrasts = contrastsOf(scan, f, others, indicators);
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
          entry.pieces = Math.max(
            entry.pieces,
            indicators[place]!.reduce((a, b) => a + b, 0),
          );
          entry.features.push(featureOffset(scan, f, contrast));
          found.set(key, entry);
          addScatter(scatter, key, scan, f, of, level);
        }
      }
    }
  }
  for (const [key, entry] of found) {
    entry.features.sort(
      (a, b) => Math.abs(b.offset / b.standardError) - Math.abs(a.offset / a.standardError),
    );
    const squares = entry.features.reduce((sum, { offsetInSigma }) => sum + offsetInSigma ** 2, 0);
    entry.sizeInSigma = Math.sqrt(squares / Math.max(1, entry.features.length));
    const sums = scatter.get(key);
    if (sums !== undefined && sums.ownFreedom > 0 && sums.otherFreedom > 0 && sums.other > 0) {
      entry.scatterRatio = Math.sqrt(sums.own / sums.ownFreedom / (sums.other / sums.otherFreedom));
    }
  }
  return [...found.values()].sort((a, b) => b.sizeInSigma - a.sizeInSigma);
}

type Contrast = { estimate: number; standardError: number };

/** Each level against the mean of the levels that can be told apart; null for one that cannot. */
function contrastsOf(
  { prepared, fit }: TableScan,
  f: number,
  others: readonly Float64Array[],
  indicators: readonly Float64Array[],
): (Contrast | null)[] {
  const design = prepared.designs[prepared.features[f]!.design]!;
  const ratios = fit.classes[fit.classOf[f]!]!;
  const columns = [...others, ...indicators.slice(1)];
  const gls = generalised(design.strata, columns, ratios);
  const size = columns.length;
  const right = Float64Array.from(gls.weightedColumns, (column) => dot(column, fit.values[f]!));
  solve(gls.gram, right);
  const start = others.length;
  const known = indicators.map((_, place) => place === 0 || gls.gram.kept[start + place - 1] === 1);
  const count = known.filter(Boolean).length;
  if (!known[0] || count < 2) return indicators.map(() => null);
  return indicators.map((_, place) => {
    if (!known[place]) return null;
    const weights = new Float64Array(size);
    for (const [other, isKnown] of known.entries()) {
      if (other > 0 && isKnown) weights[start + other - 1] = (other === place ? 1 : 0) - 1 / count;
    }
    const estimate = dot(weights, right);
    const solved = Float64Array.from(weights);
    solve(gls.gram, solved);
    return { estimate, standardError: Math.sqrt(Math.max(0, dot(weights, solved))) };
  });
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

function addScatter(
  into: Map<string, { own: number; ownFreedom: number; other: number; otherFreedom: number }>,
  key: string,
  { prepared, fit }: TableScan,
  f: number,
  of: Int32Array,
  level: number,
): void {
  const { strata, cellOf } = prepared.designs[prepared.features[f]!.design]!;
  const sums = into.get(key) ?? { own: 0, ownFreedom: 0, other: 0, otherFreedom: 0 };
  for (let i = 0; i < of.length; i++) {
    const cell = cellOf[i]!;
    const n = strata.cellStart[cell + 1]! - strata.cellStart[cell]!;
    if (n < 2) continue;
    const square = (fit.residuals[f]![i]! - fit.means[f]!.cells[cell]!) ** 2;
    if (of[i] === level) {
      sums.own += square;
      sums.ownFreedom += (n - 1) / n;
    } else {
      sums.other += square;
      sums.otherFreedom += (n - 1) / n;
    }
  }
  into.set(key, sums);
}
