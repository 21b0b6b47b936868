import "server-only";
import { type FeatureRow, listFeatures } from "../../../db/queries/features";
import { measuredBetween } from "../../../db/queries/measuring-rate";
import { measuringRate } from "../../../lib/alarm-budget/alarm-budget";
import { type WorkedShifts, workedShifts } from "../../../lib/alarm-budget/worked-shifts";
import { database } from "../../database";
import { plant } from "../../plant";

/** How far back the measuring rate looks: two weeks even out weekends and change-overs. */
export const DAYS_LOOKED_BACK = 14;

const DAY = 86_400_000;

export type MeasuredFeature = FeatureRow & { subgroupsPerShift: number };

export type PlantRate = {
  features: MeasuredFeature[];
  worked: WorkedShifts;
  from: number;
  to: number;
  zone: string;
};

/**
 * Every feature with the subgroups it had per worked shift in the last two weeks.
 *
 * Readings divided by the subgroup size of the plan: labelled subgroups that lack a reading or two count as
 * that much less. Where nothing fell into a shift of the settings, all hours of the two weeks count.
 */
export async function plantRate(): Promise<PlantRate> {
  const { now, shifts, zone } = await plant();
  const db = await database();
  const range = { from: now - DAYS_LOOKED_BACK * DAY, to: now };
  const { readings, quarterHours } = await measuredBetween(db, range);
  const worked = workedShifts({ moments: quarterHours, shifts, zone });
  const hours = worked.count === 0 ? DAYS_LOOKED_BACK * 24 : worked.hours;
  const features = (await listFeatures(db)).map((feature) => {
    const subgroups = (readings.get(feature.id) ?? 0) / feature.plan.subgroupSize;
    return {
      ...feature,
      subgroupsPerShift: measuringRate({ subgroups, hours, shiftHours: worked.shiftHours }),
    };
  });
  return { features, worked, zone, ...range };
}
