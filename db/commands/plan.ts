import { and, eq } from "drizzle-orm";
import { inspectedAt } from "../../lib/measurements/series";
import { countPlanFault } from "../../lib/plan/count-refusal";
import { countFault } from "../../lib/plan/counts";
import type { ChartKind, CountPlan, FeatureKind, KnownUnit, MemoryChart } from "../../lib/plan/feature-plan";
import { memoryChartFault } from "../../lib/plan/memory-chart";
import { ruleBySlug } from "../../lib/rules/known-rules";
import { fault, type Refusal, type Refused, refused, refusedAs } from "../../lib/words/refusal";
import { type Connection, type Database, write } from "../connection";
import { hasMeasurements, readSeries } from "../measurements/store";
import { readFeature } from "../queries/features";
import { feature, part } from "../schema";
import { type Actor, record } from "./audit";
import { judgeAnew } from "./judge-feature";
import { subjectOf } from "./limits";
import { tell } from "./news";

export type PartEntry = {
  number: string;
  revision: string;
  name: string;
  line: string;
  material: string;
  expansion: number | null;
};

/** What the control plan says of a feature. Tolerances are absolute; null where the drawing gives none. */
export type FeatureEntry = {
  name: string;
  kind: FeatureKind;
  nominal: number | null;
  lower: number | null;
  upper: number | null;
  target: number | null;
  naturalBound: number | null;
  unit: KnownUnit;
  resolution: number | null;
  keyCharacteristic: boolean;
  /** The least Cpk or Ppk that is asked for; null, or absent, for what is usual. */
  indexAsked?: number | null;
  subgroupSize: number;
  chart: ChartKind;
  rules: readonly string[];
  length: number | null;
  expansion: number | null;
  reduced: boolean;
  /** Standard uncertainties of the part temperature (K) and of the coefficient (1/K). */
  temperatureUncertainty?: number | null;
  expansionUncertainty?: number | null;
  alsoWatch?: MemoryChart | null;
  /** Values are counts; then the chart is of single readings. */
  counts?: CountPlan | null;
};

export type Saved = { ok: true; id: number } | Refused;

/** Enters a part. Refused when its number and revision are there already. */
export async function createPart(database: Database, entry: PartEntry, actor: Actor): Promise<Saved> {
  return write(database, (connection) => {
    if (entry.number.trim() === "") return refused("part-number");
    const there = connection.orm
      .select({ id: part.id })
      .from(part)
      .where(and(eq(part.number, entry.number), eq(part.revision, entry.revision)))
      .get();
    if (there) return refused("part-there", entry.number, entry.revision);
    return { ok: true, id: addPart(connection, entry, actor) };
  });
}

/** For functions of db/ that are inside a transaction and have looked that it is not there. */
export function addPart(connection: Connection, entry: PartEntry, actor: Actor): number {
  const { id } = connection.orm.insert(part).values(entry).returning({ id: part.id }).get();
  record(connection, actor, { action: "enter part", subject: entry.number, after: entry });
  return id;
}

export async function updatePart(
  database: Database,
  { id, entry, reason, actor }: { id: number; entry: PartEntry; reason: string; actor: Actor },
): Promise<Saved> {
  return write(database, (connection) => {
    const { orm } = connection;
    const before = orm.select().from(part).where(eq(part.id, id)).get();
    if (!before) return refused("part-unknown", id);
    const clash = orm
      .select({ id: part.id })
      .from(part)
      .where(and(eq(part.number, entry.number), eq(part.revision, entry.revision)))
      .get();
    if (clash && clash.id !== id) return refused("part-there", entry.number, entry.revision);
    orm.update(part).set(entry).where(eq(part.id, id)).run();
    record(connection, actor, { action: "change part", subject: entry.number, before, after: entry, reason });
    if (before.expansion !== entry.expansion) judgePartAnew(connection, id, actor);
    return { ok: true, id };
  });
}

function judgePartAnew(connection: Connection, partId: number, actor: Actor): void {
  const ids = connection.orm.select({ id: feature.id }).from(feature).where(eq(feature.partId, partId)).all();
  for (const { id } of ids) {
    const row = readFeature(connection, id);
    if (row?.reduced) judgeAnew(connection, { feature: row, at: actor.at });
  }
}

/** Enters a feature of a part. Refused, in words, when the entry contradicts itself or the name is taken. */
export async function createFeature(
  database: Database,
  { partId, entry, actor }: { partId: number; entry: FeatureEntry; actor: Actor },
): Promise<Saved> {
  return write(database, (connection) => {
    const wrong = faultOf(entry);
    if (wrong) return refusedAs(wrong);
    const there = connection.orm
      .select({ id: feature.id })
      .from(feature)
      .where(and(eq(feature.partId, partId), eq(feature.name, entry.name)))
      .get();
    if (there) return refused("feature-name-taken", entry.name);
    const id = addFeature(connection, { partId, entry, actor });
    const row = readFeature(connection, id);
    if (row) judgeAnew(connection, { feature: row, at: actor.at });
    return { ok: true, id };
  });
}

/** For functions of db/ that are inside a transaction and have looked that it is not there. */
export function addFeature(
  connection: Connection,
  { partId, entry, actor }: { partId: number; entry: FeatureEntry; actor: Actor },
): number {
  const { id } = connection.orm
    .insert(feature)
    .values({ partId, ...columnsOf(entry) })
    .returning({ id: feature.id })
    .get();
  record(connection, actor, { action: "enter feature", subject: entry.name, after: entry });
  return id;
}

/**
 * Changes what the plan says of a feature and judges its history anew by the new plan. The unit of a
 * feature that has measurements stays: a changed unit would change the meaning of every stored value.
 */
export async function updateFeature(
  database: Database,
  { id, entry, reason, actor }: { id: number; entry: FeatureEntry; reason: string; actor: Actor },
): Promise<Saved> {
  return write(database, (connection) => {
    const { orm } = connection;
    const before = orm.select().from(feature).where(eq(feature.id, id)).get();
    if (!before) return refused("feature-unknown", id);
    const wrong = faultOf(entry);
    if (wrong) return refusedAs(wrong);
    if (entry.unit !== before.unit && hasMeasurements(connection, id)) {
      return refused("feature-unit", before.name, before.unit, entry.unit);
    }
    const noCount = entry.counts && firstNoCount(connection, id, entry.counts);
    if (noCount) return refusedAs(noCount);
    const clash = orm
      .select({ id: feature.id })
      .from(feature)
      .where(and(eq(feature.partId, before.partId), eq(feature.name, entry.name)))
      .get();
    if (clash && clash.id !== id) return refused("feature-name-taken", entry.name);

    orm.update(feature).set(columnsOf(entry)).where(eq(feature.id, id)).run();
    const row = readFeature(connection, id);
    if (!row) return refused("feature-unknown", id);
    record(connection, actor, {
      action: "change feature",
      subject: subjectOf(row),
      before,
      after: entry,
      reason,
    });
    judgeAnew(connection, { feature: row, at: actor.at });
    tell(connection, { kind: "feature", featureId: id });
    return { ok: true, id };
  });
}

function columnsOf(entry: FeatureEntry) {
  const { lower, upper, rules, alsoWatch = null, counts = null, indexAsked = null, ...rest } = entry;
  return {
    ...rest,
    indexAsked,
    lowerTolerance: lower,
    upperTolerance: upper,
    rules: [...rules],
    alsoWatch,
    countChart: counts?.chart ?? null,
    countedOn: counts?.size ?? null,
  };
}

const MEMORY_FAULTS = {
  smoothing: "memory-smoothing",
  width: "memory-width",
  reference: "memory-reference",
  decisionInterval: "memory-decisionInterval",
  headStart: "memory-headStart",
} as const;

/** What contradicts itself in an entry; null when nothing does. */
function faultOf(entry: FeatureEntry): Refusal | null {
  if (entry.name.trim() === "") return fault("feature-name");
  if (entry.lower !== null && entry.upper !== null && entry.lower >= entry.upper) {
    return fault("tolerance-order", entry.lower, entry.upper);
  }
  if (entry.chart === "i-mr" && entry.subgroupSize !== 1) return fault("single-size");
  if (entry.chart !== "i-mr" && (entry.subgroupSize < 2 || entry.subgroupSize > 1000)) {
    return fault("mean-size", entry.subgroupSize);
  }
  if (entry.resolution !== null && entry.resolution <= 0) return fault("resolution-step");
  if (entry.length !== null && entry.length <= 0) return fault("length-positive");
  if (entry.reduced && (entry.length === null || entry.unit === "deg")) {
    return fault("reduced-length");
  }
  if (entry.alsoWatch) {
    const wrong = memoryChartFault(entry.alsoWatch);
    if (wrong) return fault(MEMORY_FAULTS[wrong]);
  }
  if (entry.counts) {
    const wrong = countPlanFault(entry.counts);
    if (wrong) return wrong;
    if (entry.chart !== "i-mr") return fault("counts-single");
    if (entry.lower !== null || entry.upper !== null) return fault("counts-tolerance");
    if (entry.unit !== "none") return fault("counts-unit");
    if (entry.reduced) return fault("counts-reduced");
  }
  if (entry.rules.length === 0) return fault("rules-none");
  for (const slug of entry.rules) ruleBySlug(slug);
  return null;
}

/** Why a stored measurement is no count of the plan; null when all are. */
function firstNoCount(connection: Connection, featureId: number, counts: CountPlan): Refusal | null {
  const series = readSeries(connection, featureId);
  for (const [at, value] of series.value.entries()) {
    const inspected = inspectedAt(series, at);
    const wrong = countFault(value, inspected, counts);
    switch (wrong?.kind) {
      case undefined:
        continue;
      case "no-count":
        return fault("value-no-count", value);
      case "many":
        return fault("value-many", value, wrong.size);
      case "size-missing":
        return fault("value-no-size");
      case "size-varies":
        return fault("value-other-size", inspected, wrong.planned, counts.chart === "np" ? "p" : "u");
      case "size-broken":
        return fault("value-part-size", inspected);
    }
  }
  return null;
}
