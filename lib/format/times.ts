import { times as english } from "../words/en/times";

/** How a language writes moments and lengths of time; where none is given it is English, as on the command line. */
export type TimeWords = typeof english;

const SECOND = 1_000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** Making a formatter costs a hundred times as much as using it. */
const formatters = new Map<string, Intl.DateTimeFormat>();

type Parts = Record<"weekday" | "day" | "month" | "year" | "hour" | "minute" | "second", string>;

function partsIn(at: number, zone: string, { locale }: TimeWords): Parts {
  const key = `${locale} ${zone}`;
  let formatter = formatters.get(key);
  if (!formatter) {
    formatter = new Intl.DateTimeFormat(locale, {
      timeZone: zone,
      weekday: "short",
      day: "numeric",
      month: "short",
      year: "numeric",
      hour: "2-digit",
      minute: "2-digit",
      second: "2-digit",
      hourCycle: "h23",
    });
    formatters.set(key, formatter);
  }
  return Object.fromEntries(formatter.formatToParts(at).map(({ type, value }) => [type, value])) as Parts;
}

/** "Mon 11 Nov 2024, 07:10": an instant (UTC ms) as the clock on the plant's wall showed it. */
export function momentIn(at: number, zone: string, words: TimeWords = english): string {
  return words.moment(partsIn(at, zone, words));
}

/** "11 Nov, 07:10": for tables and axes, where the year is plain from the page. */
export function shortMomentIn(at: number, zone: string, words: TimeWords = english): string {
  return words.shortMoment(partsIn(at, zone, words));
}

/** "11 Nov 2024". */
export function dayIn(at: number, zone: string, words: TimeWords = english): string {
  return words.day(partsIn(at, zone, words));
}

/** The day of the plant's calendar at an instant, as "2024-11-11": such days sort as text. */
export function calendarDay(at: number, zone: string): string {
  return new Intl.DateTimeFormat("sv-SE", { timeZone: zone, dateStyle: "short" }).format(at);
}

/** Whether this is a day that the calendar has, written as `calendarDay` and a browser's field for dates write it. */
export function isCalendarDay(text: unknown): text is string {
  if (typeof text !== "string" || !/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const at = Date.parse(text);
  return Number.isFinite(at) && new Date(at).toISOString().startsWith(text);
}

/** "11 Nov 2024" for a day of the calendar. */
export function calendarDayWords(day: string, words: TimeWords = english): string {
  return dayIn(Date.parse(day), "UTC", words);
}

/** "07:10:03", for telling neighbours in time apart. */
export function clockIn(at: number, zone: string): string {
  const { hour, minute, second } = partsIn(at, zone, english);
  return `${hour}:${minute}:${second}`;
}

/** "Mon 11 Nov 2024, 07:10:03 Europe/Berlin": leaves no doubt, for a title or a report. */
export function exactMomentIn(at: number, zone: string, words: TimeWords = english): string {
  return `${words.exactMoment(partsIn(at, zone, words))} ${zone}`;
}

/**
 * A length of time in its largest fitting unit: "40 s", "12 min", "3 h", "5 days", "4 weeks".
 *
 * Rounded down, so that "3 h" never says more than has passed. Milliseconds in; negative counts as none.
 */
export function durationWords(ms: number, words: TimeWords = english): string {
  const length = Math.max(0, ms);
  if (length < MINUTE) return words.length(Math.floor(length / SECOND), "second");
  if (length < HOUR) return words.length(Math.floor(length / MINUTE), "minute");
  if (length < 2 * DAY) return words.length(Math.floor(length / HOUR), "hour");
  if (length < 28 * DAY) return words.length(Math.floor(length / DAY), "day");
  if (length < 365 * DAY) return words.length(Math.floor(length / (7 * DAY)), "week");
  return words.length(Math.floor(length / (365 * DAY)), "year");
}

/** "3 h ago", "just now" within a minute, "in 5 min" for what lies ahead. */
export function agoWords(at: number, now: number, words: TimeWords = english): string {
  if (Math.abs(now - at) < MINUTE) return words.justNow;
  return at > now ? words.ahead(durationWords(at - now, words)) : words.ago(durationWords(now - at, words));
}
