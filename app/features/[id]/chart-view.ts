import type { Words } from "../../../lib/words/words";

/** What the chart says in the browser; strings alone. */
export type ChartWords = Words["features"]["chart"];

/** People count from 1. */
export function numberOf(subgroup: number): number {
  return subgroup + 1;
}
