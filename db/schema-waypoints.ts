import { integer, primaryKey, real, sqliteTable, text } from "drizzle-orm/sqlite-core";

/**
 * Derived, as `feature_state` is: what the evaluation of a feature remembered after its first `readings`
 * measurements, every 1,024th of them. A late measurement is judged from the last waypoint before it.
 */
export const waypoint = sqliteTable(
  "waypoint",
  {
    featureId: integer("feature_id").notNull(),
    readings: integer("readings").notNull(),
    /** When the last of these measurements was taken; every later one in the order has a later time. */
    lastAt: real("last_at").notNull(),
    /** The whole memory as JSON. */
    progress: text("progress").notNull(),
  },
  (t) => [primaryKey({ columns: [t.featureId, t.readings] })],
);
