import { fixed, measured, toleranceWords, withUnit } from "../format/numbers";
import type { CountPlan, Tolerance } from "../plan/feature-plan";
import type { CommonWords } from "../words/common";

/** What a tolerance strip shows, as sentences for somebody who does not see it. */
export function stripWords(
  {
    plan,
    unit,
    resolution,
    limits,
    means,
  }: {
    plan: { tolerance: Tolerance; counts?: CountPlan | null };
    unit: string;
    resolution: number | null;
    limits: { lower: number; upper: number } | null;
    means: readonly number[];
  },
  { fittings: { strip: words }, figures }: Pick<CommonWords, "fittings" | "figures">,
): string {
  const { tolerance } = plan;
  if (plan.counts && limits !== null && means.length > 0) return countWords(means, limits, words);
  const shown = (value: number) => measured(value, { resolution, extra: 1 });
  const newest = means.at(-1);
  const isStated = tolerance.lower !== null || tolerance.upper !== null;
  const sentences = [
    newest === undefined
      ? words.noSubgroups
      : words.newest(withUnit(shown(newest), unit), sideOf(newest, tolerance)),
    isStated ? words.tolerance(toleranceWords(tolerance, { resolution, unit }, figures)) : words.noTolerance,
  ];
  if (limits)
    sentences.push(words.limits(withUnit(figures.fromTo(shown(limits.lower), shown(limits.upper)), unit)));
  if (means.length > 1) {
    const highest = withUnit(shown(Math.max(...means)), unit);
    sentences.push(words.range(means.length, shown(Math.min(...means)), highest));
  }
  return sentences.join(" ");
}

function sideOf(value: number, { lower, upper }: Tolerance): "above" | "below" | null {
  if (upper !== null && value > upper) return "above";
  return lower !== null && value < lower ? "below" : null;
}

/** Samples may differ in size, and then only how far off each lies in its own sigma can be compared. */
function countWords(
  means: readonly number[],
  { lower, upper }: { lower: number; upper: number },
  words: CommonWords["fittings"]["strip"],
): string {
  const [centre, sigma] = [(lower + upper) / 2, (upper - lower) / 6];
  const z = means.map((mean) => (mean - centre) / sigma);
  const shown = (value: number) => fixed(value, 1);
  return words.counts(shown(z.at(-1)!), z.length, shown(Math.min(...z)), shown(Math.max(...z)));
}
