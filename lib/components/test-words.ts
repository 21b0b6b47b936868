import { fixed } from "../format/numbers";
import { otherCharts } from "../words/en/other-charts";

const english = otherCharts.variation;
type TestWords = Pick<typeof english, "differ" | "chance">;

const SURE = 0.001;
const LIKELY = 0.05;

/** What the p of a test of several means says, in a sentence's middle: "differ", "may differ", … */
export function differenceWords(p: number, { differ }: TestWords = english): string {
  if (p < SURE) return differ.sure;
  return p < LIKELY ? differ.likely : differ.no;
}

/** How often chance alone would do as much: "about 1 in 40 times", "about 55 in 100 times". */
export function chanceWords(p: number, { chance }: TestWords = english): string {
  if (p < SURE) return chance.rare;
  return p > 0.4 ? chance.hundred(fixed(100 * p, 0)) : chance.one(1 / p);
}
