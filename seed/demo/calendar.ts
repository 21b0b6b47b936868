import { InvalidInput } from "../../lib/checks";

export const PLANT_ZONE = "Europe/Berlin";

/** Shifts in plant time; the night shift ends on the next day. */
export const SHIFTS = [
  { name: "early", starts: "06:00", ends: "14:00" },
  { name: "late", starts: "14:00", ends: "22:00" },
  { name: "night", starts: "22:00", ends: "06:00" },
] as const;

/** Monday 2026-11-16, 07:00 in the plant: the moment at which the story stops. */
export const DEFAULT_ENDS_AT = Date.UTC(2026, 10, 16, 6);

export const WEEKS = 13;

/** Shifts of one week in order: three a day from Monday, two on Saturday. */
export const SHIFTS_A_WEEK = 17;

/** Shifts from Monday to Friday, the only ones in which every part runs. */
export const SHIFTS_MONDAY_TO_FRIDAY = 15;

/** A shift of the story: week 0 to 12, and 0 (Monday early) to 16 (Saturday late) in it. */
export type Slot = { week: number; shift: number };

export type Calendar = {
  /** UTC ms of the slot's start, plus minutes. */
  at(slot: Slot, minutes?: number): number;
  /** Hours since Monday 00:00 of week 0 on the plant's clock, so that an hour changed in autumn does not shift a story. */
  plantHours(slot: Slot, minutes?: number): number;
  /** Year and ISO 8601 week of a week of the story. */
  isoWeek(week: number): { year: number; week: number };
};

const MINUTE = 60_000;
const DAY = 24 * 60 * MINUTE;
const SHIFT_HOURS = [6, 14, 22] as const;

/**
 * The thirteen working weeks that end with the week before `endsAt`.
 *
 * @throws InvalidInput when `endsAt` is not on a Monday of the plant's calendar: lot numbers and faults
 * are tied to weekdays, so another end would tell another story.
 */
export function calendarUntil(endsAt: number): Calendar {
  const wall = new Date(endsAt + zoneOffset(endsAt));
  if (Number.isNaN(wall.getTime()) || wall.getUTCDay() !== 1) {
    throw new InvalidInput("calendarUntil", "endsAt", endsAt, "an instant on a Monday in the plant's zone");
  }
  const lastMonday = Date.UTC(wall.getUTCFullYear(), wall.getUTCMonth(), wall.getUTCDate());
  const firstMonday = lastMonday - WEEKS * 7 * DAY;

  const plantHours = ({ week, shift }: Slot, minutes = 0) =>
    week * 168 + Math.floor(shift / 3) * 24 + (SHIFT_HOURS[shift % 3] ?? 0) + minutes / 60;

  return {
    plantHours,
    at: (slot, minutes = 0) => {
      const start = firstMonday + plantHours(slot) * 60 * MINUTE;
      return start - zoneOffset(start) + minutes * MINUTE;
    },
    isoWeek: (week) => isoWeekOf(firstMonday + week * 7 * DAY),
  };
}

/** The week's year is the year of its Thursday, and week 1 is the one with the first Thursday (ISO 8601). */
function isoWeekOf(monday: number): { year: number; week: number } {
  const thursday = monday + 3 * DAY;
  const year = new Date(thursday).getUTCFullYear();
  return { year, week: Math.floor((thursday - Date.UTC(year, 0, 1)) / (7 * DAY)) + 1 };
}

const clock = new Intl.DateTimeFormat("en-US", {
  timeZone: PLANT_ZONE,
  hourCycle: "h23",
  year: "numeric",
  month: "numeric",
  day: "numeric",
  hour: "numeric",
  minute: "numeric",
  second: "numeric",
});

/** Plant time less UTC at an instant, in ms. Clocks change on Sundays, when the plant stands still. */
function zoneOffset(instant: number): number {
  if (!Number.isFinite(instant)) return 0;
  const parts = new Map(clock.formatToParts(instant).map(({ type, value }) => [type, Number(value)]));
  const field = (name: Intl.DateTimeFormatPartTypes) => parts.get(name) ?? 0;
  const wall = Date.UTC(
    field("year"),
    field("month") - 1,
    field("day"),
    field("hour"),
    field("minute"),
    field("second"),
  );
  return wall - Math.floor(instant / 1000) * 1000;
}

/** The plant's wall clock as `2026-11-14 08:31:00`, the way a measuring program without a zone prints it. */
export function plantTime(instant: number): string {
  return new Date(instant + zoneOffset(instant)).toISOString().slice(0, 19).replace("T", " ");
}
