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
  tellTimes(connectionOf(database), range, (feature, at) => {
    readings.set(feature, (readings.get(feature) ?? 0) + 1);
    quarterHours.add(at - (at % QUARTER_HOUR));
  });
  return { readings, quarterHours };
}
