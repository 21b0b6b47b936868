import { fixed, whole } from "../format/numbers";

const SURE = 0.001;
const LIKELY = 0.05;

/** What the p of a test of several means says, in a sentence's middle: "differ", "may differ", … */
export function differenceWords(p: number): string {
  if (p < SURE) return "differ by more than chance";
  if (p < LIKELY) return "probably differ";
  return "show no difference";
}

/** How often chance alone would do as much: "about 1 in 40 times", "about 55 in 100 times". */
export function chanceWords(p: number): string {
  if (p < SURE) return "fewer than 1 in 1000 times";
  if (p > 0.4) return `about ${fixed(100 * p, 0)} in 100 times`;
  return `about 1 in ${whole(1 / p)} times`;
}
