import type { TidyRow } from "../../lib/intake/repeated-rows";
import type { ZoneOffset } from "../../lib/intake/zone";
import type { Actor } from "../commands/audit";
import { type Connection, type Database, once, write } from "../connection";
import { readRows, storeRows } from "./import-rows";

export type SheetAlarm = { id: number; feature: string; words: string };

export type SheetStored =
  | {
      ok: true;
      id: number;
      accepted: number;
      duplicates: number;
      corrections: number;
      late: number;
      signals: number;
      alarms: SheetAlarm[];
      /** This very sheet was stored before; nothing was added now. */
      isRepeated: boolean;
    }
  | { ok: false; message: string };

/**
 * Stores what a person typed at the bench, whole or not at all: whoever sits before it can correct a row at once,
 * so none is refused by itself. `digest` is the sheet's own; the same sheet sent again adds nothing.
 */
export async function storeSheet(
  database: Database,
  {
    rows,
    digest,
    name,
    zone,
    actor,
  }: { rows: readonly TidyRow[]; digest: string; name: string; zone: ZoneOffset; actor: Actor },
): Promise<SheetStored> {
  const read = readRows(rows, { zone, refusals: [] });
  try {
    const [refused] = read.remarks.refusals;
    if (refused)
      return {
        ok: false,
        message: `Nothing saved: row ${refused.line}, ${refused.field}: ${refused.reason}`,
      };
    return await write(database, (connection) => {
      const { knownSheet, latestAlarm, alarmsSince } = statementsOf(connection);
      const none = { accepted: 0, duplicates: 0, corrections: 0, late: 0, signals: 0, alarms: [] };
      const known = knownSheet.get(digest) as number | undefined;
      if (known !== undefined) return { ok: true, id: known, ...none, isRepeated: true };
      const before = latestAlarm.get() as number;
      const { id, accepted, duplicates, corrections, late, signals, stored } = storeRows(connection, {
        rows: read,
        kind: "bench",
        name,
        digest,
        newFeatures: { subgroupSize: null },
        what: "sheet",
        actor,
      });
      const [conflict] = stored.refusals;
      if (conflict) throw new RefusedSheet(`Nothing saved: row ${conflict.line}: ${conflict.reason}`);
      const alarms = alarmsSince.all(before) as SheetAlarm[];
      return { ok: true, id, accepted, duplicates, corrections, late, signals, alarms, isRepeated: false };
    });
  } catch (error) {
    if (error instanceof RefusedSheet) return { ok: false, message: error.message };
    throw error;
  } finally {
    read.staging.close();
  }
}

/** Takes the transaction back. */
class RefusedSheet extends Error {
  override name = "RefusedSheet";
}

const statementsOf = once(({ sqlite }: Connection) => ({
  knownSheet: sqlite
    .prepare("select id from intake where digest = ? and kind = 'bench' and state = 'done' limit 1")
    .pluck(),
  latestAlarm: sqlite.prepare("select coalesce(max(id), 0) from alarm").pluck(),
  alarmsSince: sqlite.prepare(
    "select a.id, f.name as feature, a.words from alarm a join feature f on f.id = a.feature_id where a.id > ? order by a.id",
  ),
}));
