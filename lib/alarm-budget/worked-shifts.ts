import { InvalidInput } from "../checks";
import { clockIn, dayIn } from "../format/times";

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const MINUTES_A_DAY = 1440;

/** Wall times such as "22:00"; a shift that ends no later than it starts ends on the next day. */
export type ShiftTimes = { starts: string; ends: string };

export type WorkedShifts = {
  /** Shifts in which something was measured. */
  count: number;
  /** Their hours together, by the plan: a shift of the night when clocks change counts as long as any. */
  hours: number;
  /** Length of a shift of the plan, the mean where they differ. */
  shiftHours: number;
};

/**
 * How long a plant ran, told by when it measured: the shifts into which at least one of the moments falls.
 *
 * A rate per shift of work needs the running time. The calendar would count closed weekends and idle nights
 * as well, and promise a calmer shift than the people in it have.
 *
 * Moments outside every shift count no shift. Common practice, no source.
 *
 * @param moments UTC milliseconds, in any order and as often as they come; one in each quarter hour will do
 * @param zone IANA name of the zone in which shifts are counted
 * @throws InvalidInput when there is no shift or a wall time is not written like 06:00
 */
export function workedShifts({
  moments,
  shifts,
  zone,
}: {
  moments: Iterable<number>;
  shifts: readonly ShiftTimes[];
  zone: string;
}): WorkedShifts {
  if (shifts.length === 0) throw new InvalidInput("workedShifts", "shifts.length", 0, "at least 1");
  const planned = shifts.map(({ starts, ends }, i) => {
    const from = minuteOf(starts, `shifts[${i}].starts`);
    const to = minuteOf(ends, `shifts[${i}].ends`);
    return { from, length: to > from ? to - from : to - from + MINUTES_A_DAY };
  });

  const worked = planned.map(() => new Set<string>());
  for (const at of moments) {
    const minute = minuteOf(clockIn(at, zone).slice(0, 5), "moments");
    planned.forEach(({ from, length }, i) => {
      const since = (minute - from + MINUTES_A_DAY) % MINUTES_A_DAY;
      if (since >= length) return;
      // Half a day before the midnight before it is the day before, whether or not clocks change that night.
      const day = since > minute ? dayIn(at - minute * MINUTE - 12 * HOUR, zone) : dayIn(at, zone);
      worked[i]!.add(day);
    });
  }

  const minutes = planned.reduce((sum, { length }, i) => sum + length * worked[i]!.size, 0);
  const planMinutes = planned.reduce((sum, { length }) => sum + length, 0);
  return {
    count: worked.reduce((sum, days) => sum + days.size, 0),
    hours: minutes / 60,
    shiftHours: planMinutes / shifts.length / 60,
  };
}

function minuteOf(wallTime: string, field: string): number {
  const [, hour, minute] = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(wallTime) ?? [];
  if (hour === undefined) throw new InvalidInput("workedShifts", field, wallTime, "a time such as 06:00");
  return Number(hour) * 60 + Number(minute);
}
