import { and, eq, isNull, max } from "drizzle-orm";
import { baselineLimits } from "../../lib/evaluation/baseline";
import { estimatorFault } from "../../lib/evaluation/estimator-choice";
import { evaluate } from "../../lib/evaluation/evaluate";
import { LEAST_FOR_FINAL } from "../../lib/evaluation/setup";
import { FROM_THE_START } from "../../lib/evaluation/trial-limits";
import type { LimitsEstimator } from "../../lib/limits/estimators";
import { usualSample } from "../../lib/plan/counts";
import { type Refused, refused, refusedAs } from "../../lib/words/refusal";
import { type Connection, type Database, write } from "../connection";
import { readSeries } from "../measurements/store";
import { type FeatureRow, readFeature } from "../queries/features";
import { setupOf } from "../queries/history";
import { exclusion, limits } from "../schema";
import { type Actor, record } from "./audit";
import { judgeAnew } from "./judge-feature";
import { tell } from "./news";

export type Freeze = {
  featureId: number;
  /** Subgroups whose last reading lies in [baselineFrom, baselineTo] carry the limits. */
  baselineFrom: number;
  baselineTo: number;
  /** First moment the new limits judge; null for the whole history, as for a first version. */
  effectiveFrom: number | null;
  estimator?: LimitsEstimator | undefined;
  reason: string;
  actor: Actor;
};

/**
 * Freezes control limits from a baseline as the feature's next version, and judges the feature anew.
 *
 * Refused, with nothing saved, when fewer than 20 subgroups count in the baseline, when they show no
 * variation, or when no reason is given.
 */
export async function freezeLimits(
  database: Database,
  { featureId, baselineFrom, baselineTo, effectiveFrom, estimator, reason, actor }: Freeze,
): Promise<{ ok: true; version: number } | Refused> {
  return write(database, (connection) => {
    const feature = existing(connection, featureId);
    if (!feature) return refused("feature-unknown", featureId);
    if (reason.trim() === "") return refused("limits-why");
    const setup = setupOf(connection, feature);
    const series = readSeries(connection, featureId);
    const evaluation = evaluate(series, setup);
    if (estimator !== undefined) {
      const fault = estimatorFault(evaluation, {
        plan: setup.plan,
        series,
        from: baselineFrom,
        to: baselineTo,
        estimator,
      });
      if (fault) return refusedAs(fault);
    }
    const baseline = baselineLimits(evaluation, { setup, from: baselineFrom, to: baselineTo, estimator });
    if (baseline.subgroups < LEAST_FOR_FINAL) {
      return refused("limits-few", baseline.subgroups, LEAST_FOR_FINAL);
    }
    if (!baseline.limits.ok) {
      return refused(estimator === "between-lots" ? "limits-no-lots" : "limits-no-variation");
    }

    const { orm } = connection;
    const last = orm
      .select({ version: max(limits.version) })
      .from(limits)
      .where(eq(limits.featureId, featureId))
      .get();
    const version = (last?.version ?? 0) + 1;
    const { chart, centre, sigma, betweenLots, estimator: used } = baseline.limits.value;
    const row = {
      featureId,
      version,
      effectiveFrom: effectiveFrom ?? FROM_THE_START,
      chart,
      centre,
      sigma,
      betweenLots: betweenLots ?? null,
      countedOn: setup.plan.counts ? usualSample(setup.plan.counts) : null,
      estimator: used,
      baselineFrom,
      baselineTo,
      baselineSubgroups: baseline.subgroups,
      reason: reason.trim(),
      frozenAt: actor.at,
      accountId: actor.accountId,
    };
    orm.insert(limits).values(row).run();
    record(connection, actor, { action: "freeze limits", subject: subjectOf(feature), after: row, reason });
    judgeAnew(connection, { feature, at: actor.at });
    tell(connection, { kind: "feature", featureId: feature.id });
    return { ok: true, version };
  });
}

/** Leaves subgroups out, with their assigned cause, and judges the feature anew. */
export async function addExclusion(
  database: Database,
  {
    featureId,
    from,
    to,
    cause,
    actor,
  }: { featureId: number; from: number; to: number; cause: string; actor: Actor },
): Promise<{ ok: true; id: number } | Refused> {
  return write(database, (connection) => {
    const feature = existing(connection, featureId);
    if (!feature) return refused("feature-unknown", featureId);
    if (cause.trim() === "") return refused("exclusion-cause");
    if (from > to) return refused("exclusion-order");
    const row = {
      featureId,
      fromAt: from,
      toAt: to,
      cause: cause.trim(),
      createdAt: actor.at,
      accountId: actor.accountId,
    };
    const { id } = connection.orm.insert(exclusion).values(row).returning({ id: exclusion.id }).get();
    record(connection, actor, {
      action: "leave out subgroups",
      subject: subjectOf(feature),
      after: row,
      reason: cause,
    });
    judgeAnew(connection, { feature, at: actor.at });
    tell(connection, { kind: "feature", featureId: feature.id });
    return { ok: true, id };
  });
}

/** Takes left-out subgroups back in. The exclusion stays in the record. */
export async function withdrawExclusion(
  database: Database,
  { id, actor }: { id: number; actor: Actor },
): Promise<{ ok: true } | Refused> {
  return write(database, (connection) => {
    const { orm } = connection;
    const row = orm
      .update(exclusion)
      .set({ withdrawnAt: actor.at })
      .where(and(eq(exclusion.id, id), isNull(exclusion.withdrawnAt)))
      .returning()
      .get();
    const feature = row && existing(connection, row.featureId);
    if (!row || !feature) return refused("exclusion-taken-in");
    record(connection, actor, { action: "take subgroups back in", subject: subjectOf(feature), before: row });
    judgeAnew(connection, { feature, at: actor.at });
    tell(connection, { kind: "feature", featureId: feature.id });
    return { ok: true };
  });
}

function existing(connection: Connection, featureId: number): FeatureRow | null {
  return readFeature(connection, featureId);
}

/** How the record names a feature. */
export function subjectOf(feature: FeatureRow): string {
  return `${feature.part.number} ${feature.name}`;
}
