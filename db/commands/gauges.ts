import { and, eq, isNull, ne } from "drizzle-orm";
import { type StudyData, type StudySettings, studyResult } from "../../lib/measurement-systems/study-data";
import type { KnownUnit } from "../../lib/plan/feature-plan";
import { fault, type Refusal, type Refused, refused, refusedAs } from "../../lib/words/refusal";
import { type Connection, type Database, write } from "../connection";
import { readFeature } from "../queries/features";
import { readGauge } from "../queries/gauges";
import { source } from "../schema";
import { gauge, gaugeStudy } from "../schema-gauges";
import { type Actor, record } from "./audit";

/** Lengths in mm; A in µm, K in mm per µm; days of the plant's calendar, YYYY-MM-DD. */
export type GaugeEntry = {
  what: string;
  resolution: number | null;
  errorA: number | null;
  errorK: number | null;
  portable: boolean;
  calibratedOn: string | null;
  calibrationDue: string | null;
  note: string;
};

export type Saved = { ok: true; id: number } | Refused;

/** Enters a gauge that no measurement has named yet. Refused when its code is taken. */
export async function createGauge(
  database: Database,
  { code, entry, actor }: { code: string; entry: GaugeEntry; actor: Actor },
): Promise<Saved> {
  return write(database, (connection) => {
    const name = code.trim();
    if (name === "") return refused("gauge-code");
    const wrong = faultOf(entry);
    if (wrong) return refusedAs(wrong);
    const { orm } = connection;
    const there = orm
      .select({ id: source.id })
      .from(source)
      .where(and(eq(source.kind, "gauge"), eq(source.code, name)))
      .get();
    if (there) return refused("gauge-there", name);
    const { id } = orm
      .insert(source)
      .values({ kind: "gauge", code: name })
      .returning({ id: source.id })
      .get();
    store(connection, { id, code: name, before: undefined, entry, actor });
    return { ok: true, id };
  });
}

/** Writes what is known of a gauge, for the first time or anew. */
export async function saveGauge(
  database: Database,
  { id, entry, actor }: { id: number; entry: GaugeEntry; actor: Actor },
): Promise<Saved> {
  return write(database, (connection) => {
    const known = readGauge(connection, id);
    if (!known) return refused("gauge-unknown", id);
    const wrong = faultOf(entry);
    if (wrong) return refusedAs(wrong);
    const before = connection.orm.select().from(gauge).where(eq(gauge.sourceId, id)).get();
    store(connection, { id, code: known.code, before, entry, actor });
    return { ok: true, id };
  });
}

function store(
  connection: Connection,
  {
    id,
    code,
    before,
    entry,
    actor,
  }: { id: number; code: string; before: unknown; entry: GaugeEntry; actor: Actor },
): void {
  const row = { ...entry, updatedAt: actor.at, accountId: actor.accountId };
  connection.orm
    .insert(gauge)
    .values({ sourceId: id, ...row })
    .onConflictDoUpdate({ target: gauge.sourceId, set: row })
    .run();
  record(connection, actor, {
    action: before === undefined ? "enter gauge" : "change gauge",
    subject: `gauge ${code}`,
    before,
    after: entry,
  });
}

function faultOf({ resolution, errorA, errorK, calibratedOn, calibrationDue }: GaugeEntry): Refusal | null {
  if (resolution !== null && !(resolution > 0)) return fault("resolution-step");
  if (errorA !== null && !(errorA >= 0)) return fault("gauge-A");
  if (errorK !== null && !(errorK > 0)) return fault("gauge-K");
  if (errorK !== null && errorA === null) return fault("gauge-K-alone");
  if (calibratedOn !== null && calibrationDue !== null && calibrationDue <= calibratedOn)
    return fault("gauge-due");
  return null;
}

export type StudyEntry = {
  gaugeId: number;
  /** The feature that it was made on; null for one that is not in the control plan. */
  featureId: number | null;
  unit: KnownUnit;
  madeOn: string;
  note: string;
  data: StudyData;
  settings: StudySettings;
};

/**
 * Keeps a study with its figures. An earlier one in force of the same gauge, kind and feature is superseded by it, or
 * it by a later one: what counts is the day on which a study was made.
 *
 * Refused, in words, when the readings do not make such a study.
 */
export async function enterStudy(
  database: Database,
  { entry, actor }: { entry: StudyEntry; actor: Actor },
): Promise<Saved> {
  const outcome = studyResult(entry.data, entry.settings);
  if (!outcome.ok) return outcome;
  const { result } = outcome;
  return write(database, (connection) => {
    const { orm } = connection;
    const { gaugeId, featureId, unit, madeOn, note, data, settings } = entry;
    const known = readGauge(connection, gaugeId);
    if (!known) return refused("gauge-unknown", gaugeId);
    if (featureId !== null) {
      const made = readFeature(connection, featureId);
      if (!made) return refused("study-feature");
      if (made.unit !== unit) return refused("study-unit", made.name, made.unit, unit);
    }
    const { id } = orm
      .insert(gaugeStudy)
      .values({
        gaugeId,
        kind: data.kind,
        featureId,
        unit,
        madeOn,
        note,
        data: JSON.stringify(data),
        settings: JSON.stringify(settings),
        result: JSON.stringify(result),
        enteredAt: actor.at,
        accountId: actor.accountId,
      })
      .returning({ id: gaugeStudy.id })
      .get();
    const superseded = supersede(connection, { id, gaugeId, featureId, kind: data.kind });
    record(connection, actor, {
      action: "enter gauge study",
      subject: `gauge ${known.code}`,
      after: { id, kind: data.kind, featureId, unit, madeOn, readings: countOf(data), superseded },
    });
    return { ok: true, id };
  });
}

/** Of the studies in force of one gauge, kind and feature only the newest stays in force. */
function supersede(
  { orm }: Connection,
  { id, gaugeId, featureId, kind }: { id: number; gaugeId: number; featureId: number | null; kind: string },
): number[] {
  const same = orm
    .select({ id: gaugeStudy.id, madeOn: gaugeStudy.madeOn })
    .from(gaugeStudy)
    .where(
      and(
        eq(gaugeStudy.gaugeId, gaugeId),
        eq(gaugeStudy.kind, kind),
        featureId === null ? isNull(gaugeStudy.featureId) : eq(gaugeStudy.featureId, featureId),
        isNull(gaugeStudy.supersededBy),
        isNull(gaugeStudy.withdrawnAt),
      ),
    )
    .all()
    .sort((a, b) => b.madeOn.localeCompare(a.madeOn) || b.id - a.id);
  const newest = same[0]?.id ?? id;
  for (const { id: older } of same.slice(1)) {
    orm.update(gaugeStudy).set({ supersededBy: newest }).where(eq(gaugeStudy.id, older)).run();
  }
  return same.slice(1).map((one) => one.id);
}

/**
 * Takes a study out of force because it was wrong. It stays readable, with the reason; those that only it had superseded
 * come back into force, but for what is superseded anew.
 */
export async function withdrawStudy(
  database: Database,
  { id, because, actor }: { id: number; because: string; actor: Actor },
): Promise<Saved> {
  return write(database, (connection) => {
    const { orm } = connection;
    if (because.trim() === "") return refused("study-why");
    const row = orm
      .update(gaugeStudy)
      .set({ withdrawnAt: actor.at, withdrawnBecause: because.trim() })
      .where(and(eq(gaugeStudy.id, id), isNull(gaugeStudy.withdrawnAt)))
      .returning()
      .get();
    if (!row) return refused("study-withdrawn");
    orm
      .update(gaugeStudy)
      .set({ supersededBy: null })
      .where(and(eq(gaugeStudy.supersededBy, id), ne(gaugeStudy.id, id)))
      .run();
    supersede(connection, row);
    record(connection, actor, {
      action: "withdraw gauge study",
      subject: `gauge ${readGauge(connection, row.gaugeId)?.code ?? row.gaugeId}`,
      before: { id, kind: row.kind, madeOn: row.madeOn },
      reason: because.trim(),
    });
    return { ok: true, id };
  });
}

function countOf(data: StudyData): number {
  return data.kind === "type-1" ? data.values.length : data.readings.length;
}
