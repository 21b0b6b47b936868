import type { ChartFacts } from "../../../lib/chart/chart-view";
import type { Words } from "../../../lib/words/words";

/** What the chart says in the browser; strings alone. */
export type ChartWords = Words["features"]["chart"];

/**
 * Decimals beyond a reading's own with which a point is told: a mean and a standard deviation have one more, and so has
 * what was reduced to 20 °C; a single reading and a range are no finer than the gauge.
 */
export function extraPlaces({ chart, isReduced }: Pick<ChartFacts, "chart" | "isReduced">): {
  reading: number;
  location: number;
  spread: number;
} {
  const reading = isReduced ? 1 : 0;
  return {
    reading,
    location: chart === "i-mr" ? reading : 1,
    spread: chart === "xbar-s" ? 1 : reading,
  };
}

/** People count from 1. */
export function numberOf(subgroup: number): number {
  return subgroup + 1;
}
