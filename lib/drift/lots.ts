import type { CodeOf, MeasuredPart } from "./measured-part";

/** Lots of a part in time: which index a lot id has, and what each is called. */
export type LotWindow = {
  codes: string[];
  /** −1 for a lot outside the window. */
  indexOf: (lot: number) => number;
  /** Set where no measurement names a lot: index by time of the measurement. */
  byTime: ((at: number) => number) | null;
};

/** Pieces that stand for a lot where none is named. Common practice, no source. */
const PIECES_WITHOUT_LOT = 5;

/**
 * The last lots of a part in the order of their first measurement.
 *
 * Where no measurement names a lot, runs of consecutive pieces take its place: at least five, and so many that
 * the window holds the whole history. Measurements without a lot beside others that have one are left out.
 */
export function formLots(
  part: MeasuredPart,
  { codeOf, windowLots }: { codeOf: CodeOf; windowLots: number },
): LotWindow {
  const firstAt = new Map<number, number>();
  for (const { series } of part.features) {
    let last = 0;
    for (let i = 0; i < series.count; i++) {
      const lot = series.lot[i]!;
      if (lot === last || lot === 0) continue;
      last = lot;
      const known = firstAt.get(lot);
      if (known === undefined || series.takenAt[i]! < known) firstAt.set(lot, series.takenAt[i]!);
    }
  }
  if (firstAt.size === 0) return runsOfPieces(part, windowLots);

  const inTime = [...firstAt].sort(([, a], [, b]) => a - b).slice(-windowLots);
  const index = new Map(inTime.map(([lot], place) => [lot, place]));
  return {
    codes: inTime.map(([lot]) => codeOf("lot", lot)),
    indexOf: (lot) => index.get(lot) ?? -1,
    byTime: null,
  };
}

function runsOfPieces(part: MeasuredPart, windowLots: number): LotWindow {
  const longest = part.features.reduce((a, b) => (b.series.count > a.series.count ? b : a));
  const times = Float64Array.from(longest.series.takenAt).sort();
  const size = Math.max(PIECES_WITHOUT_LOT, Math.ceil(times.length / windowLots));
  const starts: number[] = [];
  const codes: string[] = [];
  for (let from = 0; from < times.length; from += size) {
    starts.push(times[from]!);
    codes.push(`pieces ${from + 1} to ${Math.min(from + size, times.length)}`);
  }
  return {
    codes,
    indexOf: () => -1,
    byTime: (at) => {
      let [low, high] = [0, starts.length - 1];
      while (low < high) {
        const middle = (low + high + 1) >> 1;
        if (starts[middle]! <= at) low = middle;
        else high = middle - 1;
      }
      return low;
    },
  };
}
