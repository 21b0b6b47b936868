import { index, integer, real, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { account, feature, source } from "./schema";

/*
 * What is known of gauges, and the studies made of them: human records that no rebuild touches. A gauge itself is a
 * source of its kind, so that measurements name it the same way.
 */

/** The record of a gauge; a gauge that measurements brought along has none until somebody enters it. */
export const gauge = sqliteTable("gauge", {
  sourceId: integer("source_id")
    .primaryKey()
    .references(() => source.id),
  /** What it is, in words. */
  what: text("what").notNull().default(""),
  /** Smallest step, in mm, for a gauge of lengths. */
  resolution: real("resolution"),
  /** Maximum permissible error A + L/K: A in µm, K in mm per µm; no K where the error does not grow with length. */
  errorA: real("error_a"),
  errorK: real("error_k"),
  /** Set up anew at each place: its setup is a source of its own. */
  portable: integer("portable", { mode: "boolean" }).notNull().default(false),
  /** Days of the plant's calendar, YYYY-MM-DD. */
  calibratedOn: text("calibrated_on"),
  calibrationDue: text("calibration_due"),
  note: text("note").notNull().default(""),
  updatedAt: integer("updated_at").notNull(),
  accountId: integer("account_id").references(() => account.id),
});

/** A study of a gauge as it was entered, with the figures that followed from it then. */
export const gaugeStudy = sqliteTable(
  "gauge_study",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    gaugeId: integer("gauge_id")
      .notNull()
      .references(() => source.id),
    kind: text("kind").notNull(),
    /** The feature that it was made on, where it was one of the control plan. */
    featureId: integer("feature_id").references(() => feature.id),
    unit: text("unit").notNull(),
    /** Day on which it was made, YYYY-MM-DD. */
    madeOn: text("made_on").notNull(),
    note: text("note").notNull().default(""),
    /** Readings in the order in which they were entered, as JSON. */
    data: text("data").notNull(),
    /** Tolerance, confidence and the like that the figures rest on, as JSON. */
    settings: text("settings").notNull(),
    /** The figures, as JSON: they can be computed anew from data and settings. */
    result: text("result").notNull(),
    enteredAt: integer("entered_at").notNull(),
    accountId: integer("account_id").references(() => account.id),
    /** The later study of the same gauge, kind and feature that takes its place. */
    supersededBy: integer("superseded_by"),
    withdrawnAt: integer("withdrawn_at"),
    withdrawnBecause: text("withdrawn_because").notNull().default(""),
  },
  (t) => [
    index("gauge_study_by_gauge").on(t.gaugeId, t.kind),
    index("gauge_study_by_feature").on(t.featureId),
  ],
);
