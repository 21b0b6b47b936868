import { and, desc, eq, ne } from "drizzle-orm";
import { connectionOf, type Database } from "../connection";
import { alarm } from "../schema-alarms";

/** IEC 62682's vocabulary (from memory). */
export const ALARM_STATES = ["unacknowledged", "acknowledged", "returned", "shelved", "closed"] as const;
export type AlarmState = (typeof ALARM_STATES)[number];

export type AlarmRow = {
  id: number;
  featureId: number;
  state: AlarmState;
  firstAt: number;
  latestAt: number;
  words: string;
  raisedAt: number;
  returnedAt: number | null;
  /** Set when what it rested on was undone, corrected or left out. */
  withdrawnAt: number | null;
};

/** Alarms, the latest first; `open` leaves out the closed ones. */
export async function listAlarms(
  database: Database,
  { featureId, open = false }: { featureId?: number; open?: boolean } = {},
): Promise<AlarmRow[]> {
  return connectionOf(database)
    .orm.select()
    .from(alarm)
    .where(
      and(
        featureId === undefined ? undefined : eq(alarm.featureId, featureId),
        open ? ne(alarm.state, "closed") : undefined,
      ),
    )
    .orderBy(desc(alarm.latestAt), desc(alarm.id))
    .all()
    .map((row) => ({ ...row, state: row.state as AlarmState }));
}
