const SECOND = 1_000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;

/** Making a formatter costs a hundred times as much as using it. */
const formatters = new Map<string, Intl.DateTimeFormat>();

type Parts = Record<"weekday" | "day" | "month" | "year" | "hour" | "minute" | "second", string>;

function partsIn(at: number, zone: string): Parts {
  let formatter = formatters.get(zone);
  if (!formatter) {
    formatter = new Intl.DateTimeFormat("en-GB", {
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
    formatters.set(zone, formatter);
  }
  return Object.fromEntries(formatter.formatToParts(at).map(({ type, value }) => [type, value])) as Parts;
}

/** "Mon 11 Nov 2024, 07:10": an instant (UTC ms) as the clock on the plant's wall showed it. */
export function momentIn(at: number, zone: string): string {
  const { weekday, day, month, year, hour, minute } = partsIn(at, zone);
  return `${weekday} ${day} ${month} ${year}, ${hour}:${minute}`;
}

/** "11 Nov, 07:10": for tables and axes, where the year is plain from the page. */
export function shortMomentIn(at: number, zone: string): string {
  const { day, month, hour, minute } = partsIn(at, zone);
  return `${day} ${month}, ${hour}:${minute}`;
}

/** "11 Nov 2024". */
export function dayIn(at: number, zone: string): string {
  const { day, month, year } = partsIn(at, zone);
  return `${day} ${month} ${year}`;
}

/** The day of the plant's calendar at an instant, as "2024-11-11": such days sort as text. */
export function calendarDay(at: number, zone: string): string {
  return new Intl.DateTimeFormat("sv-SE", { timeZone: zone, dateStyle: "short" }).format(at);
}

/** "11 Nov 2024" for a day of the calendar. */
export function calendarDayWords(day: string): string {
  return dayIn(Date.parse(day), "UTC");
}

/** "07:10:03", for telling neighbours in time apart. */
export function clockIn(at: number, zone: string): string {
  const { hour, minute, second } = partsIn(at, zone);
  return `${hour}:${minute}:${second}`;
}

/** "Mon 11 Nov 2024, 07:10:03 Europe/Berlin": leaves no doubt, for a title or a report. */
export function exactMomentIn(at: number, zone: string): string {
  const { weekday, day, month, year } = partsIn(at, zone);
  return `${weekday} ${day} ${month} ${year}, ${clockIn(at, zone)} ${zone}`;
}

/**
 * A length of time in its largest fitting unit: "40 s", "12 min", "3 h", "5 days", "4 weeks".
 *
 * Rounded down, so that "3 h" never says more than has passed. Milliseconds in; negative counts as none.
 */
export function durationWords(ms: number): string {
  const length = Math.max(0, ms);
  if (length < MINUTE) return `${Math.floor(length / SECOND)} s`;
  if (length < HOUR) return `${Math.floor(length / MINUTE)} min`;
  if (length < 2 * DAY) return `${Math.floor(length / HOUR)} h`;
  if (length < 28 * DAY) return `${Math.floor(length / DAY)} days`;
  if (length < 365 * DAY) return `${Math.floor(length / (7 * DAY))} weeks`;
  const years = Math.floor(length / (365 * DAY));
  return years === 1 ? "1 year" : `${years} years`;
}

/** "3 h ago", "just now" within a minute, "in 5 min" for what lies ahead. */
export function agoWords(at: number, now: number): string {
  if (Math.abs(now - at) < MINUTE) return "just now";
  return at > now ? `in ${durationWords(at - now)}` : `${durationWords(now - at)} ago`;
}
