import type { FeatureHistory } from "../../../db/queries/history";
import type { BaselineWindow } from "../../../lib/evaluation/baseline-preview";
import type { Evaluation, Points } from "../../../lib/evaluation/evaluate";
import { suggestedBaseline } from "../../../lib/evaluation/suggested-baseline";
import { dayIn } from "../../../lib/format/times";
import { numberOf } from "./chart-view";

/** What the engineer's panel is made of, besides the causes to choose from. Subgroups count from 0. */
export type EngineerView = {
  featureId: number;
  subgroupCount: number;
  /** Last reading of the last subgroup; by it the server knows that numbers have not moved since. */
  lastAt: number;
  /** Asked for in the address, to be looked at before it is frozen. */
  baseline: BaselineWindow | null;
  suggested: BaselineWindow | null;
  /** No limits are frozen yet. */
  isFirst: boolean;
  exclusions: { id: number; words: string; cause: string }[];
};

export function engineerView(
  { feature, limits, exclusions }: FeatureHistory,
  { points }: Evaluation,
  { baseline, zone }: { baseline: BaselineWindow | null; zone: string },
): EngineerView {
  const isFirst = limits.length === 0;
  return {
    featureId: feature.id,
    subgroupCount: points.count,
    lastAt: points.count > 0 ? points.at[points.count - 1]! : 0,
    baseline,
    suggested: suggestedBaseline(points, { isFirst }),
    isFirst,
    exclusions: exclusions.map(({ id, from, to, cause, createdAt, by }) => ({
      id,
      cause,
      words: `${numbersWords(points, { from, to })}, left out ${dayIn(createdAt, zone)}${by ? ` by ${by}` : ""}`,
    })),
  };
}

/** "subgroups 12 to 14": those whose last reading lies between two moments. */
export function numbersWords({ count, at }: Points, { from, to }: { from: number; to: number }): string {
  let first = -1;
  let last = -1;
  for (let number = 0; number < count; number++) {
    if (at[number]! < from || at[number]! > to) continue;
    if (first < 0) first = number;
    last = number;
  }
  if (first < 0) return "no subgroup any more";
  if (first === last) return `subgroup ${numberOf(first)}`;
  return `subgroups ${numberOf(first)} to ${numberOf(last)}`;
}

/** "120-144" in an address: first and last subgroup of a baseline to be looked at, cut to what there is. */
export function baselineFrom(
  text: string | string[] | undefined,
  { count }: { count: number },
): BaselineWindow | null {
  const found = typeof text === "string" ? /^(\d{1,9})-(\d{1,9})$/.exec(text) : null;
  if (!found || count === 0) return null;
  const within = (number: number) => Math.min(number, count - 1);
  const [a, b] = [within(Number(found[1])), within(Number(found[2]))];
  return { from: Math.min(a, b), to: Math.max(a, b) };
}
