import type { FeatureHistory } from "../../../db/queries/history";
import type { BaselineWindow } from "../../../lib/evaluation/baseline-preview";
import { estimatorsFor } from "../../../lib/evaluation/estimator-choice";
import type { Evaluation, Points } from "../../../lib/evaluation/evaluation";
import { suggestedBaseline } from "../../../lib/evaluation/suggested-baseline";
import { dayIn } from "../../../lib/format/times";
import { limitsEstimatorName } from "../../../lib/limits/estimator-words";
import { LIMITS_ESTIMATORS, type LimitsEstimator } from "../../../lib/limits/estimators";
import type { Words } from "../../../lib/words/words";
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
  /** Ways to estimate sigma that the baseline allows, the usual one first; empty where there is no choice. */
  estimators: { value: string; label: string }[];
  /** The one asked for in the address; empty for the usual one. */
  estimator: string;
  exclusions: { id: number; words: string; cause: string }[];
};

export function engineerView(
  { feature, limits, exclusions, series, setup }: FeatureHistory,
  evaluation: Evaluation,
  {
    baseline,
    estimator,
    zone,
    words,
  }: {
    baseline: BaselineWindow | null;
    estimator: LimitsEstimator | null;
    zone: string;
    words: Words;
  },
): EngineerView {
  const { features: said, estimators } = words;
  const { points } = evaluation;
  const isFirst = limits.length === 0;
  const suggested = suggestedBaseline(points, { isFirst });
  const window = baseline ?? suggested;
  const offered = window
    ? estimatorsFor(evaluation, {
        plan: setup.plan,
        series,
        from: points.at[window.from]!,
        to: points.at[window.to]!,
      })
    : [];
  return {
    featureId: feature.id,
    subgroupCount: points.count,
    lastAt: points.count > 0 ? points.at[points.count - 1]! : 0,
    baseline,
    suggested,
    isFirst,
    estimators: offered.map((one, i) => ({
      value: i === 0 ? "" : one,
      label:
        i === 0 ? said.usual(limitsEstimatorName(one, estimators)) : limitsEstimatorName(one, estimators),
    })),
    estimator: estimator === offered[0] ? "" : (estimator ?? ""),
    exclusions: exclusions.map(({ id, from, to, cause, createdAt, by }) => ({
      id,
      cause,
      words: said.leftOutOn(
        numbersWords(points, { from, to }, said),
        dayIn(createdAt, zone, words.times),
        by,
      ),
    })),
  };
}

/** "subgroups 12 to 14": those whose last reading lies between two moments. */
export function numbersWords(
  { count, at }: Points,
  { from, to }: { from: number; to: number },
  said: Words["features"],
): string {
  let first = -1;
  let last = -1;
  for (let number = 0; number < count; number++) {
    if (at[number]! < from || at[number]! > to) continue;
    if (first < 0) first = number;
    last = number;
  }
  return first < 0 ? said.noNumber : said.numbers(numberOf(first), numberOf(last));
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

/** "pooled-sd" in an address: a way to estimate sigma; null for none, or one that the baseline does not allow. */
export function estimatorFrom(
  text: string | string[] | undefined,
  {
    history,
    evaluation,
    baseline,
  }: { history: FeatureHistory; evaluation: Evaluation; baseline: BaselineWindow | null },
): LimitsEstimator | null {
  const estimator = LIMITS_ESTIMATORS.find((one) => one === text);
  if (!estimator || !baseline) return null;
  const { points } = evaluation;
  const asked = {
    plan: history.setup.plan,
    series: history.series,
    from: points.at[baseline.from]!,
    to: points.at[baseline.to]!,
  };
  return estimatorsFor(evaluation, asked).includes(estimator) ? estimator : null;
}
