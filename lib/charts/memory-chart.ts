import { standardiseLocation } from "../limits/standardise";
import type { LimitsVersion, MemoryChart } from "../plan/feature-plan";
import { type CusumChart, type CusumState, holdAtInterval, nextCusum, startCusum } from "./cusum";
import { type EwmaChart, type EwmaState, nextEwma, startEwma } from "./ewma";
import type { ProcessBasis, Side } from "./weighted-point";

/*
 * A chart with a memory beside a feature's own chart: the same limits version, the same points, judged by an
 * EWMA or a cumulative sum. The control plan names one a feature for standing watch; the feature's page draws
 * any. Both go through `nextMemory`, so that what is drawn is what was judged.
 */

/** Between two points; plain data of fixed size. */
export type MemoryState = EwmaState | CusumState;

export type MemoryPoint =
  | { kind: "ewma"; smoothed: number; lower: number; upper: number; signal: Side | null }
  | {
      kind: "cusum";
      upper: number;
      lower: number;
      signal: Side | null;
      /** Since when the mean has moved, and to where; at a signal of a sum that has come up by itself. */
      shift: { points: number; mean: number } | null;
    };

type Limits = Pick<LimitsVersion, "chart" | "centre" | "sigma" | "betweenLots">;
type Subgroup = { mean: number; size: number };

/**
 * Before the first point of a phase.
 *
 * @throws InvalidInput as `startEwma` and `startCusum` do
 */
export function startMemory(chart: MemoryChart, limits: Limits): MemoryState {
  return chart.kind === "ewma" ? startEwma(ewmaOf(chart, limits)) : startCusum(cusumOf(chart, limits));
}

/**
 * The next point; changes `state`.
 *
 * EWMA: see `nextEwma`, in the unit of the readings. CUSUM: see `nextCusum`, in sigma of the plotted point; a
 * sum that signals goes on from h, not from where it got to. The first signal, and so the run length, is that
 * of the textbook chart; after a large excursion the sum is back within a few points once the process is,
 * where one left alone would go on calling people for as long as it had risen.
 *
 * Where lot-to-lot variation is part of the process, both run on z of the lot means, for a mean's variance is
 * then no longer σ²/n.
 *
 * @throws InvalidInput when the mean is not finite or the size is not above 0
 */
export function nextMemory(
  chart: MemoryChart,
  { limits, state, subgroup }: { limits: Limits; state: MemoryState; subgroup: Subgroup },
): MemoryPoint {
  const point = onZ(limits) ? { mean: standardiseLocation(limits, subgroup), size: 1 } : subgroup;
  if (chart.kind === "ewma") {
    const { smoothed, lower, upper, signal } = nextEwma(ewmaOf(chart, limits), state as EwmaState, point)!;
    return { kind: "ewma", smoothed, lower, upper, signal };
  }
  const sums = state as CusumState;
  const { upper, lower, signal, shift } = nextCusum(cusumOf(chart, limits), sums, point)!;
  holdAtInterval(chart, sums);
  return { kind: "cusum", upper, lower, signal, shift };
}

/** Whether the chart is drawn in z of the points instead of their unit. */
export function onZ({ betweenLots }: Pick<LimitsVersion, "betweenLots">): boolean {
  return betweenLots !== undefined;
}

// Field by field: made anew for each point, and spreading took nine tenths of a history's time.

function ewmaOf({ smoothing, width }: MemoryChart & { kind: "ewma" }, limits: Limits): EwmaChart {
  const { centre, sigma } = basisOf(limits);
  return { centre, sigma, smoothing, width, limits: "exact" };
}

function cusumOf(
  { reference, decisionInterval, headStart }: MemoryChart & { kind: "cusum" },
  limits: Limits,
): CusumChart {
  const { centre, sigma } = basisOf(limits);
  return { centre, sigma, reference, decisionInterval, headStart };
}

function basisOf(limits: Limits): ProcessBasis {
  return onZ(limits) ? { centre: 0, sigma: 1 } : { centre: limits.centre, sigma: limits.sigma };
}
