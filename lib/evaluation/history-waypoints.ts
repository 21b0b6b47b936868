import { type MeasurementSeries, originAt } from "../measurements/series";
import type { FormedSubgroups, FormingState } from "../subgroups/form-subgroups";
import type { Progress } from "./progress";
import { isWaypoint } from "./waypoint";

/** What the forming of subgroups remembered before the measurement at `at`. */
export type FormingMark = { at: number; state: FormingState };

/** Positions in a history before which there may be a waypoint. */
export function waypointPlaces({ takenAt, count }: MeasurementSeries): number[] {
  const places: number[] = [];
  for (let at = 1; at < count; at++) {
    if (isWaypoint(at) && (takenAt[at] as number) > (takenAt[at - 1] as number)) places.push(at);
  }
  return places;
}

type History = {
  series: MeasurementSeries;
  values: Float64Array;
  formed: FormedSubgroups;
  marks: readonly FormingMark[];
  /** Null on a chart of single readings, where labels do not count. */
  labels: Uint32Array | null;
  /** Readings of a subgroup as planned. */
  size: number;
};

/**
 * Takes the waypoints of a history while it is judged as a whole: each is what `continueEvaluation` would remember
 * at that place. Those from which it could not give the answers of the whole are left out: a subgroup that it would
 * have judged there got another measurement later.
 */
export class HistoryWaypoints {
  readonly taken: Progress[] = [];
  private next = 0;

  constructor(private readonly history: History) {}

  /** To be called when `judged` subgroups are judged, before the next one. */
  take(progress: Progress, judged: number, isSettled: boolean): void {
    const { marks } = this.history;
    for (; this.next < marks.length; this.next++) {
      const mark = marks[this.next] as FormingMark;
      const needed = judgedBefore(mark, this.history);
      if (needed > judged) return;
      if (isSettled && needed === judged && isWhole(mark, needed, this.history))
        this.taken.push(memoryAt(mark, progress, this.history));
    }
  }
}

/** How many subgroups are judged before the mark: all that were begun, without a labelled one that still grows. */
function judgedBefore({ state }: FormingMark, { size }: History): number {
  const newest = state.open.at(-1);
  const grows = newest !== undefined && newest.number === state.begun - 1 && newest.size < size;
  return state.begun - (grows ? 1 : 0);
}

/** Whether no subgroup that is judged before the mark has a measurement behind it. */
function isWhole({ at, state }: FormingMark, judged: number, { formed, labels }: History): boolean {
  const { start, order } = formed;
  const newest = state.begun - 1;
  // One of a thousand is full and no longer open, and its memory would have to be guessed.
  const isFull =
    newest >= 0 && state.open.at(-1)?.number !== newest && labels?.[order[start[newest]!]!] !== 0;
  if (labels !== null && isFull) return false;
  return state.open.every(({ number }) => number >= judged || order[start[number + 1]! - 1]! < at);
}

/** `progress` knows what was judged; the rest is what the measurements just before the mark leave behind. */
function memoryAt(mark: FormingMark, progress: Progress, history: History): Progress {
  const { at, state } = mark;
  const { series, values } = history;
  return structuredClone({
    ...progress,
    readings: at,
    lastAt: series.takenAt[at - 1] as number,
    latest: originAt(series, at - 1),
    forming: state,
    waiting: state.waiting.map((place) => values[place] as number),
    newest: newestAt(mark, history),
  });
}

/** The newest subgroup, where it has a label, as far as it has come. */
function newestAt({ at, state }: FormingMark, { series, values, formed, size }: History): Progress["newest"] {
  const newest = state.open.at(-1);
  if (newest?.number !== state.begun - 1) return null;
  const { number } = newest;
  const members = formed.order.subarray(formed.start[number], formed.start[number + 1]);
  const before = members.filter((place) => place < at);
  const judged = newest.size >= size;
  return {
    number,
    values: judged ? [] : Array.from(before, (place) => values[place] as number),
    at: series.takenAt[before.at(-1) as number] as number,
    judged,
  };
}
