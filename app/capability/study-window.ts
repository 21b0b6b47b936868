import { type StudyWindow, WHOLE_HISTORY } from "../../lib/capability/feature-study";

const DAY = 86_400_000;

/** Windows that can be chosen, by what stands in the address. */
export const WINDOWS = [
  { slug: "30", days: 30, words: "last 30 days" },
  { slug: "90", days: 90, words: "last 90 days" },
  { slug: "all", days: null, words: "all measurements" },
] as const;

export type ChosenWindow = (typeof WINDOWS)[number];

/** Ninety days, which a customer asks for, when the address says nothing that is known. */
export function chosenWindow(slug: string | string[] | undefined): ChosenWindow {
  return WINDOWS.find((each) => each.slug === slug) ?? WINDOWS[1];
}

/** The days before now; readings dated ahead of the plant's clock belong to no such window. */
export function studyWindow({ days }: ChosenWindow, now: number): StudyWindow {
  return days === null ? WHOLE_HISTORY : { from: now - days * DAY, to: now, lots: null };
}
