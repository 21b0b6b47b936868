import { asc, eq } from "drizzle-orm";
import { PROGRESS_FORMAT } from "../../lib/evaluation/progress";
import { type Connection, connectionOf, type Database, write } from "../connection";
import { CannotGoOn, storeCurrentState } from "../measurements/feature-state";
import { readFeature } from "../queries/features";
import { plantSettings } from "../queries/settings";
import { feature, setting } from "../schema";
import { scanPlant } from "./drift";
import { storeDerived } from "./judge-feature";

export type Rebuilt = { ok: boolean; features: number; signals: number; differing: number };

/**
 * Computes every derived row anew from measurements, plan, limits and exclusions, and scans the plant. What people
 * entered is not touched, alarms and flags included. `differing` counts features whose derived rows were not what
 * they should have been, and a scan that was not; it is 0 unless something went wrong.
 */
export async function rebuild(
  database: Database,
  { onFeature }: { onFeature?: (done: number, total: number) => void } = {},
): Promise<Rebuilt> {
  const judged = await judgeEverything(database, { onFeature });
  if (judged.features === 0) return judged;
  const { clock } = await plantSettings(database);
  const { differs } = await scanPlant(database, { now: clock ?? Date.now() });
  return { ...judged, differing: judged.differing + Number(differs) };
}

async function judgeEverything(
  database: Database,
  { onFeature }: { onFeature?: ((done: number, total: number) => void) | undefined },
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
      const before = currentlyDerived(connection, id);
      signals += storeDerived(connection, row).signals.length;
      if (before !== derivedOf(connection, id)) differing++;
    });
    onFeature?.(++done, ids.length);
  }
  return { ok: true, features: ids.length, signals, differing };
}

/**
 * The features whose derived rows are not what `rebuild` would make of them, by name; changes nothing. The latest
 * scan of the plant is not looked at: it also follows from the time at which it was made.
 */
export async function differingFeatures(
  database: Database,
  { onFeature }: { onFeature?: ((done: number, total: number) => void) | undefined } = {},
): Promise<string[]> {
  const { orm } = connectionOf(database);
  const features = orm
    .select({ id: feature.id, name: feature.name })
    .from(feature)
    .orderBy(asc(feature.id))
    .all();
  const differing: string[] = [];
  const taken = new Error("Taken back: this was only a look.");
  let done = 0;
  for (const { id, name } of features) {
    const look = write(database, (connection) => {
      const row = readFeature(connection, id);
      const before = currentlyDerived(connection, id);
      if (row) storeDerived(connection, row);
      if (before !== derivedOf(connection, id)) differing.push(name);
      throw taken;
    });
    await look.catch((error: unknown) => {
      if (error !== taken) throw error;
    });
    onFeature?.(++done, features.length);
  }
  return differing;
}

/** A feature's derived rows once its state has been brought up to its latest measurement; null where it cannot be. */
function currentlyDerived(connection: Connection, featureId: number): string | null {
  try {
    storeCurrentState(connection, featureId);
  } catch (error) {
    if (!(error instanceof CannotGoOn)) throw error;
    return null;
  }
  return derivedOf(connection, featureId);
}

/** A feature's derived rows as one text, for comparing. */
function derivedOf({ sqlite }: Connection, featureId: number): string {
  const state = sqlite
    .prepare(
      `select s.last_at, s.progress, t.recent, t.standing
       from feature_state s join feature_standing t on t.feature_id = s.feature_id where s.feature_id = ?`,
    )
    .raw()
    .get(featureId);
  const signals = sqlite
    .prepare(
      "select chart, at, rule, direction, at_time, members from signal where feature_id = ? order by at, chart, rule, direction",
    )
    .raw()
    .all(featureId);
  const waypoints = sqlite
    .prepare("select readings, last_at, progress from waypoint where feature_id = ? order by readings")
    .raw()
    .all(featureId);
  return JSON.stringify([state ?? null, signals, waypoints]);
}

const FORMAT_SETTING = "derived format";

/**
 * Rebuilds when the stored derived rows were computed by a version that judged otherwise; null when they
 * were not. To be called after `migrate`, before anything reads them. The scan is left to whoever follows it.
 */
export async function rebuildOutdated(
  database: Database,
  { onFeature }: { onFeature?: (done: number, total: number) => void } = {},
): Promise<Rebuilt | null> {
  const { orm } = connectionOf(database);
  const stored = orm
    .select({ value: setting.value })
    .from(setting)
    .where(eq(setting.key, FORMAT_SETTING))
    .get();
  const current = String(PROGRESS_FORMAT);
  if (stored?.value === current) return null;
  const rebuilt = await judgeEverything(database, { onFeature });
  await write(database, (connection) =>
    connection.orm
      .insert(setting)
      .values({ key: FORMAT_SETTING, value: current })
      .onConflictDoUpdate({ target: setting.key, set: { value: current } })
      .run(),
  );
  return rebuilt.features > 0 ? rebuilt : null;
}
