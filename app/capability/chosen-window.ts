import { calendarDayWords, isCalendarDay } from "../../lib/format/times";

type LastDays = { slug: string; words: string; days: number | null };
/** Days of the plant's calendar ("2026-08-31"), both of them in the window. */
type BetweenDays = { slug: string; words: string; first: string; last: string };

export type ChosenWindow = LastDays | BetweenDays;

/** Windows that can be chosen by name, by what stands in the address. */
export const WINDOWS: readonly [LastDays, LastDays, LastDays] = [
  { slug: "30", days: 30, words: "last 30 days" },
  { slug: "90", days: 90, words: "last 90 days" },
  { slug: "all", days: null, words: "all measurements" },
];

/** What the list of windows holds for two days that stand in fields of their own. */
export const BETWEEN = "between";

/**
 * The window that an address or a form asks for: one of WINDOWS by its slug, or two days, as the fields "first" and
 * "last" give them or as one slug ("2026-08-01..2026-08-31"), by which links pass them on.
 *
 * Ninety days, which a customer asks for, when nothing is said; also when it cannot be read, and then `fault` says why.
 */
export function chosenWindow(one: (name: string) => unknown): { window: ChosenWindow; fault: string | null } {
  const slug = one("window");
  const known = WINDOWS.find((each) => each.slug === slug);
  if (known) return { window: known, fault: null };
  const [first, last] =
    slug === BETWEEN
      ? [one("first"), one("last")]
      : typeof slug === "string" && slug.includes("..")
        ? slug.split("..")
        : [];
  if (first === undefined) return { window: WINDOWS[1], fault: null };
  return betweenDays(first, last);
}

function betweenDays(first: unknown, last: unknown): { window: ChosenWindow; fault: string | null } {
  const fault = (why: string) => ({
    window: WINDOWS[1],
    fault: `${why} The last 90 days are shown instead.`,
  });
  if (!isCalendarDay(first) || !isCalendarDay(last))
    return fault("A window between two days needs both of them.");
  if (last < first) {
    return fault(
      `The last day, ${calendarDayWords(last)}, lies before the first, ${calendarDayWords(first)}.`,
    );
  }
  const words =
    first === last ? calendarDayWords(first) : `${calendarDayWords(first)} to ${calendarDayWords(last)}`;
  return { window: { slug: `${first}..${last}`, words, first, last }, fault: null };
}
