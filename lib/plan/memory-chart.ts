import { asEntered } from "../format/numbers";
import { charts as english } from "../words/en/charts";
import type { MemoryChart } from "./feature-plan";

/*
 * Bounds that a person can enter: those of the run lengths in lib/run-length, narrowed to what is of use. The
 * head start of a two-sided sum stays within h/2 + k, where its run length is exact.
 */

/** λ = 0.2, L = 2.962: 494 points per false alarm, one sigma found in 9.6 (`ewmaRunLength`, exact limits). */
export const USUAL_EWMA: MemoryChart & { kind: "ewma" } = { kind: "ewma", smoothing: 0.2, width: 2.962 };

/** k = 0.5, h = 5: 465 points per false alarm, one sigma found in 10.4 (`cusumRunLength`). */
export const USUAL_CUSUM: MemoryChart & { kind: "cusum" } = {
  kind: "cusum",
  reference: 0.5,
  decisionInterval: 5,
  headStart: 0,
};

export type MemoryChartFault = "smoothing" | "width" | "reference" | "decisionInterval" | "headStart";

/** Which figure does not suit; null when all do. */
export function memoryChartFault(chart: MemoryChart): MemoryChartFault | null {
  if (chart.kind === "ewma") {
    if (!(chart.smoothing >= 0.01 && chart.smoothing <= 1)) return "smoothing";
    return chart.width > 0 && chart.width <= 6 ? null : "width";
  }
  const { reference, decisionInterval, headStart } = chart;
  if (!(reference >= 0 && reference <= 3)) return "reference";
  if (!(decisionInterval > 0 && decisionInterval <= 20)) return "decisionInterval";
  return headStart >= 0 && headStart <= decisionInterval / 2 ? null : "headStart";
}

/** "EWMA, λ = 0.2, L = 2.962": how a chart with a memory is told in a line. */
export function memoryChartWords(chart: MemoryChart, words: typeof english = english): string {
  if (chart.kind === "ewma") return `EWMA, λ = ${asEntered(chart.smoothing)}, L = ${asEntered(chart.width)}`;
  const { reference, decisionInterval, headStart } = chart;
  const start = headStart > 0 ? words.headStart(asEntered(headStart)) : "";
  return `CUSUM, k = ${asEntered(reference)}, h = ${asEntered(decisionInterval)}${start}`;
}
