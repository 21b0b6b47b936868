import { ne } from "drizzle-orm";
import type { AlarmState } from "../../lib/alarms/alarm-state";
import type { Standing } from "../../lib/evaluation/standing";
import { type Origin, SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import { BRINGS_IN } from "../commands/audit";
import { type Connection, changeMarkOf, connectionOf, type Database, once } from "../connection";
import { type KnownStanding, readStandings } from "../measurements/feature-state";
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

/*
 * Of two thousand features a posted piece changes fifty, and fifty boards then look again. So what was read is held, and
 * only what has become another is read and made anew: 9 ms instead of 53 for 2,001 features (processor of a busy
 * machine), nothing while nobody writes. It holds whoever wrote, this process or another, because it is the database
 * that is asked what has changed.
 */
type Held = {
  /** As of when all of it was read; see `changeMarkOf`. */
  mark: string;
  rows: readonly BoardRow[];
  features: { as: number; rows: readonly FeatureRow[] };
  standings: ReadonlyMap<number, KnownStanding>;
  alarms: ReadonlyMap<number, AlarmRow>;
};

type Memory = { held: Held | null; codes: Record<"sources" | "lots", Map<number, string>> };

const memoryOf = once((): Memory => ({ held: null, codes: { sources: new Map(), lots: new Map() } }));

/**
 * Where every feature stands, in the order of the control plan. It reads stored standings and no history, so
 * that its cost grows with the features alone.
 *
 * A row of which nothing has changed is the very same object as the last time, so that callers can keep beside it what
 * they made of it. Nobody may change one.
 */
export async function shiftBoard(database: Database): Promise<readonly BoardRow[]> {
  const connection = connectionOf(database);
  const memory = memoryOf(connection);
  // Asked before anything is read: what is written meanwhile only costs reading it again.
  const mark = changeMarkOf(connection);
  if (memory.held?.mark === mark) return memory.held.rows;

  const before = memory.held;
  const features = await featuresNow(database, before?.features);
  const standings = readStandings(connection, before?.standings);
  const alarms = openAlarms(connection, before?.alarms);
  const rowsBefore = new Map(before?.rows.map((row) => [row.feature.id, row]));
  const codeOf = codesOf(connection, memory.codes);
  const rows = features.rows.map((feature) => {
    const known = standings.get(feature.id)?.standing;
    const standing = known?.latest ? known : null;
    const alarm = alarms.get(feature.id) ?? null;
    const row = rowsBefore.get(feature.id);
    const isSame = row?.feature === feature && row.standing === standing && row.alarm === alarm;
    return isSame ? row : { feature, standing, alarm, ...originOf(standing?.latest ?? null, codeOf) };
  });
  memory.held = { mark, rows, features, standings, alarms };
  return rows;
}

/**
 * The control plan's features. They change only with a line of the record in the same transaction, so that they are
 * read anew only after one that tells of more than measurements.
 */
async function featuresNow(database: Database, before?: Held["features"]): Promise<Held["features"]> {
  const { latestLine, toldSince } = recordStatements(connectionOf(database));
  const as = latestLine.get() as number;
  if (before && toldSince.get(before.as) === undefined) return { ...before, as };
  return { as, rows: await listFeatures(database) };
}

const recordStatements = once(({ sqlite }) => ({
  latestLine: sqlite.prepare("select ifnull(max(id), 0) from audit").pluck(),
  toldSince: sqlite
    .prepare(`select 1 from audit where id > ? and action not like '${BRINGS_IN} %' limit 1`)
    .pluck(),
}));

const openAlarmRows = once(({ orm }) => orm.select().from(alarm).where(ne(alarm.state, "closed")).prepare());

/** The open alarm of each feature; one that is still as `known` has it is that object. */
function openAlarms(
  connection: Connection,
  known: ReadonlyMap<number, AlarmRow> = new Map(),
): Map<number, AlarmRow> {
  const open = new Map<number, AlarmRow>();
  for (const row of openAlarmRows(connection).all()) {
    const other = open.get(row.featureId);
    if (!other || row.latestAt > other.latestAt)
      open.set(row.featureId, { ...row, state: row.state as AlarmState });
  }
  for (const [featureId, row] of open) {
    const before = known.get(featureId);
    if (before && JSON.stringify(before) === JSON.stringify(row)) open.set(featureId, before);
  }
  return open;
}

type CodeOf = (what: "sources" | "lots", id: number) => string | undefined;

/** Codes by id. A source and a lot keep theirs for good, so only those not met before are looked up. */
function codesOf(connection: Connection, known: Memory["codes"]): CodeOf {
  const statements = codeStatements(connection);
  return (what, id) => {
    const code = known[what].get(id) ?? (statements[what].get(id) as string | undefined);
    if (code !== undefined) known[what].set(id, code);
    return code;
  };
}

const codeStatements = once(({ sqlite }) => ({
  sources: sqlite.prepare("select code from source where id = ?").pluck(),
  lots: sqlite.prepare("select code from lot where id = ?").pluck(),
}));

function originOf(latest: Origin | null, codeOf: CodeOf): Pick<BoardRow, "sources" | "latestLot"> {
  const sources: BoardRow["sources"] = {};
  if (!latest) return { sources, latestLot: null };
  for (const kind of SOURCE_KINDS) {
    const code = codeOf("sources", latest[kind]);
    if (code) sources[kind] = code;
  }
  return { sources, latestLot: codeOf("lots", latest.lot) ?? null };
}
