import type { Evaluation } from "../evaluation/evaluation";
import { joinSignals, type Pattern } from "../evaluation/patterns";
import type { ChartKind } from "../plan/feature-plan";
import { evaluateRules } from "../rules/judge";
import { ruleBySlug, rulesForSpread } from "../rules/known-rules";
import { summariseSubgroup } from "../subgroups/summarise";
import { requireTargets, type ShortRunPoint, type ShortRunTarget, shortRunPoint } from "./short-run";

/** A feature that stands on a chart with others: what it is compared with, and its judged history. */
export type ShortRunFeature = { name: string; target: number; evaluation: Evaluation };

/** `number` and `at` are those of the feature's own subgroup. */
export type CoursePoint = ShortRunPoint & { at: number; number: number; size: number };

/** Points count from 0, in the order in which they were made; at the same moment as the features were given. */
export type ShortRunCourse = {
  count: number;
  pointAt(position: number): CoursePoint;
  featureAt(position: number): string;
  /** Where a feature's latest point stands; null where it has none. */
  latestOf(feature: string): number | null;
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
 * Of a million readings it keeps where each point comes from and its two figures, as columns: an object for each of them
 * took two seconds, most of it spent on collecting them again.
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
  requireTargets(chart, targets);
  const made = inOrderMade(features);
  const count = made.feature.length;
  const location = new Float64Array(count);
  const spread = new Array<number | null>(count).fill(null);

  const pointAt = (position: number): CoursePoint => {
    const { name, evaluation } = features[made.feature[position] as number] as ShortRunFeature;
    const number = made.number[position] as number;
    const { points, values, formed } = evaluation;
    const before = position === 0 ? null : (location[position - 1] as number);
    const subgroup = summariseSubgroup(values, formed, number);
    const drawn = shortRunPoint(chart, targets.get(name) as ShortRunTarget, { subgroup, before });
    return {
      feature: name,
      ...drawn,
      number,
      at: points.at[number] as number,
      size: points.size[number] as number,
    };
  };
  for (let position = 0; position < count; position++) {
    const point = pointAt(position);
    location[position] = point.location;
    spread[position] = point.spread;
  }

  const known = rules.map(ruleBySlug);
  const atOf = (position: number) =>
    features[made.feature[position] as number]!.evaluation.points.at[
      made.number[position] as number
    ] as number;
  const fired = [
    ...asSignals(evaluateRules(known, location), { atOf, chart: "location" }),
    ...asSignals(evaluateRules(rulesForSpread(known), spread), { atOf, chart: "spread" }),
  ];
  return {
    count,
    pointAt,
    featureAt: (position) => features[made.feature[position] as number]?.name ?? "",
    latestOf(feature) {
      const position = made.feature.lastIndexOf(features.findIndex(({ name }) => name === feature));
      return position < 0 ? null : position;
    },
    targets,
    patterns: joinSignals(fired.sort((a, b) => a.at - b.at)),
  };
}

/** Of each point the feature, by its place among them, and the subgroup of that feature. */
type Made = { feature: Uint32Array; number: Uint32Array };

/** All subgroups that are not left out, in the order in which they were made. */
function inOrderMade(features: readonly ShortRunFeature[]): Made {
  const columns = features.map(({ evaluation: { points } }, feature) => inTime(points, feature));
  const count = columns.reduce((sum, { number }) => sum + number.length, 0);
  const made: Made = { feature: new Uint32Array(count), number: new Uint32Array(count) };
  const next = columns.map(() => 0);
  for (let position = 0; position < count; position++) {
    let earliest = -1;
    let least = Number.POSITIVE_INFINITY;
    for (let f = 0; f < columns.length; f++) {
      const { at, number } = columns[f] as (typeof columns)[number];
      const of = next[f] as number;
      if (of === number.length) continue;
      const moment = at[number[of] as number] as number;
      if (moment < least) [earliest, least] = [f, moment];
    }
    made.feature[position] = earliest;
    made.number[position] = columns[earliest]?.number[next[earliest]!++] as number;
  }
  return made;
}

/** A feature's own, for interleaved labels can bring an earlier subgroup later. */
function inTime({ at, count, excluded }: Evaluation["points"], feature: number) {
  const number = new Uint32Array(count);
  let kept = 0;
  for (let k = 0; k < count; k++) if (excluded[k] === 0) number[kept++] = k;
  return { feature, at, number: number.subarray(0, kept).sort((a, b) => at[a]! - at[b]! || a - b) };
}

function asSignals(
  firings: ReturnType<typeof evaluateRules>,
  { atOf, chart }: { atOf: (position: number) => number; chart: "location" | "spread" },
) {
  return firings.map(({ rule, at, members, direction }) => ({
    chart,
    rule,
    direction,
    at,
    atTime: atOf(at),
    members,
  }));
}
