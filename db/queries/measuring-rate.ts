import { connectionOf, type Database } from "../connection";
import { tellTimes } from "../measurements/store";

const QUARTER_HOUR = 900_000;

export type Measured = {
  /** Readings by feature; one that had none is not in it. */
  readings: Map<number, number>;
  /** The quarter hours (UTC ms at their start) in which anything was measured, in no order. */
  quarterHours: Set<number>;
};

/**
 * How much was measured in [from, to]: what a rate per shift is worked out from. Quarter hours, because
 * shifts begin on one and time zones lie whole quarter hours apart.
 *
 * Reads the times of the blocks that reach into the range, and no other column.
 */
export async function measuredBetween(
  database: Database,
  range: { from: number; to: number },
): Promise<Measured> {
  const readings = new Map<number, number>();
  const quarterHours = new Set<number>();
  // Readings of a feature come side by side, and so do those of a quarter of an hour.
  let [latest, count, quarter] = [0, 0, Number.NaN];
  const note = () => {
    if (count > 0) readings.set(latest, (readings.get(latest) ?? 0) + count);
  };
  tellTimes(connectionOf(database), range, (feature, at) => {
    if (feature !== latest) {
      note();
      [latest, count] = [feature, 0];
    }
    count++;
    if (at >= quarter && at < quarter + QUARTER_HOUR) return;
    quarter = at - (at % QUARTER_HOUR);
    quarterHours.add(quarter);
  });
  note();
  return { readings, quarterHours };
}
