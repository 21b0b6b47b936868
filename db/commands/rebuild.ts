import { asc } from "drizzle-orm";
import { type Connection, connectionOf, type Database, write } from "../connection";
import { readFeature } from "../queries/features";
import { feature } from "../schema";
import { storeDerived } from "./judge-feature";

export type Rebuilt = { ok: boolean; features: number; signals: number; differing: number };

/**
 * Computes every derived row anew from measurements, plan, limits and exclusions. What people entered is
 * not touched, alarms included. `differing` counts features whose derived rows were not what they should
 * have been; it is 0 unless something went wrong.
 */
export async function rebuild(
  database: Database,
  { onFeature }: { onFeature?: (done: number, total: number) => void } = {},
): Promise<Rebuilt> {
  const ids = connectionOf(database)
    .orm.select({ id: feature.id })
    .from(feature)
    .orderBy(asc(feature.id))
    .all()
    .map((row) => row.id);
  let signals = 0;
  let differing = 0;
  let done = 0;
  for (const id of ids) {
    // One transaction a feature: the line can go on storing while a long rebuild runs.
    await write(database, (connection) => {
      const row = readFeature(connection, id);
      if (!row) return;
      const before = derivedOf(connection, id);
      signals += storeDerived(connection, row).signals.length;
      if (before !== derivedOf(connection, id)) differing++;
    });
    onFeature?.(++done, ids.length);
  }
  return { ok: true, features: ids.length, signals, differing };
}

/** A feature's derived rows as one text, for comparing. */
function derivedOf({ sqlite }: Connection, featureId: number): string {
  const state = sqlite
    .prepare("select last_at, progress, summary from feature_state where feature_id = ?")
    .raw()
    .get(featureId);
  const signals = sqlite
    .prepare(
      "select chart, at, rule, direction, at_time, members from signal where feature_id = ? order by at, chart, rule, direction",
    )
    .raw()
    .all(featureId);
  return JSON.stringify([state ?? null, signals]);
}
