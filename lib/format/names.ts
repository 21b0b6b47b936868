/** "H-210 rev C": a part with its revision, which is left out where none is stated. */
export function partName({ number, revision }: { number: string; revision: string }): string {
  return revision === "" ? number : `${number} rev ${revision}`;
}

/** Names of the charts as the trade says them. */
export const CHART_WORDS = {
  "xbar-r": "means and ranges",
  "xbar-s": "means and standard deviations",
  "i-mr": "single readings and moving ranges",
} as const;

/** "means and ranges of 5". */
export function chartWords({
  chart,
  subgroupSize,
}: {
  chart: keyof typeof CHART_WORDS;
  subgroupSize: number;
}): string {
  return chart === "i-mr" ? CHART_WORDS[chart] : `${CHART_WORDS[chart]} of ${subgroupSize}`;
}

/** For a narrow column: what the upper chart shows. */
export const CHART_SHORT = {
  "xbar-r": "means, ranges",
  "xbar-s": "means, sd",
  "i-mr": "single readings",
} as const;
