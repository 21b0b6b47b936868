import { and, asc, eq, isNull, sql } from "drizzle-orm";
import type { EvaluationSetup } from "../../lib/evaluation/setup";
import type { MeasurementSeries, NameColumn } from "../../lib/measurements/series";
import { usualSample } from "../../lib/plan/counts";
import type { ChartKind, Exclusion, FeaturePlan, LimitsVersion } from "../../lib/plan/feature-plan";
import { type Connection, connectionOf, type Database, once } from "../connection";
import { readSeries } from "../measurements/store";
import { account, exclusion, limits } from "../schema";
import { alarm } from "../schema-alarms";
import { type FeatureRow, readFeature } from "./features";
import { latestNewsId, measurementsTold } from "./news";

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
  return {
    feature,
    series: readSeries(connection, id),
    setup: setupOf(connection, feature),
    limits: limitsOf(connection, feature),
    exclusions: exclusionsOf(connection, id),
    answered: answeredOf(connection, id),
  };
}

/** What a history is made of but for its measurements, as text, and the news that had come when it was read. */
export type HistoryMark = { given: string; news: number };

/** Ask for it before the history: what is written between the two only costs reading it again. */
export async function historyMark(database: Database, id: number): Promise<HistoryMark> {
  // News first, for the same reason.
  const news = await latestNewsId(database);
  return { given: givenOf(connectionOf(database), id), news };
}

/**
 * A later mark of the same history; null when the history may be another by now. Costs a fraction of a millisecond
 * and what news of measurements have come since, so whoever holds a history keeps the later mark.
 */
export async function laterMark(
  database: Database,
  { id, mark }: { id: number; mark: HistoryMark },
): Promise<HistoryMark | null> {
  const news = await latestNewsId(database);
  if (givenOf(connectionOf(database), id) !== mark.given) return null;
  const isMeasured = await measurementsTold(database, { featureId: id, after: mark.news });
  return isMeasured ? null : { given: mark.given, news };
}

/** For functions of db/. */
export function givenOf(connection: Connection, id: number): string {
  const feature = readFeature(connection, id);
  const given = [feature, feature && limitsOf(connection, feature), exclusionsOf(connection, id)];
  return JSON.stringify([...given, answeredOf(connection, id)]);
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
    versions: (versions.all(feature.id) as StoredVersion[]).map((stored) => versionOf(stored, feature.plan)),
    exclusions: exclusions.all(feature.id) as Exclusion[],
  };
}

const setupStatements = once(({ sqlite }) => ({
  versions: sqlite.prepare(
    `select version, effective_from as effectiveFrom, chart, centre, sigma, between_lots as betweenLots,
       counted_on as countedOn, estimator from limits
       where feature_id = ? order by effective_from, version`,
  ),
  exclusions: sqlite.prepare(
    `select from_at as "from", to_at as "to", cause from exclusion
       where feature_id = ? and withdrawn_at is null order by from_at`,
  ),
}));

type StoredVersion = Omit<LimitsVersion, "betweenLots"> & {
  betweenLots: number | null;
  countedOn: number | null;
};

/**
 * A version as it judges, without lot-to-lot variation where none is stored. That of counts goes over to as many pieces
 * or units as the plan says today: the rate stays, a count on k times as many has k times the mean and √k times the sigma.
 */
function versionOf(
  { version, effectiveFrom, chart, centre, sigma, betweenLots, countedOn, estimator }: StoredVersion,
  { counts }: FeaturePlan,
): LimitsVersion {
  const times = counts && countedOn !== null ? usualSample(counts) / countedOn : 1;
  const own = { version, effectiveFrom, chart, centre: centre * times, sigma: sigma * Math.sqrt(times) };
  return betweenLots === null ? { ...own, estimator } : { ...own, betweenLots, estimator };
}

function limitsOf(connection: Connection, { id, plan }: FeatureRow): LimitsRow[] {
  return limitsQuery(connection)
    .all({ featureId: id })
    .map(({ betweenLots, countedOn, ...row }) => {
      const stored = { ...row, chart: row.chart as ChartKind, betweenLots, countedOn };
      return { ...row, ...versionOf(stored, plan) };
    });
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
      countedOn: limits.countedOn,
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

/** The texts behind the ids of a column; ids without one, and 0, are left out. */
export async function namesOf(
  database: Database,
  column: NameColumn,
  ids: Iterable<number>,
): Promise<Map<number, string>> {
  // As one value: a chart asks for thousands of pieces, and binding each of them took most of the time.
  const wanted = JSON.stringify([...new Set(ids)]);
  const statements = nameStatements(connectionOf(database));
  const statement = column === "piece" || column === "lot" || column === "subgroup" ? column : "source";
  return new Map(statements[statement].all(wanted) as [number, string][]);
}

const nameStatements = once(({ sqlite }) => {
  const named = (table: string, text: string) =>
    sqlite.prepare(`select id, ${text} from ${table} where id in (select value from json_each(?))`).raw();
  return {
    piece: named("piece", "serial"),
    lot: named("lot", "code"),
    subgroup: named("subgroup_label", "label"),
    source: named("source", "code"),
  };
});
