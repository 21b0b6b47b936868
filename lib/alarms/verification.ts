import type { Points } from "../evaluation/evaluation";
import type { Signal } from "../evaluation/progress";
import { alarms as english } from "../words/en/alarms";

export type Verification = {
  /** Good subgroups in a row up to the newest, measured after `since`. */
  good: number;
  /** How many the plan asks for. */
  wanted: number;
  isEnough: boolean;
};

/**
 * Whether an action worked: how many subgroups in a row were good since it.
 *
 * Counted from the newest subgroup back to the last one that was a member of a signal, or to `since`, whichever
 * is later; subgroups that were left out do not count. Common practice, no source.
 *
 * @param since moment of the action, or of the latest signal while nothing was done
 */
export function verificationSince(
  { points, signals }: { points: Points; signals: readonly Signal[] },
  { since, wanted }: { since: number; wanted: number },
): Verification {
  const doubtful = new Set(signals.flatMap(({ members }) => members));
  let good = 0;
  for (let number = points.count - 1; number >= 0; number--) {
    if (points.at[number]! <= since || doubtful.has(number)) break;
    if (points.excluded[number] === 0) good++;
  }
  return { good, wanted, isEnough: good >= wanted };
}

/** "3 of 5 good subgroups since the action; 2 more show that it worked." */
export function verificationWords(
  { good, wanted, isEnough }: Verification,
  since: "action" | "signal",
  words: typeof english.finding = english.finding,
): string {
  const from = since === "action" ? words.sinceAction : words.sinceSignal;
  if (good === 0) return words.noneGood(from, wanted);
  return isEnough ? words.enough(good, from, wanted) : words.soFar(good, from, wanted);
}
