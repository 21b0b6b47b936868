import { InvalidInput } from "../checks";
import { TIE } from "../rules/judge";
import type { EwmaDesign, EwmaLimitsKind } from "../run-length/ewma";
import { type MeanPoint, type ProcessBasis, requireBasis, requirePoint, type Side } from "./weighted-point";

export type EwmaChart = ProcessBasis & EwmaDesign & { limits: EwmaLimitsKind };

/** Between two points; plain data of fixed size. */
export type EwmaState = {
  smoothed: number;
  /** Of the smoothed value, in σ² of single readings. */
  variance: number;
};

/** All in the unit of the readings. */
export type EwmaPoint = { smoothed: number; lower: number; upper: number; signal: Side | null };

/**
 * Before the first point of a phase: the smoothed value stands on the centre line.
 *
 * @throws InvalidInput when the centre is not finite, sigma is not above 0, λ is not above 0 and at most 1,
 *   L is not above 0, or the kind of limits is unknown
 */
export function startEwma(chart: EwmaChart): EwmaState {
  const { smoothing, width, limits, centre } = chart;
  requireBasis("startEwma", chart);
  if (!(smoothing > 0 && smoothing <= 1)) {
    throw new InvalidInput("startEwma", "smoothing", smoothing, "above 0 and at most 1");
  }
  if (!(width > 0 && width < Number.POSITIVE_INFINITY)) {
    throw new InvalidInput("startEwma", "width", width, "above 0");
  }
  if (limits !== "exact" && limits !== "steady") {
    throw new InvalidInput("startEwma", "limits", limits, "exact or steady");
  }
  return { smoothed: centre, variance: 0 };
}

/**
 * The next point of an exponentially weighted moving average; changes `state`. Null for a missing point,
 * which changes nothing.
 *
 *   zᵢ = λ x̄ᵢ + (1 − λ) zᵢ₋₁                     z₀ = centre
 *   Vᵢ = λ² σ²/nᵢ + (1 − λ)² Vᵢ₋₁                V₀ = 0,   limits = centre ± L √Vᵢ
 *
 * Vᵢ is the exact variance. With equal subgroups it is the familiar σ²/n · λ/(2 − λ) · [1 − (1 − λ)²ⁱ], and
 * it holds for unequal ones. "steady" limits put the bracket at 1 from the first point on: easier to draw
 * by hand, blinder at the start. A smoothed value beyond a limit by more than a billionth of sigma signals.
 *
 * Unit of the readings. `EwmaDesign` names λ and L; 0.2 and 2.962 give 494 points per false alarm
 * with exact limits, 500 with steady ones (`ewmaRunLength`).
 *
 * Source: ISO 7870-6 (from memory); S. W. Roberts, Technometrics 1 (1959) 239-250 (from memory).
 *
 * @throws InvalidInput when the mean is not finite or the size is not a whole number from 1 on
 */
export function nextEwma(chart: EwmaChart, state: EwmaState, point: MeanPoint): EwmaPoint | null {
  if (point === null) return null;
  requirePoint("nextEwma", point);
  const { centre, sigma, smoothing, width, limits } = chart;
  const kept = 1 - smoothing;
  state.smoothed = smoothing * point.mean + kept * state.smoothed;
  state.variance = smoothing ** 2 / point.size + kept ** 2 * state.variance;
  const variance = limits === "exact" ? state.variance : smoothing / (2 - smoothing) / point.size;
  const reach = width * sigma * Math.sqrt(variance);
  const beyond = Math.abs(state.smoothed - centre) - reach;
  return {
    smoothed: state.smoothed,
    lower: centre - reach,
    upper: centre + reach,
    signal: beyond > TIE * sigma ? (state.smoothed > centre ? "up" : "down") : null,
  };
}

/**
 * The whole chart of one phase; see `nextEwma`.
 *
 * @throws InvalidInput as `startEwma` and `nextEwma` do
 */
export function ewmaChart(chart: EwmaChart, points: readonly MeanPoint[]): (EwmaPoint | null)[] {
  const state = startEwma(chart);
  return points.map((point) => nextEwma(chart, state, point));
}
