import type { ChartKind, FeaturePlan } from "../plan/feature-plan";

/** Features that are charted and judged alike. */
export type PlanGroup<Feature> = {
  /** Tells groups apart, also in an address: "xbar-r.5.beyond-3s.nine-one-side". */
  key: string;
  chart: ChartKind;
  subgroupSize: number;
  /** Slugs in alphabetical order. */
  rules: string[];
  features: Feature[];
};

/**
 * Features by chart, subgroup size and rule set, in the order in which each such plan first occurs: what one
 * table of `tradeOff` can be about.
 */
export function planGroups<Feature extends { plan: Pick<FeaturePlan, "chart" | "subgroupSize" | "rules"> }>(
  features: readonly Feature[],
): PlanGroup<Feature>[] {
  const groups = new Map<string, PlanGroup<Feature>>();
  for (const feature of features) {
    const { chart, subgroupSize } = feature.plan;
    const rules = [...feature.plan.rules].sort();
    const key = [chart, subgroupSize, ...rules].join(".");
    const group = groups.get(key) ?? { key, chart, subgroupSize, rules, features: [] };
    group.features.push(feature);
    groups.set(key, group);
  }
  return [...groups.values()];
}
