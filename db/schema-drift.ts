import { index, integer, sqliteTable, text } from "drizzle-orm/sqlite-core";
import { account } from "./schema";

/*
 * Which source moved: the latest scan of the plant, and the flags it raised. The scan follows from measurements, plan
 * and source events and can be computed anew at any time; a flag has a life of its own, for it stays open until a
 * person closes it or the evidence is gone.
 */

/** One row: the latest scan. */
export const driftScan = sqliteTable("drift_scan", {
  id: integer("id").primaryKey(),
  /** Of the measurements, events and plan it was computed from. */
  mark: text("mark").notNull(),
  computedAt: integer("computed_at").notNull(),
  durationMs: integer("duration_ms").notNull(),
  measurements: integer("measurements").notNull(),
  /** JSON, with its infinities written out. */
  result: text("result").notNull(),
});

/** A source that was named, from the first scan that named it on. */
export const driftFlag = sqliteTable(
  "drift_flag",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    sourceKind: text("source_kind").notNull(),
    sourceCode: text("source_code").notNull(),
    openedAt: integer("opened_at").notNull(),
    /** Begin of the earliest lot since which it may have moved. */
    onsetAt: integer("onset_at").notNull(),
    /** The flag as the latest scan that named it has it, JSON. */
    latest: text("latest").notNull(),
    latestAt: integer("latest_at").notNull(),
    /** Scans in a row, each of new measurements, whose evidence was too small to name it. */
    faintScans: integer("faint_scans").notNull().default(0),
    /** open, closed (by a person), faded (the evidence is gone), answered (by a source event). */
    state: text("state").notNull(),
    endedAt: integer("ended_at"),
    remark: text("remark").notNull().default(""),
    accountId: integer("account_id").references(() => account.id),
  },
  (t) => [index("drift_flag_by_source").on(t.sourceKind, t.sourceCode)],
);
