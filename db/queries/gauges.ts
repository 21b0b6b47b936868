import { and, asc, desc, eq, isNull } from "drizzle-orm";
import { type CrossedFact, type GaugeShare, gaugeShare } from "../../lib/measurement-systems/gauge-share";
import type { StatedError } from "../../lib/measurement-systems/permissible-error";
import type {
  StudyData,
  StudyKind,
  StudyResult,
  StudySettings,
} from "../../lib/measurement-systems/study-data";
import type { MeasurementSeries } from "../../lib/measurements/series";
import type { KnownUnit } from "../../lib/plan/feature-plan";
import { type Connection, connectionOf, type Database } from "../connection";
import { readStandings } from "../measurements/feature-state";
import { account, feature, part, source } from "../schema";
import { gauge, gaugeStudy } from "../schema-gauges";
import { type FeatureRow, listFeatures } from "./features";

export type GaugeRecord = {
  what: string;
  resolution: number | null;
  stated: StatedError | null;
  portable: boolean;
  calibratedOn: string | null;
  calibrationDue: string | null;
  note: string;
  updatedAt: number;
  by: string | null;
};

/** A gauge that measurements name or that somebody entered; without a record until somebody writes one. */
export type GaugeRow = {
  id: number;
  code: string;
  notes: string;
  retired: boolean;
  record: GaugeRecord | null;
};

export type StudyRow = {
  id: number;
  gauge: { id: number; code: string };
  kind: StudyKind;
  feature: { id: number; name: string; part: string } | null;
  unit: KnownUnit;
  madeOn: string;
  note: string;
  settings: StudySettings;
  result: StudyResult;
  enteredAt: number;
  by: string | null;
  supersededBy: number | null;
  withdrawnAt: number | null;
  withdrawnBecause: string;
};

export type StudyWithData = StudyRow & { data: StudyData };

/** A feature that the gauge measured last, with what the gauge takes of its tolerance. */
export type GaugedFeatureRow = {
  feature: FeatureRow;
  /** Sigma within subgroups of the limits in force. */
  sigma: number | null;
  share: GaugeShare | null;
};

/** Every source of kind gauge, by code. */
export async function listGauges(database: Database): Promise<GaugeRow[]> {
  return selectGauges(connectionOf(database)).orderBy(asc(source.code)).all().map(gaugeRow);
}

/** Null when there is no such gauge. */
export async function gaugeById(database: Database, id: number): Promise<GaugeRow | null> {
  return readGauge(connectionOf(database), id);
}

/** For functions of db/ that are inside a transaction. */
export function readGauge(connection: Connection, id: number): GaugeRow | null {
  const row = selectGauges(connection)
    .where(and(eq(source.kind, "gauge"), eq(source.id, id)))
    .get();
  return row ? gaugeRow(row) : null;
}

function selectGauges({ orm }: Connection) {
  return orm
    .select({ source, gauge, by: account.name })
    .from(source)
    .leftJoin(gauge, eq(gauge.sourceId, source.id))
    .leftJoin(account, eq(account.id, gauge.accountId))
    .where(eq(source.kind, "gauge"))
    .$dynamic();
}

type Selected = {
  source: typeof source.$inferSelect;
  gauge: typeof gauge.$inferSelect | null;
  by: string | null;
};

function gaugeRow({ source: { id, code, notes, retired }, gauge: row, by }: Selected): GaugeRow {
  return {
    id,
    code,
    notes,
    retired,
    record: row && {
      what: row.what,
      resolution: row.resolution,
      stated: statedOf(row),
      portable: row.portable,
      calibratedOn: row.calibratedOn,
      calibrationDue: row.calibrationDue,
      note: row.note,
      updatedAt: row.updatedAt,
      by,
    },
  };
}

function statedOf({
  errorA,
  errorK,
}: Pick<typeof gauge.$inferSelect, "errorA" | "errorK">): StatedError | null {
  return errorA === null ? null : { A: errorA, K: errorK ?? Number.POSITIVE_INFINITY };
}

/** Studies of one gauge or of all, the newest first; superseded and withdrawn ones among them. */
export async function listStudies(
  database: Database,
  { gaugeId }: { gaugeId?: number } = {},
): Promise<StudyRow[]> {
  return selectStudies(connectionOf(database))
    .where(gaugeId === undefined ? undefined : eq(gaugeStudy.gaugeId, gaugeId))
    .orderBy(desc(gaugeStudy.madeOn), desc(gaugeStudy.id))
    .all()
    .map(studyRow);
}

/** With its readings; null when there is no such study. */
export async function studyById(database: Database, id: number): Promise<StudyWithData | null> {
  const row = selectStudies(connectionOf(database)).where(eq(gaugeStudy.id, id)).get();
  return row ? { ...studyRow(row), data: JSON.parse(row.study.data) as StudyData } : null;
}

function selectStudies({ orm }: Connection) {
  return orm
    .select({
      study: gaugeStudy,
      code: source.code,
      feature: feature.name,
      part: part.number,
      by: account.name,
    })
    .from(gaugeStudy)
    .innerJoin(source, eq(source.id, gaugeStudy.gaugeId))
    .leftJoin(feature, eq(feature.id, gaugeStudy.featureId))
    .leftJoin(part, eq(part.id, feature.partId))
    .leftJoin(account, eq(account.id, gaugeStudy.accountId))
    .$dynamic();
}

type SelectedStudy = {
  study: typeof gaugeStudy.$inferSelect;
  code: string;
  feature: string | null;
  part: string | null;
  by: string | null;
};

function studyRow({ study, code, feature: name, part: number, by }: SelectedStudy): StudyRow {
  return {
    id: study.id,
    gauge: { id: study.gaugeId, code },
    kind: study.kind as StudyKind,
    feature:
      study.featureId === null || name === null ? null : { id: study.featureId, name, part: number ?? "" },
    unit: study.unit as KnownUnit,
    madeOn: study.madeOn,
    note: study.note,
    settings: JSON.parse(study.settings) as StudySettings,
    result: JSON.parse(study.result) as StudyResult,
    enteredAt: study.enteredAt,
    by,
    supersededBy: study.supersededBy,
    withdrawnAt: study.withdrawnAt,
    withdrawnBecause: study.withdrawnBecause,
  };
}

/** Features whose latest measurement each gauge made, with what it takes of their tolerance; by gauge id. */
export async function gaugedFeatures(database: Database): Promise<Map<number, GaugedFeatureRow[]>> {
  const connection = connectionOf(database);
  const known = knownOfGauges(connection);
  const standings = readStandings(connection);
  const byGauge = new Map<number, GaugedFeatureRow[]>();
  for (const row of await listFeatures(database)) {
    const standing = standings.get(row.id)?.standing;
    const id = standing?.latest?.gauge ?? 0;
    if (!standing || id === 0) continue;
    const found = { feature: row, sigma: standing.sigma, share: gaugeShare(row, known(id)) };
    byGauge.set(id, [...(byGauge.get(id) ?? []), found]);
  }
  return byGauge;
}

/** The share of the gauge that takes most, and which it is. */
export type ShareOfFeature = GaugeShare & {
  gauge: { id: number; code: string };
  /** The feature of the study behind it; null where it is this one, or none of the control plan. */
  studied: { name: string; part: string } | null;
};

/**
 * What the gauges of these measurements take of a feature's tolerance: of several gauges the one that takes most, for a
 * capability study stands on all of them. `window` bounds the measurements as in a capability study.
 *
 * Null when one of the gauges is not known that far, when the measurements name none, or without a width to compare with.
 */
export async function shareOfFeature(
  database: Database,
  {
    feature: row,
    series,
    window: { from, to } = { from: null, to: null },
  }: {
    feature: FeatureRow;
    series: Pick<MeasurementSeries, "count" | "takenAt" | "gauge">;
    window?: { from: number | null; to: number | null };
  },
): Promise<ShareOfFeature | null> {
  const ids = new Set<number>();
  for (let i = 0; i < series.count; i++) {
    const at = series.takenAt[i]!;
    if ((from === null || at >= from) && (to === null || at <= to)) ids.add(series.gauge[i]!);
  }
  ids.delete(0);
  const connection = connectionOf(database);
  const known = knownOfGauges(connection);
  let most: ShareOfFeature | null = null;
  for (const id of ids) {
    const share = gaugeShare(row, known(id));
    const code = readGauge(connection, id)?.code;
    if (!share || code === undefined) return null;
    if (most && most.share >= share.share) continue;
    most = { ...share, gauge: { id, code }, studied: studiedOf(connection, share.basis) };
  }
  return most;
}

/** Another feature of the control plan on which a share's study was made. */
function studiedOf({ orm }: Connection, basis: GaugeShare["basis"]): ShareOfFeature["studied"] {
  if (basis.kind === "permissible-error" || basis.isOfThisFeature) return null;
  const made = orm
    .select({ name: feature.name, part: part.number })
    .from(gaugeStudy)
    .innerJoin(feature, eq(feature.id, gaugeStudy.featureId))
    .innerJoin(part, eq(part.id, feature.partId))
    .where(eq(gaugeStudy.id, basis.id))
    .get();
  return made ?? null;
}

type Known = { studies: CrossedFact[]; stated: StatedError | null };

/** Crossed studies in force and stated error of a gauge, by its id; all are read at once. */
function knownOfGauges({ orm }: Connection): (gaugeId: number) => Known {
  const known = new Map<number, Known>();
  const of = (id: number) => known.get(id) ?? { studies: [], stated: null };
  for (const row of orm.select().from(gauge).all())
    known.set(row.sourceId, { studies: [], stated: statedOf(row) });
  const inForce = orm
    .select()
    .from(gaugeStudy)
    .where(
      and(eq(gaugeStudy.kind, "crossed"), isNull(gaugeStudy.supersededBy), isNull(gaugeStudy.withdrawnAt)),
    )
    .all();
  for (const { id, gaugeId, featureId, unit, madeOn, result: text } of inForce) {
    const result = JSON.parse(text) as StudyResult;
    if (result.kind !== "crossed") continue;
    const grr = result.study.deviations.grr;
    const { studies, stated } = of(gaugeId);
    known.set(gaugeId, {
      stated,
      studies: [...studies, { id, featureId, unit: unit as KnownUnit, madeOn, grr }],
    });
  }
  return of;
}
