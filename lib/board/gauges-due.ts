import { type CalibrationStanding, calibrationStanding } from "../measurement-systems/calibration";

/** What the board knows of a gauge. */
export type GaugeFacts = {
  id: number;
  code: string;
  retired: boolean;
  /** YYYY-MM-DD; null where nobody entered one. */
  calibrationDue: string | null;
  /** Features whose latest measurement it made. */
  features: number;
};

export type GaugeDue = GaugeFacts & {
  standing: Extract<CalibrationStanding, { state: "due" | "overdue" }>;
};

/**
 * The gauges to watch: in use, and overdue for calibration or due within the next weeks. The longest overdue comes first,
 * then the soonest due; of equals, the one that measures more features.
 *
 * A retired gauge and one that measures nothing at present need no calibration.
 *
 * @param today day of the plant's calendar, YYYY-MM-DD
 */
export function gaugesDue(gauges: readonly GaugeFacts[], today: string): GaugeDue[] {
  return gauges
    .flatMap((gauge) => {
      const standing = calibrationStanding(gauge.calibrationDue, today);
      if (standing.state !== "due" && standing.state !== "overdue") return [];
      return gauge.retired || gauge.features === 0 ? [] : [{ ...gauge, standing }];
    })
    .sort((a, b) => daysLeft(a) - daysLeft(b) || b.features - a.features);
}

function daysLeft({ standing: { state, days } }: GaugeDue): number {
  return state === "overdue" ? -days : days;
}
