import { type CusumChart, type CusumPoint, nextCusum, startCusum } from "../../../lib/charts/cusum";
import { type EwmaChart, type EwmaPoint, nextEwma, startEwma } from "../../../lib/charts/ewma";
import type { MeanPoint } from "../../../lib/charts/weighted-point";

/** The whole EWMA chart of one phase. */
export function ewmaChart(chart: EwmaChart, points: readonly MeanPoint[]): (EwmaPoint | null)[] {
  const state = startEwma(chart);
  return points.map((point) => nextEwma(chart, state, point));
}

/** The whole CUSUM chart of one phase. */
export function cusumChart(chart: CusumChart, points: readonly MeanPoint[]): (CusumPoint | null)[] {
  const state = startCusum(chart);
  return points.map((point) => nextCusum(chart, state, point));
}
