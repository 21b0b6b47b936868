import { calendarDayWords, isCalendarDay, type TimeWords } from "../../lib/format/times";
import { capability } from "../../lib/words/en/capability";
import { times } from "../../lib/words/en/times";

type LastDays = { slug: string; words: string; days: number | null };
/** Days of the plant's calendar ("2026-08-31"), both of them in the window. */
type BetweenDays = { slug: string; words: string; first: string; last: string };

export type ChosenWindow = LastDays | BetweenDays;

/** Windows that can be chosen by name, by what stands in the address. */
export const WINDOWS = [
  { slug: "30", days: 30 },
  { slug: "90", days: 90 },
  { slug: "all", days: null },
] as const;

type WindowTexts = typeof capability.window;
export type WindowWords = { capability: { window: WindowTexts }; times: TimeWords };

/** As in what is signed. */
const ENGLISH: WindowWords = { capability, times };

/** What the list of windows holds for two days that stand in fields of their own. */
export const BETWEEN = "between";

/**
 * The window that an address or a form asks for: one of WINDOWS by its slug, or two days, as the fields "first" and
 * "last" give them or as one slug ("2026-08-01..2026-08-31"), by which links pass them on.
 *
 * Ninety days, which a customer asks for, when nothing is said; also when it cannot be read, and then `fault` says why.
 */
export function chosenWindow(
  one: (name: string) => unknown,
  words: WindowWords = ENGLISH,
): { window: ChosenWindow; fault: string | null } {
  const { names } = words.capability.window;
  const slug = one("window");
  const known = WINDOWS.find((each) => each.slug === slug);
  if (known) return { window: { ...known, words: names[known.slug] }, fault: null };
  const [first, last] =
    slug === BETWEEN
      ? [one("first"), one("last")]
      : typeof slug === "string" && slug.includes("..")
        ? slug.split("..")
        : [];
  if (first === undefined) return { window: usualWindow(words), fault: null };
  return betweenDays(first, last, words);
}

function usualWindow({ capability: { window } }: WindowWords): ChosenWindow {
  const [, usual] = WINDOWS;
  return { ...usual, words: window.names[usual.slug] };
}

function betweenDays(
  first: unknown,
  last: unknown,
  said: WindowWords,
): { window: ChosenWindow; fault: string | null } {
  const texts = said.capability.window;
  const fault = (why: string) => ({ window: usualWindow(said), fault: why });
  if (!isCalendarDay(first) || !isCalendarDay(last)) return fault(texts.needsBoth);
  const day = (text: string) => calendarDayWords(text, said.times);
  if (last < first) return fault(texts.swapped(day(last), day(first)));
  const words = first === last ? day(first) : texts.days(day(first), day(last));
  return { window: { slug: `${first}..${last}`, words, first, last }, fault: null };
}

/** What the fields of a window say, for the browser. */
export function windowFieldWords({ label, names, between, first, last }: WindowTexts) {
  return { label, names, between, first, last };
}
