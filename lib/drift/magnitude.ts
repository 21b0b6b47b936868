import { logBayesFactor } from "./bayes-factor";
import type { TableScan } from "./scan-table";
import { SLAB } from "./settings";
import type { Candidate } from "./weigh-sources";

/** How far a feature moved under a candidate, and whether it moved at all. */
export type FeatureShift = {
  part: string;
  feature: string;
  unit: string;
  /** In short-term sigma of the feature; the estimate is drawn towards 0 by g/(1 + g). */
  shiftInSigma: number;
  /** In the feature's unit, with its standard error. */
  shift: number;
  standardError: number;
  /** Share of the tolerance that |shift| takes; null without both limits. */
  shareOfTolerance: number | null;
  /** Posterior chance that it moved. */
  moved: number;
};

const PRIOR_SHARE = 0.2;

/**
 * The features a candidate touches, most certain first.
 *
 *   θ̂ = t/√I in sigma, drawn in by g/(1 + g);   chance moved = p e^l / (1 − p + p e^l) with p = 0.2
 *
 * For a trend this is the shift reached at the last lot (for a tool, over a whole life; for temperature, per
 * 1 K on the usual swing).
 */
export function featureShifts(scans: readonly TableScan[], candidate: Candidate): FeatureShift[] {
  const shifts = candidate.places.flatMap(({ table, k }) => shiftsOn(scans[table]!, k));
  return shifts.sort((a, b) => b.moved - a.moved || Math.abs(b.shiftInSigma) - Math.abs(a.shiftInSigma));
}

function shiftsOn(scan: TableScan, k: number): FeatureShift[] {
  const { tests, hypotheses, prepared, fit } = scan;
  const hypothesis = hypotheses.all[k]!;
  const { scope } = hypotheses.carriers[hypothesis.carrier]!;
  const swing = hypothesis.source.kind === "temperature" ? usualSwing(scan, k) : 1;
  return scope.flatMap((f) => {
    const t = tests.t[k * tests.features + f]!;
    if (Number.isNaN(t)) return [];
    const { feature, sigma } = prepared.features[f]!;
    const information = tests.information[k * tests.features + f]!;
    const g = information * SLAB;
    const odds = PRIOR_SHARE * Math.exp(Math.min(50, logBayesFactor(t, g)));
    const drawnIn = (swing * g) / (1 + g) / Math.sqrt(information);
    const unitOf = sigma * fit.scale[f]!;
    const shift = t * drawnIn * unitOf;
    const width = feature.lower === null || feature.upper === null ? null : feature.upper - feature.lower;
    return [
      {
        part: prepared.table.part,
        feature: feature.name,
        unit: feature.unit,
        shiftInSigma: t * drawnIn,
        shift,
        standardError: drawnIn * unitOf,
        shareOfTolerance: width === null || !(width > 0) ? null : Math.abs(shift) / width,
        moved: odds / (1 - PRIOR_SHARE + odds),
      },
    ];
  });
}

/** Root mean square of the deviation from 20 °C over the rows concerned. */
function usualSwing({ prepared, hypotheses }: TableScan, k: number): number {
  const { from } = hypotheses.all[k]!;
  const { temperature, lotOf } = prepared.table;
  let squares = 0;
  for (let i = 0; i < temperature.length; i++) {
    if (lotOf[i]! >= from && !Number.isNaN(temperature[i])) squares += (temperature[i]! - 20) ** 2;
  }
  return Math.sqrt(squares / Math.max(1, temperature.length));
}

/** Features more likely than not to have moved. */
export function movedFeatures(shifts: readonly FeatureShift[]): FeatureShift[] {
  return shifts.filter(({ moved }) => moved > 0.5);
}

/** How far the common offset of what a tool cuts may be off by chance, in sigma: one standard error; else 0. */
export function effectError({ source, pattern }: Candidate): number {
  if (source.kind !== "tool" || pattern === null) return 0;
  return (Math.sqrt(pattern.variance) / pattern.square) * pattern.weight;
}

/**
 * Root mean square of the shifts of the features that moved, in sigma. For a tool the one offset that all it cuts
 * share, which picking the largest cannot inflate.
 */
export function effectOf(
  scans: readonly TableScan[],
  candidate: Candidate,
  shifts: readonly FeatureShift[],
): number {
  if (candidate.source.kind === "tool" && candidate.pattern !== null) {
    const { along, square, weight } = candidate.pattern;
    return Math.abs(along / square) * weight;
  }
  const moved = movedFeatures(shifts);
  if (moved.length > 0) {
    return Math.sqrt(moved.reduce((sum, { shiftInSigma }) => sum + shiftInSigma ** 2, 0) / moved.length);
  }
  let sum = 0;
  let count = 0;
  for (const { table, k } of candidate.places) {
    const { tests, hypotheses } = scans[table]!;
    for (const f of hypotheses.carriers[hypotheses.all[k]!.carrier]!.scope) {
      const t = tests.t[k * tests.features + f]!;
      if (Number.isNaN(t)) continue;
      const information = tests.information[k * tests.features + f]!;
      const g = information * SLAB;
      sum += ((t * t) / information) * (g / (1 + g)) ** 2 - 1 / information;
      count++;
    }
  }
  return Math.sqrt(Math.max(0, sum / Math.max(1, count)));
}
