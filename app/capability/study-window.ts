import { type StudyWindow, WHOLE_HISTORY } from "../../lib/capability/feature-study";
import { daySpan } from "../../lib/intake/zone";
import type { ChosenWindow } from "./chosen-window";

const DAY = 86_400_000;

/** The days before now, or whole days of the plant's calendar; readings dated ahead of its clock belong to no such window. */
export function studyWindow(window: ChosenWindow, { now, zone }: { now: number; zone: string }): StudyWindow {
  if ("first" in window) {
    const { to } = daySpan(window.last, zone);
    return { from: daySpan(window.first, zone).from, to: Math.min(to, now), lots: null };
  }
  return window.days === null ? WHOLE_HISTORY : { from: now - window.days * DAY, to: now, lots: null };
}
