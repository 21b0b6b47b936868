import { InvalidInput } from "../checks";

/**
 * Minutes east of UTC at a local wall time, which is given as the milliseconds it would be if it were UTC:
 * utc = localMs − 60,000 · offset.
 */
export type ZoneOffset = (localMs: number) => number;

export const utc: ZoneOffset = () => 0;

const QUARTER_HOUR = 900_000;
const DAY = 86_400_000;

/**
 * The offsets of a named zone ("Europe/Berlin"), correct over changes of summer time.
 *
 * A wall time that a zone passes twice (the clock is put back) is taken the first time; one that it never shows
 * (the clock is put forward) is taken as if the clock had not been changed yet. That is what RFC 5545, section
 * 3.3.5, asks of calendars (from memory).
 *
 * Asking the time zone data costs about 5 µs, so answers are kept: by day, and on a day of change by quarter hour,
 * the finest step at which zones have changed since 1970.
 *
 * @throws InvalidInput for a zone that is not known
 */
export function zoneTable(zoneName: string): ZoneOffset {
  const offsetAt = offsetsOf(zoneName);
  const days = new Map<number, number | null>();
  const quarters = new Map<number, number>();

  return (localMs) => {
    const day = Math.floor(localMs / DAY);
    let offset = days.get(day);
    if (offset === undefined) {
      // Zones lie within 14 hours of UTC, so these instants enclose the local day.
      const before = offsetAt((day - 1) * DAY);
      offset = before === offsetAt((day + 2) * DAY) ? before : null;
      days.set(day, offset);
    }
    if (offset !== null) return offset;

    const quarter = Math.floor(localMs / QUARTER_HOUR);
    let changed = quarters.get(quarter);
    if (changed === undefined) {
      changed = localOffset(quarter * QUARTER_HOUR, offsetAt);
      quarters.set(quarter, changed);
    }
    return changed;
  };
}

/**
 * The first and the last millisecond of a day of a zone's calendar, given as "2026-10-25": 24 hours, or 23 or 25 where
 * the clock is changed.
 *
 * @throws InvalidInput for a zone that is not known
 */
export function daySpan(day: string, zoneName: string): { from: number; to: number } {
  const offset = zoneTable(zoneName);
  const begins = (localMs: number) => localMs - offset(localMs) * 60_000;
  const at = Date.parse(day);
  return { from: begins(at), to: begins(at + DAY) - 1 };
}

function localOffset(localMs: number, offsetAt: (utcMs: number) => number): number {
  const before = offsetAt(localMs - DAY);
  const after = offsetAt(localMs + DAY);
  const isShown = (offset: number) => offsetAt(localMs - offset * 60_000) === offset;
  if (isShown(before)) return before;
  return isShown(after) ? after : before;
}

function offsetsOf(zoneName: string): (utcMs: number) => number {
  let format: Intl.DateTimeFormat;
  try {
    format = new Intl.DateTimeFormat("en-US", {
      timeZone: zoneName,
      calendar: "gregory",
      hourCycle: "h23",
      year: "numeric",
      month: "numeric",
      day: "numeric",
      hour: "numeric",
      minute: "numeric",
      second: "numeric",
    });
  } catch {
    throw new InvalidInput(
      "zoneTable",
      "zoneName",
      zoneName,
      "the name of a time zone such as Europe/Berlin",
    );
  }
  return (utcMs) => {
    const part = { year: 0, month: 0, day: 0, hour: 0, minute: 0, second: 0 };
    for (const { type, value } of format.formatToParts(utcMs))
      if (type in part) part[type as keyof typeof part] = Number(value);
    const local = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second);
    return (local - utcMs) / 60_000;
  };
}
