import { inArray, ne } from "drizzle-orm";
import type { AlarmState } from "../../lib/alarms/alarm-state";
import type { Standing } from "../../lib/evaluation/standing";
import { type Origin, SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import { type Connection, connectionOf, type Database } from "../connection";
import { readStandings } from "../measurements/feature-state";
import { lot, source } from "../schema";
import { alarm } from "../schema-alarms";
import type { AlarmRow } from "./alarms";
import { type FeatureRow, listFeatures } from "./features";

export type BoardRow = {
  feature: FeatureRow;
  /** Null while it has no measurement. */
  standing: Standing | null;
  /** The open alarm, the latest when there are several. */
  alarm: AlarmRow | null;
  /** Codes of the sources of the latest measurement. */
  sources: Partial<Record<SourceKind, string>>;
  latestLot: string | null;
};

/**
 * Where every feature stands, in the order of the control plan. It reads stored standings and no history, so
 * that its cost grows with the features alone.
 */
export async function shiftBoard(database: Database): Promise<BoardRow[]> {
  const connection = connectionOf(database);
  const features = await listFeatures(database);
  const standings = readStandings(connection);
  const alarms = openAlarms(connection);
  const names = namesOfOrigins(
    connection,
    [...standings.values()].flatMap((standing) => standing.latest ?? []),
  );
  return features.map((feature) => {
    const standing = standings.get(feature.id) ?? null;
    const latest = standing?.latest ?? null;
    const sources: Partial<Record<SourceKind, string>> = {};
    for (const kind of SOURCE_KINDS) {
      const code = latest && names.sources.get(latest[kind]);
      if (code) sources[kind] = code;
    }
    return {
      feature,
      standing: latest ? standing : null,
      alarm: alarms.get(feature.id) ?? null,
      sources,
      latestLot: (latest && names.lots.get(latest.lot)) ?? null,
    };
  });
}

function openAlarms({ orm }: Connection): Map<number, AlarmRow> {
  const open = new Map<number, AlarmRow>();
  for (const row of orm.select().from(alarm).where(ne(alarm.state, "closed")).all()) {
    const known = open.get(row.featureId);
    if (!known || row.latestAt > known.latestAt)
      open.set(row.featureId, { ...row, state: row.state as AlarmState });
  }
  return open;
}

function namesOfOrigins(
  { orm }: Connection,
  latest: readonly Origin[],
): { sources: Map<number, string>; lots: Map<number, string> } {
  const sourceIds = new Set(latest.flatMap((origin) => SOURCE_KINDS.map((kind) => origin[kind])));
  const lotIds = new Set(latest.map((origin) => origin.lot));
  return {
    sources: new Map(
      orm
        .select({ id: source.id, code: source.code })
        .from(source)
        .where(inArray(source.id, [...sourceIds]))
        .all()
        .map(({ id, code }) => [id, code]),
    ),
    lots: new Map(
      orm
        .select()
        .from(lot)
        .where(inArray(lot.id, [...lotIds]))
        .all()
        .map(({ id, code }) => [id, code]),
    ),
  };
}
