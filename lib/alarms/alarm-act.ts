import type { Decision } from "./alarm-event";

/** What a person does to an alarm. */
export type AlarmAct =
  | { kind: "acknowledge"; note: string }
  | { kind: "step"; step: number; done: boolean }
  | { kind: "contain"; decision: Decision; pieceIds: readonly number[]; note: string }
  | { kind: "cause"; cause: string; note: string }
  | { kind: "action"; note: string }
  | { kind: "note"; note: string }
  | { kind: "shelve"; until: number; note: string }
  | { kind: "unshelve"; note: string }
  | { kind: "close"; note: string }
  | { kind: "reopen"; note: string };

/** As a shelf that nobody empties hides what it holds. Common practice, no source. */
export const LONGEST_SHELVING_MS = 7 * 24 * 60 * 60 * 1000;

export const LONGEST_NOTE = 2_000;
export const LONGEST_CAUSE = 120;

/**
 * Acts whose sense depends on how the alarm stands: what measurements did to it meanwhile counts against them.
 * The others are only refused when another person did something meanwhile.
 */
export const DEPENDS_ON_STATE: ReadonlySet<AlarmAct["kind"]> = new Set([
  "acknowledge",
  "shelve",
  "unshelve",
  "close",
  "reopen",
]);
