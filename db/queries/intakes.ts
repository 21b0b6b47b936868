import { and, asc, desc, eq, getTableColumns, isNull, ne, sql } from "drizzle-orm";
import type { Notice, Refusal } from "../../lib/intake/batch";
import { emptyMapping, type Mapping } from "../../lib/intake/mapping";
import { connectionOf, type Database } from "../connection";
import type { IntakeCounts } from "../intake/record-intake";
import { account, correction, feature, intake, mapping, part, refusal } from "../schema";
import { alarm } from "../schema-alarms";

export type IntakeState = "running" | "done" | "failed" | "cancelled" | "undone";

export type IntakeRow = IntakeCounts & {
  id: number;
  file: string;
  digest: string;
  kind: string;
  mappingName: string;
  state: IntakeState;
  notices: Notice[];
  message: string;
  startedAt: number;
  endedAt: number | null;
  undoneAt: number | null;
  by: string | null;
};

/** Intakes but for posted requests, the latest first. Reads an index that has no posts in it. */
export async function listIntakes(database: Database, { limit }: { limit: number }): Promise<IntakeRow[]> {
  return selectIntakes(database)
    .where(sql`${intake.kind} <> 'post'`)
    .orderBy(desc(intake.id))
    .limit(limit)
    .all()
    .map(intakeRow);
}

/** What one key has posted among the latest requests. */
export type PostedByKey = {
  /** As the history names it: "key cell A". */
  name: string;
  requests: number;
  accepted: number;
  refused: number;
  alarms: number;
  latestAt: number;
  /** The latest request, for a closer look, and the latest of which something was refused. */
  latestId: number;
  latestRefusedId: number | null;
};

/** The latest posted requests, summed up by key; at most `limit` requests are read. */
export async function latestPosts(database: Database, { limit }: { limit: number }): Promise<PostedByKey[]> {
  const rows = connectionOf(database)
    .orm.select({
      id: intake.id,
      name: intake.file,
      accepted: intake.accepted,
      refused: intake.refused,
      alarms: intake.alarms,
      at: intake.startedAt,
    })
    .from(intake)
    .where(sql`${intake.kind} = 'post'`)
    .orderBy(desc(intake.id))
    .limit(limit)
    .all();
  const byName = new Map<string, PostedByKey>();
  for (const { id, name, accepted, refused, alarms, at } of rows) {
    const first = { requests: 0, accepted: 0, refused: 0, alarms: 0, latestRefusedId: null };
    const sum = byName.get(name) ?? { name, ...first, latestAt: at, latestId: id };
    sum.requests += 1;
    sum.accepted += accepted;
    sum.refused += refused;
    sum.alarms += alarms;
    if (refused > 0) sum.latestRefusedId ??= id;
    byName.set(name, sum);
  }
  return [...byName.values()];
}

/** Null when there is no such intake. */
export async function intakeById(database: Database, id: number): Promise<IntakeRow | null> {
  const row = selectIntakes(database).where(eq(intake.id, id)).get();
  return row ? intakeRow(row) : null;
}

/** The first intake of these very bytes that still stands; null when there is none. Reads the index over digests. */
export async function standingIntake(database: Database, digest: string): Promise<IntakeRow | null> {
  const row = selectIntakes(database)
    .where(and(eq(intake.digest, digest), eq(intake.state, "done")))
    .orderBy(asc(intake.id))
    .limit(1)
    .get();
  return row ? intakeRow(row) : null;
}

/** A file of thousands of features has a long list of them, which a list of intakes need not read. */
const { brought: _, ...SHOWN } = getTableColumns(intake);

function selectIntakes(database: Database) {
  return connectionOf(database)
    .orm.select({ intake: SHOWN, by: account.name })
    .from(intake)
    .leftJoin(account, eq(account.id, intake.accountId))
    .$dynamic();
}

function intakeRow({
  intake: row,
  by,
}: {
  intake: Omit<typeof intake.$inferSelect, "brought">;
  by: string | null;
}): IntakeRow {
  const { accountId: _, ...rest } = row;
  return { ...rest, state: row.state as IntakeState, by };
}

export type TouchedFeature = {
  id: number;
  part: string;
  name: string;
  /** Measurements the intake brought, and values of earlier ones that it corrected. */
  added: number;
  corrected: number;
  /** What the feature's latest alarm that nobody has closed says; null when there is none. */
  alarm: string | null;
};

/** The features an intake has touched, by part and name. Reads one row for each of them and for each open alarm. */
export async function featuresOfIntake(database: Database, intakeId: number): Promise<TouchedFeature[]> {
  const { orm } = connectionOf(database);
  const known = orm.select({ brought: intake.brought }).from(intake).where(eq(intake.id, intakeId)).get();
  const added = new Map(known?.brought);
  const corrected = new Map<number, number>();
  for (const { id } of orm
    .select({ id: correction.featureId })
    .from(correction)
    .where(eq(correction.newIntakeId, intakeId))
    .all())
    corrected.set(id, (corrected.get(id) ?? 0) + 1);
  const alarms = new Map(
    orm
      .select({ id: alarm.featureId, words: alarm.words })
      .from(alarm)
      .where(and(isNull(alarm.withdrawnAt), ne(alarm.state, "closed")))
      .all()
      .map(({ id, words }) => [id, words]),
  );
  return orm
    .select({ id: feature.id, part: part.number, name: feature.name })
    .from(feature)
    .innerJoin(part, eq(part.id, feature.partId))
    .orderBy(asc(part.number), asc(feature.name))
    .all()
    .filter(({ id }) => added.has(id) || corrected.has(id))
    .map((row) => ({
      ...row,
      added: added.get(row.id) ?? 0,
      corrected: corrected.get(row.id) ?? 0,
      alarm: alarms.get(row.id) ?? null,
    }));
}

/** Refused rows in the order of the file. */
export async function refusalsOf(database: Database, intakeId: number): Promise<Refusal[]> {
  return connectionOf(database)
    .orm.select({ line: refusal.line, field: refusal.field, reason: refusal.reason, raw: refusal.raw })
    .from(refusal)
    .where(eq(refusal.intakeId, intakeId))
    .orderBy(asc(refusal.line), asc(refusal.id))
    .all();
}

export type MappingRow = {
  id: number;
  name: string;
  fingerprint: string;
  mapping: Mapping;
  updatedAt: number;
};

/** Saved mappings by name. */
export async function listMappings(database: Database): Promise<MappingRow[]> {
  return connectionOf(database).orm.select().from(mapping).orderBy(asc(mapping.name)).all().map(mappingRow);
}

/** The latest mapping that was saved for files of this layout; null when none was. */
export async function mappingFor(database: Database, fingerprint: string): Promise<MappingRow | null> {
  const row = connectionOf(database)
    .orm.select()
    .from(mapping)
    .where(eq(mapping.fingerprint, fingerprint))
    .orderBy(desc(mapping.updatedAt))
    .limit(1)
    .get();
  return row ? mappingRow(row) : null;
}

/** Null when no mapping has that name. */
export async function mappingByName(database: Database, name: string): Promise<MappingRow | null> {
  const row = connectionOf(database).orm.select().from(mapping).where(eq(mapping.name, name)).get();
  return row ? mappingRow(row) : null;
}

/** Mappings saved before there was a zone, a column of the time of day or of what was inspected have none. */
function savedMapping(name: string, definition: string): Mapping {
  const empty = emptyMapping(name);
  const saved = JSON.parse(definition) as Partial<Mapping>;
  return { ...empty, ...saved, columns: { ...empty.columns, ...saved.columns } };
}

function mappingRow(row: typeof mapping.$inferSelect): MappingRow {
  const { id, name, fingerprint, updatedAt } = row;
  return { id, name, fingerprint, updatedAt, mapping: savedMapping(name, row.definition) };
}
