import { InvalidInput } from "../checks";
import type { RunRule } from "../rules/rule";
import { rulesRunLengths, type SimulationPlan } from "../run-length/rules-run-length";
import { median } from "../summary/moments";
import { type AlarmsPerShift, alarmBudget, requireRate, type WatchedFeature } from "./alarm-budget";
import type { Load } from "./operator-rates";

/** In sigma of the plotted point: for subgroups of n, a shift of readings counts √n times as much. */
export const SHIFTS_SHOWN: readonly number[] = [0.5, 1, 1.5, 2, 2.5, 3];

/** How long a lasting shift goes unnoticed on the location chart. */
export type Detection = {
  /** In sigma of the plotted point. */
  shift: number;
  /** Average number of subgroups until the signal, that one counted; null when hardly ever. */
  subgroups: number | null;
  /** The same in shifts of work for a feature measured as often as the median one; null with subgroups. */
  shiftsOfWork: number | null;
  /** Of `subgroups`; null where exact. */
  standardError: number | null;
};

export type RuleChange = { kind: "in force" } | { kind: "off" | "on"; rule: string };

export type TradeOffRow = {
  change: RuleChange;
  rules: readonly RunRule[];
  perShift: AlarmsPerShift;
  /** Against what is in force; below 0 when alarms fall away. */
  difference: number;
  load: Load;
  detection: Detection[];
};

/**
 * What each rule costs in false alarms and earns in early notice: the rules in force, then each of them
 * switched off, then each other candidate switched on.
 *
 * One row is one rule set applied to all features given; their own rules are not looked at. A set without
 * any rule has no row. Detection is that of the location chart, from the average run length with the shift
 * present from the first point on.
 *
 * @param features of one plan: they differ in chart, size and measuring rate only
 * @param candidates rules that could be switched on; those already in force are left out
 * @throws InvalidInput when there is no rule in force or no feature, and as `alarmBudget` and
 *   `rulesRunLengths` do
 */
export function tradeOff({
  features,
  inForce,
  candidates,
  shifts,
  shiftHours,
  simulation,
}: {
  features: readonly Omit<WatchedFeature, "rules">[];
  inForce: readonly RunRule[];
  candidates: readonly RunRule[];
  shifts: readonly number[];
  shiftHours: number;
  simulation: SimulationPlan;
}): TradeOffRow[] {
  if (inForce.length === 0) throw new InvalidInput("tradeOff", "inForce.length", 0, "at least 1");
  if (features.length === 0) throw new InvalidInput("tradeOff", "features.length", 0, "at least 1");
  const together = alikeTogether(features);
  const pace = median(features.map(({ subgroupsPerShift }) => subgroupsPerShift));

  const rowOf = (change: RuleChange, rules: readonly RunRule[]): Omit<TradeOffRow, "difference"> => {
    const watched = together.map((feature) => ({ ...feature, rules }));
    const { location, spread, memory, total, load } = alarmBudget({
      features: watched,
      shiftHours,
      simulation,
    });
    const detection = rulesRunLengths({ rules, shifts, simulation }).map(
      ({ shift, mean, standardError }): Detection => ({
        shift,
        subgroups: mean,
        shiftsOfWork: mean === null || pace === 0 ? null : mean / pace,
        standardError,
      }),
    );
    return { change, rules, perShift: { location, spread, memory, total }, load, detection };
  };

  const rows = [
    rowOf({ kind: "in force" }, inForce),
    ...inForce.flatMap((rule) => {
      const others = inForce.filter((other) => other !== rule);
      return others.length === 0 ? [] : [rowOf({ kind: "off", rule: rule.slug }, others)];
    }),
    ...candidates
      .filter((rule) => inForce.every((present) => present.slug !== rule.slug))
      .map((rule) => rowOf({ kind: "on", rule: rule.slug }, [...inForce, rule])),
  ];
  const present = rows[0]!.perShift.total;
  return rows.map((row) => ({ ...row, difference: row.perShift.total - present }));
}

type Watched = Omit<WatchedFeature, "rules">;

/**
 * Features that differ in nothing but how often they are measured, as one that is measured as often as all of them:
 * expected numbers add up, and ten thousand features are a handful of sorts.
 */
function alikeTogether(features: readonly Watched[]): Watched[] {
  const sorts = new Map<string, Watched>();
  for (const feature of features) {
    const { chart, subgroupSize, subgroupsPerShift, alsoWatch = null, isCount = false } = feature;
    requireRate("features[].subgroupsPerShift", subgroupsPerShift);
    const sort = JSON.stringify([chart, subgroupSize, alsoWatch, isCount]);
    const known = sorts.get(sort);
    sorts.set(sort, { ...feature, subgroupsPerShift: subgroupsPerShift + (known?.subgroupsPerShift ?? 0) });
  }
  return [...sorts.values()];
}
