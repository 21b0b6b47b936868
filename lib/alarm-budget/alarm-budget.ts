import { InvalidInput } from "../checks";
import type { ChartKind, FeaturePlan, MemoryChart } from "../plan/feature-plan";
import type { RunRule } from "../rules/rule";
import { type FalseAlarms, falseAlarms, rateOf } from "../run-length/false-alarms";
import { memoryRunLengths } from "../run-length/memory-chart";
import type { SimulationPlan } from "../run-length/rules-run-length";
import { type Load, operatorLoad } from "./operator-rates";

/** A feature as the budget sees it. No rules or no measuring: no alarms. */
export type WatchedFeature = {
  chart: ChartKind;
  subgroupSize: number;
  rules: readonly RunRule[];
  /** Plotted points per shift on average; see `measuringRate`. */
  subgroupsPerShift: number;
  /** The chart with a memory beside it; null or absent for none. */
  alsoWatch?: MemoryChart | null;
  /** Counts have no chart of spread. */
  isCount?: boolean;
};

/**
 * Expected false alarms per shift; `total` is less than the sum where location and spread sound together. Those of
 * the chart with a memory are added in full, though some fall into an alarm of the others.
 */
export type AlarmsPerShift = { location: number; spread: number; memory: number; total: number };

export type FeatureBudget = AlarmsPerShift & {
  /** Shifts between two false alarms of this feature; null when it has none. */
  shiftsBetween: number | null;
  /** Null when no rule is in force. */
  runs: FalseAlarms | null;
};

export type AlarmBudget = AlarmsPerShift & {
  /** One per feature, in the order given. */
  features: FeatureBudget[];
  load: Load;
};

/**
 * Expected false alarms per shift of a plant: signals that mean nothing, because charts that are watched
 * long enough signal by chance.
 *
 *   Σ over features of (subgroups per shift) / (subgroups per false alarm)
 *
 * The second is the exact average run length at shift 0 of the rules in force, of the location chart and of
 * the spread chart, whose false alarms are included (the rules that apply to spread, on the true, skewed
 * distribution of R or s). A chart with a memory beside them adds its own, 1 in its average run length. Counts are
 * reckoned as normal readings on a chart without spread: few small counts signal less evenly than that. Expected numbers add up whether features move together or not.
 *
 * It is the number where everything is in control, readings are normal and independent and limits are the
 * true ones. Autocorrelation and limits from a short baseline add to it (see `falseAlarmGrowth` and
 * `rulesRunLengths`); that one excursion is one alarm takes a little off, since the signals of one run of
 * bad luck join.
 *
 * Source: the sum is common practice, no source; the rates beside it are ISA-18.2's (see operator-rates).
 *
 * @param shiftHours length of a shift, for the comparison with one operator's rate
 * @throws InvalidInput when a feature's size does not fit its chart, its subgroups per shift are below 0 or
 *   not finite, or the hours are not above 0
 */
export function alarmBudget({
  features,
  shiftHours,
  simulation,
  words,
}: {
  features: readonly WatchedFeature[];
  shiftHours: number;
  simulation: SimulationPlan;
  /** Of the load's sentence; English where none are given. */
  words?: Parameters<typeof operatorLoad>[0]["words"];
}): AlarmBudget {
  const runsOf = remembered(simulation);
  const budgets = features.map((feature, i) => budgetOf(feature, i, runsOf));
  const sum = (part: keyof AlarmsPerShift) => budgets.reduce((total, one) => total + one[part], 0);
  const total = sum("total");
  return {
    location: sum("location"),
    spread: sum("spread"),
    memory: sum("memory"),
    total,
    features: budgets,
    load: operatorLoad({ perShift: total, shiftHours, words }),
  };
}

type RunsOf = (feature: WatchedFeature) => FalseAlarms | null;

/** Ten thousand features have a handful of plans; to look each up by its rules' patterns takes longer than to add it up. */
function remembered(simulation: SimulationPlan): RunsOf {
  const known = new Map<string, FalseAlarms>();
  return ({ chart, subgroupSize, rules }) => {
    if (rules.length === 0) return null;
    const plan = `${chart} ${subgroupSize} ${rules.map(({ slug }) => slug).join(" ")}`;
    const found = known.get(plan) ?? falseAlarms({ chart, subgroupSize, rules, simulation });
    known.set(plan, found);
    return found;
  };
}

function budgetOf(feature: WatchedFeature, i: number, runsOf: RunsOf): FeatureBudget {
  const { subgroupsPerShift, alsoWatch, isCount } = feature;
  requireRate(`features[${i}].subgroupsPerShift`, subgroupsPerShift);
  const memory = alsoWatch ? subgroupsPerShift / memoryRunLengths(alsoWatch).inControl : 0;
  const runs = runsOf(feature);
  const location = runs === null ? 0 : subgroupsPerShift * rateOf(runs.location);
  const spread = runs?.spread && !isCount ? subgroupsPerShift * rateOf(runs.spread) : 0;
  const charts = runs === null || isCount ? location : subgroupsPerShift * rateOf(runs.together);
  const total = charts + memory;
  return { location, spread, memory, total, shiftsBetween: total === 0 ? null : 1 / total, runs };
}

/** What of a plan the budget needs beside chart, size and rules. */
export function watchOf({ alsoWatch = null, counts = null }: Pick<FeaturePlan, "alsoWatch" | "counts">) {
  return { alsoWatch, isCount: counts !== null };
}

/**
 * Subgroups per shift, from how many there were in a stretch of running time.
 *
 * @throws InvalidInput when a number is not finite, the subgroups are below 0 or the hours not above 0
 */
export function measuringRate({
  subgroups,
  hours,
  shiftHours,
}: {
  subgroups: number;
  hours: number;
  shiftHours: number;
}): number {
  requireRate("subgroups", subgroups);
  for (const [field, value] of Object.entries({ hours, shiftHours })) {
    if (!(Number.isFinite(value) && value > 0))
      throw new InvalidInput("measuringRate", field, value, "above 0");
  }
  return (subgroups * shiftHours) / hours;
}

/** @throws InvalidInput when a rate is below 0 or not finite */
export function requireRate(field: string, value: number): void {
  if (!(Number.isFinite(value) && value >= 0)) {
    throw new InvalidInput(
      field === "subgroups" ? "measuringRate" : "alarmBudget",
      field,
      value,
      "0 or more",
    );
  }
}
