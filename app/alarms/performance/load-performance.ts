import "server-only";
import { eventsOfAlarms, listAlarms } from "../../../db/queries/alarms";
import { type FeatureRow, listFeatures } from "../../../db/queries/features";
import { measuredBetween } from "../../../db/queries/measuring-rate";
import {
  type AlarmBudget,
  alarmBudget,
  measuringRate,
  watchOf,
} from "../../../lib/alarm-budget/alarm-budget";
import { planGroups } from "../../../lib/alarm-budget/plan-groups";
import { type WorkedShifts, workedShifts } from "../../../lib/alarm-budget/worked-shifts";
import { latestOf } from "../../../lib/alarms/alarm-event";
import { type AlarmPerformance, alarmPerformance } from "../../../lib/alarms/performance";
import { STALE_MS } from "../../../lib/handover/handover";
import type { FeaturePlan } from "../../../lib/plan/feature-plan";
import { RULE_SETS, ruleBySlug } from "../../../lib/rules/known-rules";
import { database } from "../../database";
import { PAGE_SIMULATION } from "../../plan/cost-answer";
import { plant } from "../../plant";

const DAY = 86_400_000;
const MOST_FREQUENT = 10;
const LIMITS_RULE: string = RULE_SETS.LIMITS_ONLY[0];

export type RuleSaving = {
  key: string;
  chart: FeaturePlan["chart"];
  subgroupSize: number;
  rules: readonly string[];
  features: number;
  /** Expected false alarms in the window under the rules in force. */
  expected: number;
  raised: number;
  /** The added rule whose absence would save most, and how many; null where only the limits are in force. */
  best: { rule: string; saved: number } | null;
};

export type ShownPerformance = {
  from: number;
  to: number;
  worked: WorkedShifts;
  /** Null when nothing was measured within a shift of the window: there is no running time to divide by. */
  performance: AlarmPerformance | null;
  features: Map<number, FeatureRow>;
  /** Expected false alarms of each feature in the window. */
  expected: Map<number, number>;
  savings: RuleSaving[];
  stale: { id: number; featureId: number; since: number }[];
  shelved: { id: number; featureId: number; until: number | null }[];
  unanswered: number;
};

/** How the alarms of the last days were answered, and what their rules are expected to give by chance. */
export async function loadPerformance(days: number, operators: number): Promise<ShownPerformance> {
  const db = await database();
  const { now, shifts, zone } = await plant();
  const from = now - days * DAY;
  const { readings, quarterHours } = await measuredBetween(db, { from, to: now });
  const worked = workedShifts({ moments: quarterHours, shifts, zone });
  const alarms = (await listAlarms(db, { since: from })).filter(({ raisedAt }) => raisedAt <= now);
  const events = await eventsOfAlarms(
    db,
    alarms.map(({ id }) => id),
  );
  const answered = alarms.map((alarm) => {
    const own = events.get(alarm.id) ?? [];
    return {
      ...alarm,
      acknowledgedAt: own.find(({ kind }) => kind === "acknowledged" || kind === "closed")?.at ?? null,
      cause: latestOf(own, "cause")?.detail.cause ?? null,
    };
  });
  const open = await listAlarms(db, { open: true });
  const features = await listFeatures(db);
  const raisedBy = new Map<number, number>();
  for (const { featureId } of alarms) raisedBy.set(featureId, (raisedBy.get(featureId) ?? 0) + 1);

  const measured = features.flatMap((feature) => {
    const subgroups = (readings.get(feature.id) ?? 0) / feature.plan.subgroupSize;
    if (subgroups === 0 || worked.count === 0) return [];
    const { hours, shiftHours } = worked;
    return [{ ...feature, subgroupsPerShift: measuringRate({ subgroups, hours, shiftHours }) }];
  });
  const budget = measured.length > 0 ? budgetOf(measured, worked.shiftHours) : null;
  const expected = new Map(
    measured.map(({ id }, i) => [id, (budget?.features[i]?.total ?? 0) * worked.count]),
  );
  return {
    from,
    to: now,
    worked,
    performance:
      worked.count === 0
        ? null
        : alarmPerformance(answered, {
            hours: worked.hours,
            shifts: worked.count,
            operators,
            most: MOST_FREQUENT,
          }),
    features: new Map(features.map((feature) => [feature.id, feature])),
    expected,
    savings: savingsOf(measured, { worked, expected, raisedBy }),
    stale: open
      .filter(
        ({ state, returnedAt, firstAt }) =>
          state !== "shelved" && returnedAt === null && now - firstAt > STALE_MS,
      )
      .map(({ id, featureId, firstAt }) => ({ id, featureId, since: firstAt })),
    shelved: open
      .filter(({ state }) => state === "shelved")
      .map(({ id, featureId, shelvedUntil }) => ({ id, featureId, until: shelvedUntil })),
    unanswered: answered.filter(({ acknowledgedAt }) => acknowledgedAt === null).length,
  };
}

type Measured = FeatureRow & { subgroupsPerShift: number };

function budgetOf(features: readonly Measured[], shiftHours: number, without?: string): AlarmBudget {
  return alarmBudget({
    features: features.map(({ plan, subgroupsPerShift }) => ({
      chart: plan.chart,
      subgroupSize: plan.subgroupSize,
      rules: plan.rules.filter((slug) => slug !== without).map(ruleBySlug),
      subgroupsPerShift,
      ...watchOf(plan),
    })),
    shiftHours,
    simulation: PAGE_SIMULATION,
  });
}

/** Plans by what they are expected to give by chance, each with the rule whose absence would save most of it. */
function savingsOf(
  features: readonly Measured[],
  {
    worked,
    expected,
    raisedBy,
  }: { worked: WorkedShifts; expected: ReadonlyMap<number, number>; raisedBy: ReadonlyMap<number, number> },
): RuleSaving[] {
  const sum = (counts: ReadonlyMap<number, number>, of: readonly Measured[]) =>
    of.reduce((total, { id }) => total + (counts.get(id) ?? 0), 0);
  return planGroups(features)
    .filter(({ rules }) => rules.length > 0)
    .map((group) => {
      const total = sum(expected, group.features);
      const savings = group.rules
        // Without its limits a chart is none; only what was added to them can go.
        .filter((rule) => rule !== LIMITS_RULE)
        .map((rule) => ({
          rule,
          saved: total - budgetOf(group.features, worked.shiftHours, rule).total * worked.count,
        }))
        .sort((a, b) => b.saved - a.saved);
      return {
        key: group.key,
        chart: group.chart,
        subgroupSize: group.subgroupSize,
        rules: group.rules,
        features: group.features.length,
        expected: total,
        raised: sum(raisedBy, group.features),
        best: savings[0] ?? null,
      };
    })
    .sort((a, b) => (b.best?.saved ?? 0) - (a.best?.saved ?? 0));
}
