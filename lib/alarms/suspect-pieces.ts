import type { Evaluation } from "../evaluation/evaluation";
import type { MeasurementSeries } from "../measurements/series";
import type { SuspectSubgroups } from "./suspect-subgroups";

/**
 * A piece with its readings of the feature; `values` as charted. Lot and fixture are ids as its first suspect reading
 * states them, 0 for none.
 */
export type SuspectPiece = { pieceId: number; at: number; lot: number; fixture: number; values: number[] };

export type SuspectPieces = {
  /** In the order of their first suspect reading. */
  pieces: SuspectPiece[];
  /** Readings that state no piece. */
  withoutPiece: number;
  /** First and last of all of them; null when there are none. */
  from: number | null;
  to: number | null;
};

/**
 * The pieces measured in the suspect subgroups; while no good subgroup has followed, also those whose subgroup is
 * not complete yet.
 */
export function suspectPieces(
  { formed, points, values }: Pick<Evaluation, "formed" | "points" | "values">,
  series: MeasurementSeries,
  { from, to, nextGood }: SuspectSubgroups,
): SuspectPieces {
  const positions = formed.order.slice(formed.start[from], formed.start[to + 1]);
  const growing = nextGood === null ? positionsAfter(formed, points.count, series.count) : [];
  const found = new Map<number, SuspectPiece>();
  let withoutPiece = 0;
  const all = [...positions, ...growing].sort((a, b) => a - b);
  for (const position of all) {
    const pieceId = series.piece[position]!;
    if (pieceId === 0) {
      withoutPiece++;
      continue;
    }
    const piece = found.get(pieceId) ?? {
      pieceId,
      at: series.takenAt[position]!,
      lot: series.lot[position]!,
      fixture: series.fixture[position]!,
      values: [],
    };
    piece.values.push(values[position]!);
    found.set(pieceId, piece);
  }
  return {
    pieces: [...found.values()],
    withoutPiece,
    from: all.length > 0 ? series.takenAt[all[0]!]! : null,
    to: all.length > 0 ? series.takenAt[all.at(-1)!]! : null,
  };
}

/** Readings that belong to no judged subgroup and were taken after the last of them. */
function positionsAfter({ start, order }: Evaluation["formed"], judged: number, count: number): number[] {
  const isJudged = new Uint8Array(count);
  let last = -1;
  for (const position of order.subarray(0, start[judged])) {
    isJudged[position] = 1;
    if (position > last) last = position;
  }
  const after: number[] = [];
  for (let position = last + 1; position < count; position++)
    if (isJudged[position] === 0) after.push(position);
  return after;
}
