import { alarms as english } from "../words/en/alarms";

/**
 * The states of an alarm, in IEC 62682's vocabulary (from memory).
 *
 * An alarm that has returned to normal before anybody saw it is kept as unacknowledged with its return beside it:
 * somebody still has to look.
 */
export const ALARM_STATES = ["unacknowledged", "acknowledged", "returned", "shelved", "closed"] as const;
export type AlarmState = (typeof ALARM_STATES)[number];

/** What an alarm's state follows from. Times are UTC milliseconds. */
export type AlarmFacts = {
  acknowledgedAt: number | null;
  returnedAt: number | null;
  /** Set when what it rested on was undone, corrected or left out. */
  withdrawnAt: number | null;
  shelvedUntil: number | null;
  closedAt: number | null;
};

/** The state that the facts give at a moment: a shelving ends by itself. */
export function stateFrom(facts: AlarmFacts, now: number): AlarmState {
  if (facts.closedAt !== null) return "closed";
  if (facts.shelvedUntil !== null && facts.shelvedUntil > now) return "shelved";
  if (facts.acknowledgedAt === null) return "unacknowledged";
  return isOver(facts) ? "returned" : "acknowledged";
}

/** The feature is back to normal, or nothing is left that the alarm rests on. */
export function isOver({ returnedAt, withdrawnAt }: Pick<AlarmFacts, "returnedAt" | "withdrawnAt">): boolean {
  return returnedAt !== null || withdrawnAt !== null;
}

/** The state to show: one that returned unseen is shown as returned to normal. */
export function shownState(alarm: { state: AlarmState; returnedAt: number | null }): AlarmState {
  return alarm.state === "unacknowledged" && alarm.returnedAt !== null ? "returned" : alarm.state;
}

/** What is still wanted of a person, in a few words; empty when nothing is. */
export function nextStepWords(
  alarm: AlarmFacts & { state: AlarmState; hasCause: boolean; hasAction: boolean },
  { next }: Pick<typeof english, "next"> = english,
): string {
  switch (alarm.state) {
    case "closed":
      return "";
    case "shelved":
      return next.shelved;
    case "unacknowledged":
      return isOver(alarm) ? next.overUnseen : next.unseen;
    default:
      if (!alarm.hasCause) return next.cause;
      if (!alarm.hasAction) return next.action;
      return isOver(alarm) ? next.close : next.waits;
  }
}
