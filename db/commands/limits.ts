import { and, eq, isNull, max } from "drizzle-orm";
import { baselineLimits } from "../../lib/evaluation/baseline";
import { estimatorFault } from "../../lib/evaluation/estimator-choice";
import { evaluate } from "../../lib/evaluation/evaluate";
import { LEAST_FOR_FINAL } from "../../lib/evaluation/setup";
import { FROM_THE_START } from "../../lib/evaluation/trial-limits";
import { counted } from "../../lib/format/numbers";
import type { LimitsEstimator } from "../../lib/limits/estimators";
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
): Promise<{ ok: true; version: number } | { ok: false; message: string }> {
  return write(database, (connection) => {
    const feature = existing(connection, featureId);
    if (!feature) return refused(`there is no feature ${featureId}.`);
    if (reason.trim() === "") return refused("write why these limits are frozen; the record keeps it.");
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
      if (fault) return refused(fault);
    }
    const baseline = baselineLimits(evaluation, { setup, from: baselineFrom, to: baselineTo, estimator });
    if (baseline.subgroups < LEAST_FOR_FINAL) {
      return refused(
        `the baseline holds ${counted(baseline.subgroups, "subgroup")} that ${baseline.subgroups === 1 ? "counts" : "count"}, and limits need at least ${LEAST_FOR_FINAL}. ` +
          "Choose a longer baseline, or go on with trial limits until there are enough.",
      );
    }
    if (!baseline.limits.ok) {
      return refused(
        estimator === "between-lots"
          ? "lot means differ by no more than the readings within a lot explain, so there is no lot-to-lot variation to take into limits."
          : "the baseline shows no variation at this resolution, so there is nothing to draw limits from.",
      );
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
): Promise<{ ok: true; id: number } | { ok: false; message: string }> {
  return write(database, (connection) => {
    const feature = existing(connection, featureId);
    if (!feature) return refused(`there is no feature ${featureId}.`);
    if (cause.trim() === "")
      return refused("name the assigned cause; a subgroup is never left out without one.");
    if (from > to) return refused("the last subgroup to leave out comes before the first.");
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
): Promise<{ ok: true } | { ok: false; message: string }> {
  return write(database, (connection) => {
    const { orm } = connection;
    const row = orm
      .update(exclusion)
      .set({ withdrawnAt: actor.at })
      .where(and(eq(exclusion.id, id), isNull(exclusion.withdrawnAt)))
      .returning()
      .get();
    const feature = row && existing(connection, row.featureId);
    if (!row || !feature) return refused("these subgroups were taken back in already. Reload the page.");
    record(connection, actor, { action: "take subgroups back in", subject: subjectOf(feature), before: row });
    judgeAnew(connection, { feature, at: actor.at });
    tell(connection, { kind: "feature", featureId: feature.id });
    return { ok: true };
  });
}

function existing(connection: Connection, featureId: number): FeatureRow | null {
  return readFeature(connection, featureId);
}

function refused(why: string): { ok: false; message: string } {
  return { ok: false, message: `Nothing saved: ${why}` };
}

/** How the record names a feature. */
export function subjectOf(feature: FeatureRow): string {
  return `${feature.part.number} ${feature.name}`;
}
