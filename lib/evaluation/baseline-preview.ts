import type { Computed } from "../computed";
import type { LimitsEstimator } from "../limits/estimators";
import { standardiseLocation, standardiseSpread } from "../limits/standardise";
import { evaluateRules } from "../rules/judge";
import { ruleBySlug, rulesForSpread } from "../rules/known-rules";
import { type BaselineLimits, baselineLimits } from "./baseline";
import type { Evaluation } from "./evaluation";
import { joinSignals, type Pattern } from "./patterns";
import type { Signal } from "./progress";
import { type EvaluationSetup, LEAST_FOR_FINAL } from "./setup";

/** First and last subgroup of a baseline, counted from 0, both inside. */
export type BaselineWindow = { from: number; to: number };

export type BaselinePreview = {
  window: BaselineWindow;
  /** Moments of the last readings of the first and the last subgroup. */
  fromAt: number;
  toAt: number;
  /** Subgroups that count, and those in the window that are left out. */
  subgroups: number;
  excluded: number;
  /** Enough subgroups for final limits. */
  isEnough: boolean;
  limits: Computed<BaselineLimits>;
  /** What would signal inside the baseline if it were judged by its own limits. */
  patterns: Pattern[];
};

/**
 * What a baseline would give: its limits, and what inside it they would call a signal.
 *
 * A baseline with signals of its own was not one process; a person decides whether their causes are known
 * and the subgroups are to be left out. Nothing is left out here by itself.
 *
 * Order of subgroups is that of the chart. Source: ISO 7870-2, phase I (from memory).
 *
 * @returns null when the window holds no subgroup
 */
export function baselinePreview(
  evaluation: Evaluation,
  {
    setup,
    window,
    estimator,
  }: { setup: EvaluationSetup; window: BaselineWindow; estimator?: LimitsEstimator | undefined },
): BaselinePreview | null {
  const { points } = evaluation;
  const from = Math.max(0, Math.min(window.from, window.to));
  const to = Math.min(points.count - 1, Math.max(window.from, window.to));
  if (to < from) return null;
  const fromAt = points.at[from]!;
  const toAt = points.at[to]!;
  const { subgroups, limits } = baselineLimits(evaluation, { setup, from: fromAt, to: toAt, estimator });
  let excluded = 0;
  for (let number = from; number <= to; number++) excluded += points.excluded[number]!;
  return {
    window: { from, to },
    fromAt,
    toAt,
    subgroups,
    excluded,
    isEnough: subgroups >= LEAST_FOR_FINAL,
    limits,
    patterns: limits.ok ? wouldSignal(evaluation, { setup, from, to, limits: limits.value }) : [],
  };
}

function wouldSignal(
  { points }: Evaluation,
  { setup, from, to, limits }: { setup: EvaluationSetup; from: number; to: number; limits: BaselineLimits },
): Pattern[] {
  const rules = setup.plan.rules.map(ruleBySlug);
  const z: (number | null)[] = [];
  const spreadZ: (number | null)[] = [];
  for (let number = from; number <= to; number++) {
    const size = points.size[number]!;
    const spread = points.spread[number]!;
    const counts = points.excluded[number] === 0;
    z.push(counts ? standardiseLocation(limits, { mean: points.mean[number]!, size }) : null);
    spreadZ.push(counts && !Number.isNaN(spread) ? standardiseSpread(limits, { spread, size }) : null);
  }
  const asSignals = (chart: Signal["chart"], firings: ReturnType<typeof evaluateRules>) =>
    firings.map(
      ({ rule, at, members, direction }): Signal => ({
        chart,
        rule,
        direction,
        at: from + at,
        atTime: points.at[from + at]!,
        members: members.map((member) => from + member),
      }),
    );
  const signals = [
    ...asSignals("location", evaluateRules(rules, z)),
    ...asSignals("spread", evaluateRules(rulesForSpread(rules), spreadZ)),
  ];
  return joinSignals(signals.sort((a, b) => a.at - b.at));
}
