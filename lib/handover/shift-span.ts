import { InvalidInput } from "../checks";
import { zoneTable } from "../intake/zone";

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;

/** A shift of the settings: wall times such as "22:00"; one that ends no later than it starts ends the next day. */
export type PlannedShift = { name: string; starts: string; ends: string };

/** One shift as it was worked: from its start to its end, in UTC milliseconds. */
export type ShiftSpan = { name: string; from: number; to: number };

/**
 * Every shift that reaches into [from, to), in order of its start.
 *
 * Wall times become instants in the plant's zone, so the night in which clocks go forward has an hour less and the
 * one in which they go back an hour more. A wall time that does not exist or exists twice is taken as `zoneTable`
 * does (RFC 5545). Shifts may overlap or leave gaps, as the settings have them.
 *
 * @throws InvalidInput for a zone that is not known or a wall time not written like 06:00
 */
export function shiftsBetween({
  from,
  to,
  shifts,
  zone,
}: {
  from: number;
  to: number;
  shifts: readonly PlannedShift[];
  zone: string;
}): ShiftSpan[] {
  const offset = zoneTable(zone);
  const instant = (localMs: number) => localMs - offset(localMs) * MINUTE;
  const found: ShiftSpan[] = [];
  // A shift begins at most a day before its end, and zones lie within a day of UTC.
  for (let day = Math.floor(from / DAY) - 2; day * DAY <= to + DAY; day++) {
    for (const { name, starts, ends } of shifts) {
      const start = minuteOf(starts);
      const end = minuteOf(ends);
      const midnight = day * DAY;
      const span = {
        name,
        from: instant(midnight + start * MINUTE),
        to: instant(midnight + end * MINUTE + (end > start ? 0 : DAY)),
      };
      if (span.from < to && span.to > from) found.push(span);
    }
  }
  return found.sort((a, b) => a.from - b.from || a.to - b.to);
}

/** The shift under way at a moment, the one begun last where several are; in a gap the last one that ended. */
export function shiftAt(
  at: number,
  { shifts, zone }: { shifts: readonly PlannedShift[]; zone: string },
): ShiftSpan | null {
  // A week back reaches over a closed weekend whatever its hours.
  const begun = shiftsBetween({ from: at - 7 * DAY, to: at + 1, shifts, zone });
  return begun.findLast(({ from, to }) => from <= at && at < to) ?? begun.at(-1) ?? null;
}

function minuteOf(wallTime: string): number {
  const [, hour, minute] = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(wallTime) ?? [];
  if (hour === undefined) throw new InvalidInput("shiftsBetween", "shifts", wallTime, "a time such as 06:00");
  return Number(hour) * 60 + Number(minute);
}
