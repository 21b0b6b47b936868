const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;

/** What a receiver needs to be started anew, then a night shift, then a day. */
const WAITS = [10 * SECOND, MINUTE, 5 * MINUTE, 15 * MINUTE, HOUR, 3 * HOUR, 6 * HOUR, 12 * HOUR] as const;

/** How long to wait after so many failed tries before the next, in ms; null when it is time to give up, after a day. */
export function waitAfter(failures: number): number | null {
  return WAITS[failures - 1] ?? null;
}
