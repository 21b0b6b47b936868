import type { ChartKind, CountPlan } from "../plan/feature-plan";
import { charts as english } from "../words/en/charts";

/** "H-210 rev C": a part with its revision, which is left out where none is stated. */
export function partName({ number, revision }: { number: string; revision: string }): string {
  return revision === "" ? number : `${number} rev ${revision}`;
}

/** "means and ranges of 5", "number of nonconforming pieces (np) among 200". */
export function chartWords(
  {
    chart,
    subgroupSize,
    counts = null,
  }: { chart: ChartKind; subgroupSize: number; counts?: Pick<CountPlan, "chart" | "size"> | null },
  words: typeof english = english,
): string {
  if (counts) {
    const pieces = counts.chart === "p" || counts.chart === "np";
    const name = words.counts[counts.chart];
    if (counts.size === null) return words.varying(name);
    return pieces ? words.among(name, counts.size) : words.on(name, counts.size);
  }
  return chart === "i-mr" ? words.kinds[chart] : words.of(words.kinds[chart], subgroupSize);
}
