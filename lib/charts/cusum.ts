import { InvalidInput, requireFiniteNumbers } from "../checks";
import { TIE } from "../rules/judge";
import type { CusumDesign } from "../run-length/cusum";
import { type MeanPoint, type ProcessBasis, requireBasis, requirePoint, type Side } from "./weighted-point";

/** `headStart` in sigma of the plotted point: 0, or h/2 for the fast initial response. */
export type CusumChart = ProcessBasis & CusumDesign & { headStart: number };

type Sum = {
  /** In sigma of the plotted point. */
  value: number;
  /** Present points since it last stood at 0. */
  points: number;
  /** Readings in those points. */
  readings: number;
  /** Where it stood then: the head start until it has been at 0. */
  from: number;
};

/** Between two points; plain data of fixed size. */
export type CusumState = { upper: Sum; lower: Sum };

export type CusumPoint = {
  /** Both sums, in sigma of the plotted point, 0 or more. */
  upper: number;
  lower: number;
  signal: Side | null;
  /** Where the sum that signals came off 0, and where the mean has been since; null without a signal. */
  shift: { points: number; mean: number } | null;
};

/**
 * Before the first point of a phase, or after the process was set anew.
 *
 * @throws InvalidInput when a number is not finite, sigma or h is not above 0, k is below 0, or the head
 *   start is not from 0 to h
 */
export function startCusum(chart: CusumChart): CusumState {
  const { reference, decisionInterval, headStart } = chart;
  requireBasis("startCusum", chart);
  requireFiniteNumbers("startCusum", { reference, decisionInterval, headStart });
  if (reference < 0) throw new InvalidInput("startCusum", "reference", reference, "0 or more");
  if (decisionInterval <= 0) {
    throw new InvalidInput("startCusum", "decisionInterval", decisionInterval, "above 0");
  }
  if (headStart < 0 || headStart > decisionInterval) {
    throw new InvalidInput("startCusum", "headStart", headStart, `from 0 to ${decisionInterval}`);
  }
  const sum = (): Sum => ({ value: headStart, points: 0, readings: 0, from: headStart });
  return { upper: sum(), lower: sum() };
}

/**
 * The next point of a two-sided tabular cumulative sum chart; changes `state`. Null for a missing point,
 * which changes nothing.
 *
 *   z = (x̄ − centre)√n/σ,   C⁺ = max(0, C⁺ + z − k),   C⁻ = max(0, C⁻ − z − k),   signal beyond h
 *
 * k is half the shift to be found, in sigma of the plotted point: k = 0.5 and h = 5 find one sigma in 10
 * points, with 465 points per false alarm. The sum says when it began: the shift lies after the last point
 * at which it stood at 0, N points ago, and the mean since then is about
 *
 *   centre ± (k + (C − start)/N) σ/√n       with n the mean size of those subgroups
 *
 * (`start` is the head start while the sum has not been at 0, else 0). Sums go on after a signal: the person
 * who sets the process anew begins anew with `startCusum`.
 *
 * Source: ISO 7870-4 (from memory); E. S. Page, Biometrika 41 (1954) 100-115; head start: J. M. Lucas and
 * R. B. Crosier, Technometrics 24 (1982) 199-205 (both from memory).
 *
 * @throws InvalidInput when the mean is not finite or the size is not a whole number from 1 on
 */
export function nextCusum(chart: CusumChart, state: CusumState, point: MeanPoint): CusumPoint | null {
  if (point === null) return null;
  requirePoint("nextCusum", point);
  const { centre, sigma, decisionInterval } = chart;
  const z = ((point.mean - centre) * Math.sqrt(point.size)) / sigma;
  add(chart, state.upper, { z, size: point.size });
  add(chart, state.lower, { z: -z, size: point.size });
  const isOver = ({ value }: Sum) => value > decisionInterval + TIE;
  // Only after a head start above h/2 + k can both be over at once; then the larger one tells.
  const side: Side | null =
    isOver(state.upper) && state.upper.value >= state.lower.value
      ? "up"
      : isOver(state.lower)
        ? "down"
        : null;
  return {
    upper: state.upper.value,
    lower: state.lower.value,
    signal: side,
    shift: side && estimated(chart, side === "up" ? state.upper : state.lower, side === "up" ? 1 : -1),
  };
}

/**
 * The whole chart of one phase; see `nextCusum`.
 *
 * @throws InvalidInput as `startCusum` and `nextCusum` do
 */
export function cusumChart(chart: CusumChart, points: readonly MeanPoint[]): (CusumPoint | null)[] {
  const state = startCusum(chart);
  return points.map((point) => nextCusum(chart, state, point));
}

function add({ reference }: CusumChart, sum: Sum, { z, size }: { z: number; size: number }): void {
  const value = sum.value + z - reference;
  if (value <= 0) {
    sum.value = 0;
    sum.points = 0;
    sum.readings = 0;
    sum.from = 0;
    return;
  }
  sum.value = value;
  sum.points += 1;
  sum.readings += size;
}

function estimated(chart: CusumChart, sum: Sum, sign: number): { points: number; mean: number } {
  const { centre, sigma, reference } = chart;
  const gained = sum.value - sum.from;
  const size = sum.readings / sum.points;
  const mean = centre + (sign * (reference + gained / sum.points) * sigma) / Math.sqrt(size);
  return { points: sum.points, mean };
}

/**
 * Sums beyond h go on from h: a restart with a full head start, which signals again at once while the process
 * stays where it is, and comes down within a few points when it has come back. Changes `state`.
 *
 * Common practice is a restart at 0 or h/2 by the person who acts; on standing watch nobody tells the chart.
 */
export function holdAtInterval({ decisionInterval }: CusumDesign, state: CusumState): void {
  for (const sum of [state.upper, state.lower]) {
    if (sum.value <= decisionInterval + TIE) continue;
    sum.value = decisionInterval;
    sum.points = 0;
    sum.readings = 0;
    sum.from = decisionInterval;
  }
}
