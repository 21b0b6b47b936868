import { performance as english } from "../words/en/performance";

/** "H-210 rev C": a part with its revision, which is left out where none is stated. */
export function partName({ number, revision }: { number: string; revision: string }): string {
  return revision === "" ? number : `${number} rev ${revision}`;
}

/** Names of the charts as the trade says them. */
export const CHART_WORDS = english.charts;

/** The same for counts, by what is plotted. */
export const COUNT_CHART_WORDS = {
  p: "share of nonconforming pieces (p)",
  np: "number of nonconforming pieces (np)",
  c: "number of nonconformities (c)",
  u: "nonconformities per unit (u)",
} as const;

/** "means and ranges of 5", "number of nonconforming pieces (np) among 200". */
export function chartWords(
  {
    chart,
    subgroupSize,
    counts = null,
  }: {
    chart: keyof typeof CHART_WORDS;
    subgroupSize: number;
    counts?: { chart: keyof typeof COUNT_CHART_WORDS; size: number } | null;
  },
  words: Pick<typeof english, "charts" | "chartOf"> = english,
): string {
  if (counts) {
    const pieces = counts.chart === "p" || counts.chart === "np";
    return `${COUNT_CHART_WORDS[counts.chart]} ${pieces ? `among ${counts.size}` : `on ${counts.size}`}`;
  }
  return chart === "i-mr" ? words.charts[chart] : words.chartOf(words.charts[chart], subgroupSize);
}

/** For a narrow column: what the upper chart shows. */
export const CHART_SHORT = {
  "xbar-r": "means, ranges",
  "xbar-s": "means, sd",
  "i-mr": "single readings",
} as const;
