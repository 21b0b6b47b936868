import { dayIn } from "../format/times";
import { capability as english } from "../words/en/capability";
import type { Words } from "../words/words";
import type { StatementContent } from "./content";

/** The name of a signed window, which is English, in the language of the reader: a usual one, or from day to day. */
export function signedWindowIn(
  { window: { words: signed, from, to }, plant: { zone } }: Pick<StatementContent, "window" | "plant">,
  { capability, times }: Pick<Words, "capability" | "times">,
): string {
  const { names, days } = capability.window;
  for (const slug of ["30", "90", "all"] as const)
    if (english.window.names[slug] === signed) return names[slug];
  if (from === null || to === null) return signed;
  const [first, last] = [dayIn(from, zone), dayIn(to, zone)];
  const isOfDays = signed === first || signed === english.window.days(first, last);
  if (!isOfDays) return signed;
  return signed === first ? dayIn(from, zone, times) : days(dayIn(from, zone, times), dayIn(to, zone, times));
}
