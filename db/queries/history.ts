import { and, asc, eq, inArray, isNull, sql } from "drizzle-orm";
import type { EvaluationSetup } from "../../lib/evaluation/setup";
import type { MeasurementSeries, NameColumn } from "../../lib/measurements/series";
import type { ChartKind, Exclusion, LimitsVersion } from "../../lib/plan/feature-plan";
import { type Connection, connectionOf, type Database, once } from "../connection";
import { readSeries } from "../measurements/store";
import { account, exclusion, limits, lot, piece, source, subgroupLabel } from "../schema";
import { alarm } from "../schema-alarms";
import { type FeatureRow, readFeature } from "./features";

export type LimitsRow = LimitsVersion & {
  id: number;
  baselineFrom: number;
  baselineTo: number;
  baselineSubgroups: number;
  reason: string;
  frozenAt: number;
  by: string | null;
};

export type ExclusionRow = Exclusion & { id: number; createdAt: number; by: string | null };

export type FeatureHistory = {
  feature: FeatureRow;
  series: MeasurementSeries;
  setup: EvaluationSetup;
  limits: LimitsRow[];
  exclusions: ExclusionRow[];
  /** From first to latest signal of the alarms that a person has closed. */
  answered: { from: number; to: number }[];
};

/** All that a feature's chart is made of; null when there is no such feature. One contiguous read of its blocks. */
export async function featureHistory(database: Database, id: number): Promise<FeatureHistory | null> {
  const connection = connectionOf(database);
  const feature = readFeature(connection, id);
  if (!feature) return null;
  const versions = limitsOf(connection, id);
  const exclusions = exclusionsOf(connection, id);
  return {
    feature,
    series: readSeries(connection, id),
    setup: setupFrom(feature, versions, exclusions),
    limits: versions,
    exclusions,
    answered: answeredOf(connection, id),
  };
}

function answeredOf({ orm }: Connection, featureId: number): { from: number; to: number }[] {
  return orm
    .select({ from: alarm.firstAt, to: alarm.latestAt })
    .from(alarm)
    .where(and(eq(alarm.featureId, featureId), eq(alarm.state, "closed")))
    .all();
}

/**
 * What a feature is judged by; for functions of db/. A posted piece asks for each of its features, so these are
 * plain statements: drizzle's rows of names and reasons took a sixth of the time of a whole post.
 */
export function setupOf(connection: Connection, feature: FeatureRow): EvaluationSetup {
  const { versions, exclusions } = setupStatements(connection);
  return {
    plan: feature.plan,
    unit: feature.unit,
    versions: versions.all(feature.id) as LimitsVersion[],
    exclusions: exclusions.all(feature.id) as Exclusion[],
  };
}

const setupStatements = once(({ sqlite }) => ({
  versions: sqlite.prepare(
    `select version, effective_from as effectiveFrom, chart, centre, sigma, estimator from limits
       where feature_id = ? order by effective_from, version`,
  ),
  exclusions: sqlite.prepare(
    `select from_at as "from", to_at as "to", cause from exclusion
       where feature_id = ? and withdrawn_at is null order by from_at`,
  ),
}));

function setupFrom(feature: FeatureRow, versions: LimitsVersion[], exclusions: Exclusion[]): EvaluationSetup {
  return {
    plan: feature.plan,
    unit: feature.unit,
    versions: versions.map(({ version, effectiveFrom, chart, centre, sigma, betweenLots, estimator }) => ({
      version,
      effectiveFrom,
      chart,
      centre,
      sigma,
      ...(betweenLots !== undefined && { betweenLots }),
      estimator,
    })),
    exclusions: exclusions.map(({ from, to, cause }) => ({ from, to, cause })),
  };
}

function limitsOf(connection: Connection, featureId: number): LimitsRow[] {
  return limitsQuery(connection)
    .all({ featureId })
    .map(({ betweenLots, ...row }) => ({
      ...row,
      chart: row.chart as ChartKind,
      ...(betweenLots !== null && { betweenLots }),
    }));
}

const limitsQuery = once(({ orm }) =>
  orm
    .select({
      id: limits.id,
      version: limits.version,
      effectiveFrom: limits.effectiveFrom,
      chart: limits.chart,
      centre: limits.centre,
      sigma: limits.sigma,
      betweenLots: limits.betweenLots,
      estimator: limits.estimator,
      baselineFrom: limits.baselineFrom,
      baselineTo: limits.baselineTo,
      baselineSubgroups: limits.baselineSubgroups,
      reason: limits.reason,
      frozenAt: limits.frozenAt,
      by: account.name,
    })
    .from(limits)
    .leftJoin(account, eq(account.id, limits.accountId))
    .where(eq(limits.featureId, sql.placeholder("featureId")))
    .orderBy(asc(limits.effectiveFrom), asc(limits.version))
    .prepare(),
);

/** Exclusions in force. */
function exclusionsOf(connection: Connection, featureId: number): ExclusionRow[] {
  return exclusionsQuery(connection).all({ featureId });
}

const exclusionsQuery = once(({ orm }) =>
  orm
    .select({
      id: exclusion.id,
      from: exclusion.fromAt,
      to: exclusion.toAt,
      cause: exclusion.cause,
      createdAt: exclusion.createdAt,
      by: account.name,
    })
    .from(exclusion)
    .leftJoin(account, eq(account.id, exclusion.accountId))
    .where(and(eq(exclusion.featureId, sql.placeholder("featureId")), isNull(exclusion.withdrawnAt)))
    .orderBy(asc(exclusion.fromAt))
    .prepare(),
);

/** Most bound values in one statement that SQLite takes is 32,766; this stays far below. */
const IDS_AT_ONCE = 5_000;

/** The texts behind the ids of a column; ids without one, and 0, are left out. */
export async function namesOf(
  database: Database,
  column: NameColumn,
  ids: Iterable<number>,
): Promise<Map<number, string>> {
  const { orm } = connectionOf(database);
  const wanted = [...new Set(ids)].filter((id) => id !== 0);
  const names = new Map<number, string>();
  for (let from = 0; from < wanted.length; from += IDS_AT_ONCE) {
    for (const { id, text } of namesIn(orm, column, wanted.slice(from, from + IDS_AT_ONCE)))
      names.set(id, text);
  }
  return names;
}

function namesIn(orm: Connection["orm"], column: NameColumn, ids: number[]): { id: number; text: string }[] {
  switch (column) {
    case "piece":
      return orm.select({ id: piece.id, text: piece.serial }).from(piece).where(inArray(piece.id, ids)).all();
    case "lot":
      return orm.select({ id: lot.id, text: lot.code }).from(lot).where(inArray(lot.id, ids)).all();
    case "subgroup":
      return orm
        .select({ id: subgroupLabel.id, text: subgroupLabel.label })
        .from(subgroupLabel)
        .where(inArray(subgroupLabel.id, ids))
        .all();
    default:
      return orm
        .select({ id: source.id, text: source.code })
        .from(source)
        .where(inArray(source.id, ids))
        .all();
  }
}
