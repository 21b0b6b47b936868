import { sql } from "drizzle-orm";
import {
  blob,
  index,
  integer,
  primaryKey,
  real,
  sqliteTable,
  text,
  uniqueIndex,
} from "drizzle-orm/sqlite-core";
import type { MemoryChart } from "../lib/plan/feature-plan";

/*
 * The tables, in the words of the trade. Times are UTC milliseconds, values are in the feature's unit.
 *
 * Rows of three sorts live here. What people and gauges entered (measurements, limits, exclusions, alarm
 * events, the audit trail) is never recomputed. What follows from it (`signal`, `feature_state`) can be
 * thrown away and rebuilt at any time. What the program keeps for itself is `session` and `setting`.
 * Alarms and what people did about them are in `schema-alarms.ts`.
 */

// Parts and their features: the control plan

export const part = sqliteTable(
  "part",
  {
    id: integer("id").primaryKey(),
    number: text("number").notNull(),
    revision: text("revision").notNull().default(""),
    name: text("name").notNull().default(""),
    line: text("line").notNull().default(""),
    material: text("material").notNull().default(""),
    /** Expansion coefficient per kelvin; null while nobody has stated the material. */
    expansion: real("expansion"),
  },
  (t) => [uniqueIndex("part_by_number").on(t.number, t.revision)],
);

export const feature = sqliteTable(
  "feature",
  {
    id: integer("id").primaryKey(),
    partId: integer("part_id")
      .notNull()
      .references(() => part.id),
    name: text("name").notNull(),
    kind: text("kind").notNull(),
    nominal: real("nominal"),
    lowerTolerance: real("lower_tolerance"),
    upperTolerance: real("upper_tolerance"),
    naturalBound: real("natural_bound"),
    target: real("target"),
    unit: text("unit").notNull(),
    resolution: real("resolution"),
    keyCharacteristic: integer("key_characteristic", { mode: "boolean" }).notNull().default(false),
    subgroupSize: integer("subgroup_size").notNull(),
    chart: text("chart").notNull(),
    rules: text("rules", { mode: "json" }).$type<string[]>().notNull(),
    /** Length that expands, in mm; with an expansion coefficient and `reduced` the chart is at 20 °C. */
    length: real("length"),
    expansion: real("expansion"),
    reduced: integer("reduced", { mode: "boolean" }).notNull().default(false),
    /** Standard uncertainties of the part temperature in kelvin and of the coefficient per kelvin. */
    temperatureUncertainty: real("temperature_uncertainty"),
    expansionUncertainty: real("expansion_uncertainty"),
    /** A chart with a memory that watches beside the chart of the plan; null for none. */
    alsoWatch: text("also_watch", { mode: "json" }).$type<MemoryChart>(),
    /** Values are counts on this chart (p, np, c, u), each found on `countedOn` pieces or units, or on as many as it says itself (null); null for measured values. */
    countChart: text("count_chart"),
    countedOn: real("counted_on"),
    /** The least Cpk or Ppk that is asked for; null for what is usual. */
    indexAsked: real("index_asked"),
  },
  (t) => [uniqueIndex("feature_by_name").on(t.partId, t.name)],
);

export const limits = sqliteTable(
  "limits",
  {
    id: integer("id").primaryKey(),
    featureId: integer("feature_id")
      .notNull()
      .references(() => feature.id),
    version: integer("version").notNull(),
    effectiveFrom: integer("effective_from").notNull(),
    chart: text("chart").notNull(),
    centre: real("centre").notNull(),
    sigma: real("sigma").notNull(),
    /** Of the lots' own means, where their variation is taken as part of the process; null elsewhere. */
    betweenLots: real("between_lots"),
    estimator: text("estimator").notNull(),
    /** On how many pieces or units counts are found for which centre and sigma hold; null for measured values. */
    countedOn: real("counted_on"),
    baselineFrom: integer("baseline_from").notNull(),
    baselineTo: integer("baseline_to").notNull(),
    baselineSubgroups: integer("baseline_subgroups").notNull(),
    reason: text("reason").notNull(),
    frozenAt: integer("frozen_at").notNull(),
    accountId: integer("account_id").references(() => account.id),
  },
  (t) => [uniqueIndex("limits_by_version").on(t.featureId, t.version)],
);

export const cause = sqliteTable("cause", {
  id: integer("id").primaryKey(),
  text: text("text").notNull().unique(),
});

export const exclusion = sqliteTable(
  "exclusion",
  {
    id: integer("id").primaryKey(),
    featureId: integer("feature_id")
      .notNull()
      .references(() => feature.id),
    fromAt: integer("from_at").notNull(),
    toAt: integer("to_at").notNull(),
    cause: text("cause").notNull(),
    createdAt: integer("created_at").notNull(),
    accountId: integer("account_id").references(() => account.id),
    withdrawnAt: integer("withdrawn_at"),
  },
  (t) => [index("exclusion_by_feature").on(t.featureId)],
);

// Where measurements come from

export const source = sqliteTable(
  "source",
  {
    id: integer("id").primaryKey(),
    kind: text("kind").notNull(),
    code: text("code").notNull(),
    notes: text("notes").notNull().default(""),
    retired: integer("retired", { mode: "boolean" }).notNull().default(false),
  },
  (t) => [uniqueIndex("source_by_code").on(t.kind, t.code)],
);

export const sourceEvent = sqliteTable(
  "source_event",
  {
    id: integer("id").primaryKey(),
    sourceId: integer("source_id")
      .notNull()
      .references(() => source.id),
    at: integer("at").notNull(),
    kind: text("kind").notNull(),
    note: text("note").notNull().default(""),
    accountId: integer("account_id").references(() => account.id),
  },
  (t) => [index("source_event_in_time").on(t.sourceId, t.at)],
);

export const lot = sqliteTable("lot", {
  id: integer("id").primaryKey(),
  code: text("code").notNull().unique(),
});

export const piece = sqliteTable(
  "piece",
  {
    id: integer("id").primaryKey(),
    partId: integer("part_id")
      .notNull()
      .references(() => part.id),
    serial: text("serial").notNull(),
  },
  (t) => [uniqueIndex("piece_by_serial").on(t.partId, t.serial)],
);

/** Labels that files give their subgroups; measurements refer to them by id. */
export const subgroupLabel = sqliteTable("subgroup_label", {
  id: integer("id").primaryKey(),
  label: text("label").notNull().unique(),
});

// Measurements, in two places: see db/measurements/README.md

/** What came with one request or file, packed, in order of arrival. Ids are never given twice. */
export const arrival = sqliteTable("arrival", {
  id: integer("id").primaryKey({ autoIncrement: true }),
  count: integer("count").notNull(),
  data: blob("data", { mode: "buffer" }).notNull(),
});

/** Up to which arrival a feature's measurements lie in its blocks. */
export const settledArrival = sqliteTable("settled_arrival", {
  featureId: integer("feature_id").primaryKey(),
  toArrival: integer("to_arrival").notNull(),
});

/** Arrivals as earlier versions kept them, a row each; `migrate` moves them into blocks. */
export const measurementArrival = sqliteTable("measurement_arrival", {
  id: integer("id").primaryKey({ autoIncrement: true }),
  featureId: integer("feature_id").notNull(),
  takenAt: real("taken_at").notNull(),
  value: real("value").notNull(),
  partTemp: real("part_temp"),
  pieceId: integer("piece_id").notNull(),
  lotId: integer("lot_id").notNull(),
  fixtureId: integer("fixture_id").notNull(),
  toolId: integer("tool_id").notNull(),
  machineId: integer("machine_id").notNull(),
  gaugeId: integer("gauge_id").notNull(),
  operatorId: integer("operator_id").notNull(),
  setupId: integer("setup_id").notNull(),
  subgroupId: integer("subgroup_id").notNull(),
  intakeId: integer("intake_id").notNull(),
  line: integer("line").notNull(),
});

export const measurementBlock = sqliteTable(
  "measurement_block",
  {
    id: integer("id").primaryKey(),
    featureId: integer("feature_id").notNull(),
    firstAt: real("first_at").notNull(),
    firstIntake: integer("first_intake").notNull(),
    firstLine: integer("first_line").notNull(),
    lastAt: real("last_at").notNull(),
    count: integer("count").notNull(),
    data: blob("data", { mode: "buffer" }).notNull(),
  },
  (t) => [uniqueIndex("block_in_time").on(t.featureId, t.firstAt, t.firstIntake, t.firstLine)],
);

/** A value that a later intake replaced; the measurement's place in time and its piece stay the same. */
export const correction = sqliteTable(
  "correction",
  {
    id: integer("id").primaryKey(),
    featureId: integer("feature_id").notNull(),
    takenAt: real("taken_at").notNull(),
    pieceId: integer("piece_id").notNull(),
    oldValue: real("old_value").notNull(),
    oldIntakeId: integer("old_intake_id").notNull(),
    newValue: real("new_value").notNull(),
    newIntakeId: integer("new_intake_id").notNull(),
    /** On how many pieces or units a count was found, before and now; null where that is not stated. */
    oldInspected: real("old_inspected"),
    newInspected: real("new_inspected"),
    at: integer("at").notNull(),
    undoneAt: integer("undone_at"),
  },
  (t) => [
    index("correction_by_feature").on(t.featureId, t.takenAt),
    index("correction_by_intake").on(t.newIntakeId),
  ],
);

// Intake

export const mapping = sqliteTable("mapping", {
  id: integer("id").primaryKey(),
  name: text("name").notNull().unique(),
  /** Tells files of the same layout: a digest of their header. */
  fingerprint: text("fingerprint").notNull(),
  definition: text("definition").notNull(),
  updatedAt: integer("updated_at").notNull(),
  accountId: integer("account_id").references(() => account.id),
});

export const intake = sqliteTable(
  "intake",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    file: text("file").notNull(),
    digest: text("digest").notNull(),
    kind: text("kind").notNull(),
    mappingName: text("mapping_name").notNull().default(""),
    state: text("state").notNull(),
    accepted: integer("accepted").notNull().default(0),
    refused: integer("refused").notNull().default(0),
    duplicates: integer("duplicates").notNull().default(0),
    corrections: integer("corrections").notNull().default(0),
    late: integer("late").notNull().default(0),
    signals: integer("signals").notNull().default(0),
    alarms: integer("alarms").notNull().default(0),
    notices: text("notices", { mode: "json" }).$type<{ line: number; message: string }[]>().notNull(),
    /** Which features it brought measurements of, and how many: pairs. So undoing it touches no other. */
    brought: text("brought", { mode: "json" })
      .$type<[featureId: number, rows: number][]>()
      .notNull()
      .default([]),
    /** Why it failed or was cancelled; empty otherwise. */
    message: text("message").notNull().default(""),
    startedAt: integer("started_at").notNull(),
    endedAt: integer("ended_at"),
    undoneAt: integer("undone_at"),
    accountId: integer("account_id").references(() => account.id),
  },
  (t) => [
    index("intake_by_digest").on(t.digest),
    // Posts are many and small: the history of files must not read past a million of them, nor their latest past files.
    index("intake_posted").on(t.id).where(sql`kind = 'post'`),
    index("intake_not_posted").on(t.id).where(sql`kind <> 'post'`),
    // Which were undone and which are under way is asked whenever something happened.
    index("intake_undone").on(t.id).where(sql`state = 'undone'`),
    index("intake_under_way").on(t.id).where(sql`ended_at is null`),
  ],
);

export const refusal = sqliteTable(
  "refusal",
  {
    id: integer("id").primaryKey(),
    intakeId: integer("intake_id")
      .notNull()
      .references(() => intake.id),
    line: integer("line").notNull(),
    field: text("field").notNull(),
    reason: text("reason").notNull(),
    raw: text("raw").notNull(),
  },
  (t) => [index("refusal_by_intake").on(t.intakeId)],
);

// Derived: what follows from measurements, plan, limits and exclusions

export const signal = sqliteTable(
  "signal",
  {
    featureId: integer("feature_id").notNull(),
    chart: text("chart").notNull(),
    at: integer("at").notNull(),
    rule: text("rule").notNull(),
    direction: text("direction").notNull(),
    atTime: real("at_time").notNull(),
    members: text("members", { mode: "json" }).$type<number[]>().notNull(),
  },
  (t) => [primaryKey({ columns: [t.featureId, t.at, t.chart, t.rule, t.direction] })],
);

export const featureState = sqliteTable("feature_state", {
  featureId: integer("feature_id").primaryKey(),
  lastAt: real("last_at"),
  /** The last arrival that it has seen; what came since is in later ones. */
  toArrival: integer("to_arrival").notNull().default(0),
  /** The evaluation's own memory as JSON, enough to go on from the last measurement; without `recent`. */
  progress: text("progress").notNull(),
});

/**
 * The part of a feature's state that changes only when a subgroup is complete. Apart from `feature_state`,
 * because every measurement rewrites that row, and a piece of fifty features should write little.
 */
export const featureStanding = sqliteTable("feature_standing", {
  featureId: integer("feature_id").primaryKey(),
  /** The recent subgroups of the evaluation's memory, as JSON. */
  recent: text("recent").notNull(),
  /** What the shift board shows of them, as JSON. */
  standing: text("standing").notNull(),
});

// People, record and settings

export const account = sqliteTable("account", {
  id: integer("id").primaryKey(),
  login: text("login").notNull().unique(),
  name: text("name").notNull(),
  /** Empty while the person has not yet chosen one with the link that the admin handed over. */
  passwordHash: text("password_hash").notNull(),
  /** For acting by name on a shared tablet; null for nobody who wants that. */
  pinHash: text("pin_hash"),
  roles: text("roles", { mode: "json" }).$type<string[]>().notNull(),
  demo: integer("demo", { mode: "boolean" }).notNull().default(false),
  createdAt: integer("created_at").notNull(),
  /** Since when nobody signs in with it; its name stays on everything it did. */
  deactivatedAt: integer("deactivated_at"),
});

export const session = sqliteTable(
  "session",
  {
    tokenDigest: text("token_digest").primaryKey(),
    accountId: integer("account_id")
      .notNull()
      .references(() => account.id),
    createdAt: integer("created_at").notNull(),
    expiresAt: integer("expires_at").notNull(),
    /** The browser and system as it names itself, in words that its owner recognises. */
    device: text("device").notNull().default(""),
  },
  (t) => [index("session_by_account").on(t.accountId)],
);

/**
 * Append-only; each row carries the digest of the one before, so that an edit or a gap shows. Triggers, which
 * a migration made by hand, refuse to change or delete a row: a migration that makes this table anew has to
 * make them anew.
 */
export const audit = sqliteTable(
  "audit",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    at: integer("at").notNull(),
    accountId: integer("account_id"),
    /** The key with which a machine did it. */
    keyId: integer("key_id"),
    action: text("action").notNull(),
    subject: text("subject").notNull(),
    before: text("before"),
    after: text("after"),
    reason: text("reason").notNull().default(""),
    digest: text("digest").notNull(),
  },
  (t) => [index("audit_in_time").on(t.at)],
);

export const setting = sqliteTable("setting", {
  key: text("key").primaryKey(),
  value: text("value").notNull(),
});
