import { board as english } from "../words/en/board";
import type { Words } from "../words/words";

const DAY_MS = 86_400_000;

/** From this many days before its calibration is due a gauge is watched. Common practice, no source. */
export const DUE_SOON_DAYS = 30;

export type CalibrationStanding =
  /** Days until it is due; 0 on the day itself. */
  | { state: "good"; days: number }
  | { state: "due"; days: number }
  /** Days since it was due. */
  | { state: "overdue"; days: number }
  | { state: "not-stated" };

/**
 * How a gauge stands with its calibration. Both days are of the plant's calendar, YYYY-MM-DD; a gauge may be used to
 * the end of the day on which it is due.
 */
export function calibrationStanding(due: string | null, today: string): CalibrationStanding {
  if (due === null) return { state: "not-stated" };
  const days = Math.round((Date.parse(due) - Date.parse(today)) / DAY_MS);
  if (days < 0) return { state: "overdue", days: -days };
  return days <= DUE_SOON_DAYS ? { state: "due", days } : { state: "good", days };
}

/** "due in 12 days", "due today", "overdue for 3 days". */
export function calibrationWords(
  standing: CalibrationStanding,
  words: Words["board"]["calibrationStates"] = english.calibrationStates,
): string {
  switch (standing.state) {
    case "not-stated":
      return words.notStated;
    case "overdue":
      return words.overdue(standing.days);
    default:
      return standing.days === 0 ? words.today : words.due(standing.days);
  }
}
