import { index, integer, real, sqliteTable, text, uniqueIndex } from "drizzle-orm/sqlite-core";
import { account, feature, part, piece } from "./schema";

/*
 * Alarms and what people do about them: human records that rest on signals. Triggers of the migration keep
 * `alarm_event`, `containment` and `handover` append-only, whoever asks.
 */

export const alarm = sqliteTable(
  "alarm",
  {
    id: integer("id").primaryKey(),
    featureId: integer("feature_id")
      .notNull()
      .references(() => feature.id),
    /** Time of the measurement that completed the first and the latest signal of the excursion. */
    firstAt: real("first_at").notNull(),
    latestAt: real("latest_at").notNull(),
    state: text("state").notNull(),
    words: text("words").notNull(),
    raisedAt: integer("raised_at").notNull(),
    returnedAt: integer("returned_at"),
    /** Null while nobody has seen the excursion; null again when it goes on after its return. */
    acknowledgedAt: integer("acknowledged_at"),
    /** End of the shelving; the state says whether it is shelved now. */
    shelvedUntil: integer("shelved_until"),
    closedAt: integer("closed_at"),
    /** The version of the reaction plan in force when it was raised; null for the program's own. */
    reactionPlanId: integer("reaction_plan_id").references(() => reactionPlan.id),
    /** Lot and sources of the measurement that completed its first signal, by kind. */
    origin: text("origin", { mode: "json" }).$type<Record<string, number>>(),
    /** Set when the measurements it rested on were undone, corrected or excluded. */
    withdrawnAt: integer("withdrawn_at"),
  },
  (t) => [index("alarm_by_feature").on(t.featureId, t.firstAt), index("alarm_by_state").on(t.state)],
);

export const alarmEvent = sqliteTable(
  "alarm_event",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    alarmId: integer("alarm_id")
      .notNull()
      .references(() => alarm.id),
    at: integer("at").notNull(),
    kind: text("kind").notNull(),
    note: text("note").notNull().default(""),
    /** What the kind needs besides a note: the step ticked, the cause, the end of a shelving. */
    detail: text("detail", { mode: "json" }).$type<Record<string, unknown>>(),
    accountId: integer("account_id").references(() => account.id),
  },
  (t) => [index("alarm_event_by_alarm").on(t.alarmId), index("alarm_event_in_time").on(t.at)],
);

/** What was decided on one piece under one alarm; the latest decision holds, none is ever changed. */
export const containment = sqliteTable(
  "containment",
  {
    id: integer("id").primaryKey({ autoIncrement: true }),
    alarmId: integer("alarm_id")
      .notNull()
      .references(() => alarm.id),
    /** Who, when and why. */
    eventId: integer("event_id")
      .notNull()
      .references(() => alarmEvent.id),
    pieceId: integer("piece_id")
      .notNull()
      .references(() => piece.id),
    decision: text("decision").notNull(),
  },
  (t) => [index("containment_by_alarm").on(t.alarmId), index("containment_by_piece").on(t.pieceId)],
);

/** Versions of what to do on a signal: of one feature, of a whole part, or (neither) of the plant. */
export const reactionPlan = sqliteTable(
  "reaction_plan",
  {
    id: integer("id").primaryKey(),
    partId: integer("part_id").references(() => part.id),
    featureId: integer("feature_id").references(() => feature.id),
    version: integer("version").notNull(),
    /** In the order in which to take them; none takes the plan back. */
    steps: text("steps", { mode: "json" }).$type<string[]>().notNull(),
    /** Good subgroups in a row that show that the action worked. */
    verifySubgroups: integer("verify_subgroups").notNull(),
    reason: text("reason").notNull().default(""),
    writtenAt: integer("written_at").notNull(),
    accountId: integer("account_id").references(() => account.id),
  },
  (t) => [index("reaction_plan_by_feature").on(t.featureId), index("reaction_plan_by_part").on(t.partId)],
);

/** A shift's handover as it was signed. */
export const handover = sqliteTable(
  "handover",
  {
    id: integer("id").primaryKey(),
    shift: text("shift").notNull(),
    shiftFrom: integer("shift_from").notNull(),
    shiftTo: integer("shift_to").notNull(),
    /** Earlier than the shift where the one before was signed early. */
    coversFrom: integer("covers_from").notNull(),
    remarks: text("remarks").notNull(),
    /** Everything the page showed, as JSON. */
    content: text("content").notNull(),
    signedAt: integer("signed_at").notNull(),
    accountId: integer("account_id").references(() => account.id),
  },
  (t) => [uniqueIndex("handover_by_shift").on(t.shiftFrom)],
);
