import { SOURCE_KINDS, type SourceKind } from "../measurements/series";
import type { FormedSubgroups } from "../subgroups/form-subgroups";

/** What a subgroup can be told apart by: its lot or one of its sources. */
export const RIBBON_KINDS = ["lot", ...SOURCE_KINDS] as const;
export type RibbonKind = "lot" | SourceKind;

/** The source of a subgroup whose members come from several. */
export const MIXED = -1;

/** Neighbouring subgroups of one source: a segment of a ribbon. `id` 0 stands for "not stated". */
export type RibbonRun = { id: number; from: number; to: number };

/**
 * The source (or lot) that all members of a subgroup share; `MIXED` when they have several, 0 when none
 * states one. Members that do not state theirs are passed over.
 */
export function sourceOfSubgroup(
  ids: ArrayLike<number>,
  { start, order }: FormedSubgroups,
  subgroup: number,
): number {
  let found = 0;
  for (let k = start[subgroup]!; k < start[subgroup + 1]!; k++) {
    const id = ids[order[k]!]!;
    if (id === 0 || id === found) continue;
    if (found !== 0) return MIXED;
    found = id;
  }
  return found;
}

/** Runs of equal ids as segments, in order. `ids[i]` belongs to subgroup `first + i`. */
export function ribbonRuns(ids: ArrayLike<number>, first: number): RibbonRun[] {
  const runs: RibbonRun[] = [];
  for (let i = 0; i < ids.length; i++) {
    const last = runs.at(-1);
    if (last && last.id === ids[i]) last.to = first + i;
    else runs.push({ id: ids[i]!, from: first + i, to: first + i });
  }
  return runs;
}

const DAY_MS = 86_400_000;

/**
 * The earliest moment at which an event can stand in a window: after the subgroup before it, were it days ago; before the
 * first of all, within a day of it.
 */
export function eventsFrom({ at, window }: { at: ArrayLike<number>; window: { from: number } }): number {
  return window.from > 0 ? at[window.from - 1]! : at[0]! - DAY_MS;
}

/**
 * Where an event stands among the subgroups: half a place before the first one whose last reading was
 * taken after it. Null when it lies before or after everything in the window.
 *
 * @param at moments of all subgroups, ascending
 */
export function placeOfEvent(
  moment: number,
  { at, window }: { at: ArrayLike<number>; window: { from: number; to: number } },
): number | null {
  if (window.to < window.from) return null;
  let low = window.from;
  let high = window.to + 1;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (at[middle]! <= moment) low = middle + 1;
    else high = middle;
  }
  const isBefore = low === window.from && window.from > 0 && moment < at[window.from - 1]!;
  const isAfter = low > window.to && at.length > window.to + 1;
  return isBefore || isAfter ? null : low - 0.5;
}
