import { InvalidInput } from "../checks";
import type { Points } from "../evaluation/evaluation";
import type { Signal } from "../evaluation/progress";

export type SuspectSubgroups = {
  /** The last subgroup before the excursion that belongs to no signal; null when there is none. */
  lastGood: number | null;
  /** First and last suspect subgroup, counted from 0. */
  from: number;
  to: number;
  /** The first good one after the latest signal; null while there is none: then everything since is suspect. */
  nextGood: number | null;
};

/**
 * Which subgroups an excursion casts doubt on: those after the last good one, up to the first good one after its
 * latest signal.
 *
 * A signal of several points (nine on one side) says that the process had moved when the first of them was
 * measured, so doubt begins with the earliest member of the excursion's signals, not with the moment at which it
 * sounded. A subgroup is good when it counts and is a member of no signal at all. Common practice, no source.
 *
 * @param firstAt moment of the signal that began the excursion, `latestAt` of its latest one
 * @returns null when no signal of the history lies in that span: the alarm has lost its evidence
 * @throws InvalidInput when the span ends before it begins
 */
export function suspectSubgroups(
  { points, signals }: { points: Points; signals: readonly Signal[] },
  { firstAt, latestAt }: { firstAt: number; latestAt: number },
): SuspectSubgroups | null {
  if (latestAt < firstAt)
    throw new InvalidInput("suspectSubgroups", "latestAt", latestAt, `at least ${firstAt}`);
  const own = signals.filter(({ atTime }) => atTime >= firstAt && atTime <= latestAt);
  if (own.length === 0) return null;
  const doubtful = new Set(signals.flatMap(({ members }) => members));
  const isGood = (number: number) => points.excluded[number] === 0 && !doubtful.has(number);

  const first = own.reduce((least, { members, at }) => Math.min(least, members[0] ?? at), points.count - 1);
  const last = own.reduce((most, { at }) => Math.max(most, at), 0);
  let lastGood = first - 1;
  while (lastGood >= 0 && !isGood(lastGood)) lastGood--;
  let nextGood = last + 1;
  while (nextGood < points.count && !isGood(nextGood)) nextGood++;
  return {
    lastGood: lastGood < 0 ? null : lastGood,
    from: lastGood + 1,
    to: nextGood < points.count ? nextGood - 1 : points.count - 1,
    nextGood: nextGood < points.count ? nextGood : null,
  };
}
