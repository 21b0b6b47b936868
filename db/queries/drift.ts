import { and, desc, eq, gte } from "drizzle-orm";
import type { DriftFlag } from "../../lib/drift/drift-scan";
import type { FlagState } from "../../lib/drift/flag-life";
import type { ScannedKind, ScannedSource } from "../../lib/drift/measured-part";
import type { SetAside } from "../../lib/drift/set-aside";
import { flagFromText, type StoredScan, scanFromText } from "../../lib/drift/stored-scan";
import { isOf } from "../../lib/drift/tool-code";
import { type Connection, connectionOf, type Database, once } from "../connection";
import { account } from "../schema";
import { driftFlag, driftScan } from "../schema-drift";
import { plantMark } from "./measured-plant";
import { type SourceEventRow, sourceEvents } from "./sources";

export type LatestScan = {
  mark: string;
  computedAt: number;
  durationMs: number;
  measurements: number;
  result: StoredScan;
};

/** The latest scan of the plant; null before the first. Reads one row. */
export async function latestScan(database: Database): Promise<LatestScan | null> {
  const row = connectionOf(database).orm.select().from(driftScan).get();
  return row ? { ...row, result: scanFromText(row.result) } : null;
}

/** The lots of each part that the latest scan looked at; taken out of its megabytes once. */
export async function partLotsOfScan(database: Database): Promise<StoredScan["partLots"]> {
  const connection = connectionOf(database);
  const { scanned, partLots } = partLotsStatements(connection);
  const scan = (scanned.get() as unknown[] | undefined)?.join(" ");
  if (scan === undefined) return [];
  const held = heldPartLots(connection);
  if (held.scan !== scan) {
    const text = partLots.get();
    held.partLots = typeof text === "string" ? (JSON.parse(text) as StoredScan["partLots"]) : [];
    held.scan = scan;
  }
  return held.partLots;
}

const partLotsStatements = once(({ sqlite }) => ({
  scanned: sqlite.prepare("select mark, computed_at, duration_ms from drift_scan").raw(),
  partLots: sqlite.prepare("select json_extract(result, '$.partLots') from drift_scan").pluck(),
}));

const heldPartLots = once(() => ({ scan: "", partLots: [] as StoredScan["partLots"] }));

/** Whether measurements, plan or source events are others than those the latest scan was made of, or there is none. */
export async function isScanOutdated(database: Database): Promise<boolean> {
  const row = connectionOf(database).orm.select({ mark: driftScan.mark }).from(driftScan).get();
  return row?.mark !== (await plantMark(database));
}

export type FlagRow = {
  id: number;
  source: ScannedSource;
  openedAt: number;
  onsetAt: number;
  latest: DriftFlag;
  latestAt: number;
  faintScans: number;
  state: FlagState;
  endedAt: number | null;
  remark: string;
  by: string | null;
};

/** Flags that are open, the clearest first; material comes after equipment, for a lot is over by itself. */
export async function openFlags(database: Database): Promise<FlagRow[]> {
  const connection = connectionOf(database);
  const rows = selectFlags(connection).where(eq(driftFlag.state, "open")).all();
  // A flag is a quarter of a megabyte, and every board asks for it: one that is as before is not parsed again.
  const held = heldFlags(connection);
  const texts = new Set(rows.map(({ flag }) => flag.latest));
  for (const text of held.keys()) if (!texts.has(text)) held.delete(text);
  const read = (text: string) => {
    const latest = held.get(text) ?? flagFromText(text);
    held.set(text, latest);
    return latest;
  };
  const isLot = ({ source }: FlagRow) => Number(source.kind === "lot");
  return rows
    .map((row) => flagRow(row, read))
    .sort((a, b) => isLot(a) - isLot(b) || b.latest.logEvidence - a.latest.logEvidence);
}

const heldFlags = once(() => new Map<string, DriftFlag>());

/** The latest flags that have ended, the latest first, at most `limit` of them. */
export async function endedFlags(database: Database, { limit }: { limit: number }): Promise<FlagRow[]> {
  const rows = selectFlags(connectionOf(database)).orderBy(desc(driftFlag.id)).all();
  return rows
    .map((row) => flagRow(row))
    .filter(({ state }) => state !== "open")
    .slice(0, limit);
}

/** A flag that an event of its source ended, with that event. */
export type AnsweredFlag = FlagRow & { endedAt: number; answer: SourceEventRow };

/** Flags that an event at or after a moment ended, the latest event first. */
export async function answeredFlags(
  database: Database,
  { endedFrom }: { endedFrom: number },
): Promise<AnsweredFlag[]> {
  const rows = selectFlags(connectionOf(database))
    .where(and(eq(driftFlag.state, "answered"), gte(driftFlag.endedAt, endedFrom)))
    .orderBy(desc(driftFlag.endedAt), desc(driftFlag.id))
    .all();
  if (rows.length === 0) return [];
  const events = await sourceEvents(database, { from: endedFrom });
  return rows
    .map((row) => flagRow(row))
    .flatMap((flag) => {
      const { source, endedAt } = flag;
      const answer = events.find(
        (event) =>
          event.at === endedAt &&
          isOf(event, source) &&
          !(event.kind === "tool" && event.event === "changed"),
      );
      return answer === undefined || endedAt === null ? [] : [{ ...flag, endedAt, answer }];
    });
}

/** The latest flag of each source; for functions of db/ that are inside a transaction. */
export function latestFlags(connection: Connection): FlagRow[] {
  const bySource = new Map<string, FlagRow>();
  for (const row of selectFlags(connection).orderBy(driftFlag.id).all()) {
    bySource.set(`${row.flag.sourceKind}|${row.flag.sourceCode}`, flagRow(row));
  }
  return [...bySource.values()];
}

/** What sources did between moving and being put right; for functions of db/. */
export function setAsideBy(connection: Connection): SetAside[] {
  return selectFlags(connection)
    .where(eq(driftFlag.state, "answered"))
    .all()
    .map((row) => flagRow(row))
    .flatMap(({ source, onsetAt, endedAt }) =>
      endedAt === null ? [] : [{ source, from: onsetAt, to: endedAt }],
    );
}

function selectFlags({ orm }: Connection) {
  return orm
    .select({ flag: driftFlag, by: account.name })
    .from(driftFlag)
    .leftJoin(account, eq(account.id, driftFlag.accountId))
    .$dynamic();
}

function flagRow(
  { flag, by }: { flag: typeof driftFlag.$inferSelect; by: string | null },
  read: (text: string) => DriftFlag = flagFromText,
): FlagRow {
  const { sourceKind, sourceCode, latest, state, accountId: _, ...rest } = flag;
  return {
    ...rest,
    source: { kind: sourceKind as ScannedKind, id: sourceCode },
    latest: read(latest),
    state: state as FlagState,
    by,
  };
}
