import { firstAtOrAfter, picked } from "./order";
import { inspectedAt, type MeasurementSeries, SOURCE_KINDS } from "./series";

export type Correction = { stored: number; incoming: number };
export type Conflict = { incoming: number; first: number };

/** What becomes of incoming measurements beside those already stored. Positions count from 0 in each series. */
export type Resolution = {
  /** Positions in `incoming` that are new. */
  fresh: Uint32Array;
  /** Measurements that are stored already, with the same value, and found on as many where that is stated. */
  duplicates: number;
  /** The same piece measured at the same time, with another value than stored, or found on another number. */
  corrections: Correction[];
  /** The same piece at the same time twice in the incoming file itself, with different values. */
  conflicts: Conflict[];
  /** How many of the new ones were taken before the latest stored one. */
  late: number;
};

/**
 * Sorts incoming measurements of one feature into new ones, duplicates, corrections and conflicts.
 *
 * A measurement is known by its feature, the moment it was taken and its piece. Where no piece is stated,
 * nothing but full agreement (moment, value, what was inspected, lot and sources) shows that it is the same one,
 * and it is counted: a file that brings three equal rows where two are stored adds one. A row that does not state
 * what was inspected does not contradict one that does.
 *
 * Both series are in order; `incoming` comes from one intake. Cost grows with the two lengths.
 */
export function resolve(stored: MeasurementSeries, incoming: MeasurementSeries): Resolution {
  const fresh: number[] = [];
  const result = { duplicates: 0, corrections: [] as Correction[], conflicts: [] as Conflict[], late: 0 };
  const latestStored =
    stored.count > 0 ? (stored.takenAt[stored.count - 1] as number) : Number.NEGATIVE_INFINITY;

  let at = stored.count > 0 && incoming.count > 0 ? firstAtOrAfter(stored, incoming.takenAt[0] as number) : 0;
  for (let from = 0; from < incoming.count; ) {
    const moment = incoming.takenAt[from] as number;
    const to = endOfMoment(incoming, from);
    while (at < stored.count && (stored.takenAt[at] as number) < moment) at++;
    const storedTo = at < stored.count && stored.takenAt[at] === moment ? endOfMoment(stored, at) : at;

    // One new row at a moment of its own is nearly every row of nearly every file.
    if (to - from === 1 && storedTo === at) fresh.push(from);
    else resolveMoment({ stored, at, storedTo, incoming, from, to }, fresh, result);

    at = storedTo;
    from = to;
  }
  for (const position of fresh) if ((incoming.takenAt[position] as number) < latestStored) result.late++;
  return { fresh: Uint32Array.from(fresh), ...result };
}

function endOfMoment(series: MeasurementSeries, from: number): number {
  let to = from + 1;
  while (to < series.count && series.takenAt[to] === series.takenAt[from]) to++;
  return to;
}

type Moment = {
  stored: MeasurementSeries;
  at: number;
  storedTo: number;
  incoming: MeasurementSeries;
  from: number;
  to: number;
};

function resolveMoment(
  { stored, at, storedTo, incoming, from, to }: Moment,
  fresh: number[],
  result: { duplicates: number; corrections: Correction[]; conflicts: Conflict[] },
): void {
  const storedByPiece = new Map<number, number>();
  const storedWithoutPiece = new Map<string, number>();
  for (let s = at; s < storedTo; s++) {
    const piece = stored.piece[s] as number;
    if (piece !== 0) storedByPiece.set(piece, s);
    else count(storedWithoutPiece, likeness(stored, s));
  }

  const seen = new Map<number, number>();
  for (let i = from; i < to; i++) {
    const piece = incoming.piece[i] as number;
    if (piece === 0) {
      const key = likeness(incoming, i);
      const left = storedWithoutPiece.get(key) ?? 0;
      if (left > 0) {
        storedWithoutPiece.set(key, left - 1);
        result.duplicates++;
      } else fresh.push(i);
      continue;
    }
    const first = seen.get(piece);
    if (first !== undefined) {
      if (agree(incoming, first, incoming, i)) result.duplicates++;
      else result.conflicts.push({ incoming: i, first });
      continue;
    }
    seen.set(piece, i);
    const match = storedByPiece.get(piece);
    if (match === undefined) fresh.push(i);
    else if (agree(stored, match, incoming, i)) result.duplicates++;
    else result.corrections.push({ stored: match, incoming: i });
  }
}

/** Whether two measurements of a piece say the same. */
function agree(a: MeasurementSeries, i: number, b: MeasurementSeries, j: number): boolean {
  if (a.value[i] !== b.value[j]) return false;
  const inspected = inspectedAt(b, j);
  return Number.isNaN(inspected) || inspectedAt(a, i) === inspected;
}

function count(tally: Map<string, number>, key: string): void {
  tally.set(key, (tally.get(key) ?? 0) + 1);
}

function likeness(series: MeasurementSeries, i: number): string {
  return [
    series.value[i],
    inspectedAt(series, i),
    series.lot[i],
    series.subgroup[i],
    ...SOURCE_KINDS.map((kind) => series[kind][i]),
  ].join();
}

/** The measurements of `incoming` that are new. */
export function freshOf(incoming: MeasurementSeries, resolution: Resolution): MeasurementSeries {
  return resolution.fresh.length === incoming.count ? incoming : picked(incoming, resolution.fresh);
}
