import type { Evaluation } from "../evaluation/evaluation";
import { joinSignals, type Pattern } from "../evaluation/patterns";
import type { ChartKind } from "../plan/feature-plan";
import { evaluateRules } from "../rules/judge";
import { ruleBySlug, rulesForSpread } from "../rules/known-rules";
import { summariseSubgroup } from "../subgroups/summarise";
import { type ShortRunPoint, type ShortRunTarget, shortRunChart } from "./short-run";

/** A feature that stands on a chart with others: what it is compared with, and its judged history. */
export type ShortRunFeature = { name: string; target: number; evaluation: Evaluation };

export type ShortRunCourse = {
  /** In the order in which they were made; at the same moment as the features were given. */
  points: (ShortRunPoint & { at: number; number: number; size: number })[];
  targets: Map<string, ShortRunTarget>;
  /** By the rules given, on all points as one series. Members count points of the course. */
  patterns: Pattern[];
};

/**
 * Several features on one chart of deviations in each one's own sigma, with run rules over all of them.
 *
 * Sigma is that of the limits in force for each feature's latest subgroup, target as given. Left-out subgroups
 * are passed over. For the chart itself see `shortRunChart`.
 *
 * @param features each with limits whose sigma is above 0
 * @throws InvalidInput as `shortRunChart` does
 */
export function shortRunCourse({
  chart,
  rules,
  features,
}: {
  chart: ChartKind;
  rules: readonly string[];
  features: readonly ShortRunFeature[];
}): ShortRunCourse {
  const targets = new Map(
    features.map(({ name, target, evaluation }): [string, ShortRunTarget] => [
      name,
      { target, sigma: evaluation.progress.limits?.sigma ?? 0 },
    ]),
  );
  const made = features
    .flatMap(({ name, evaluation }) => {
      const { points, values, formed } = evaluation;
      return Array.from({ length: points.count }, (_, number) => ({
        name,
        number,
        points,
        values,
        formed,
      })).filter(({ number }) => points.excluded[number] === 0);
    })
    .sort((a, b) => a.points.at[a.number]! - b.points.at[b.number]!);
  const drawn = shortRunChart({
    chart,
    targets,
    points: made.map(({ name, number, values, formed }) => ({
      feature: name,
      subgroup: summariseSubgroup(values, formed, number),
    })),
  });
  const points = drawn.map((point, i) => {
    const { number, points: own } = made[i]!;
    return { ...point!, number, at: own.at[number]!, size: own.size[number]! };
  });
  const known = rules.map(ruleBySlug);
  const fired = [
    ...asSignals(
      evaluateRules(
        known,
        points.map(({ location }) => location),
      ),
      { points, chart: "location" },
    ),
    ...asSignals(
      evaluateRules(
        rulesForSpread(known),
        points.map(({ spread }) => spread),
      ),
      {
        points,
        chart: "spread",
      },
    ),
  ];
  return { points, targets, patterns: joinSignals(fired.sort((a, b) => a.at - b.at)) };
}

function asSignals(
  firings: ReturnType<typeof evaluateRules>,
  { points, chart }: { points: readonly { at: number }[]; chart: "location" | "spread" },
) {
  return firings.map(({ rule, at, members, direction }) => ({
    chart,
    rule,
    direction,
    at,
    atTime: points[at]!.at,
    members,
  }));
}
