import { InvalidInput, requireFinite } from "../checks";

/** One feature's readings in time order, with the lot and the source of one kind of each; 0 is "not stated". */
export type SourceRows = {
  feature: number;
  takenAt: ArrayLike<number>;
  values: ArrayLike<number>;
  lots: ArrayLike<number>;
  sources: ArrayLike<number>;
};

/** Something was done to a source at this moment (UTC ms): what it did before says nothing about it since. */
export type HistoryEvent = { source: number; at: number };

/** What a source did between two events; `from` is null before the first one. */
export type History = { source: number; from: number | null; isCurrent: boolean };

/** The readings of one history in one lot. `history` and the place in `byLot` index the lists of the part. */
export type HistoryCell = { history: number; count: number; mean: number };

export type FeatureCells = {
  feature: number;
  /** Pooled standard deviation within cells, in the unit; null when no cell has two readings. */
  sigma: number | null;
  degreesOfFreedom: number;
  byLot: HistoryCell[][];
};

export type PartCells = {
  /** In time order. */
  lots: number[];
  /** Moment of each lot's first reading, UTC ms. */
  lotsFrom: number[];
  histories: History[];
  features: FeatureCells[];
};

/**
 * Readings of all features of a part, summed up in cells history × lot, so that lots and sources have the
 * same numbers in every feature.
 *
 * An event cuts a source's readings in two, also within a lot: the cells before and after it are strangers to
 * each other. A lot begins with its first reading of any feature.
 *
 * @throws InvalidInput when lengths differ or a value is not a finite number
 */
export function lotCells(
  features: readonly SourceRows[],
  { events = [] }: { events?: readonly HistoryEvent[] } = {},
): PartCells {
  for (const rows of features) requireRows(rows);
  const { lots, lotsFrom, placeOf } = lotsInOrder(features);
  const cuts = cutsBySource(events);
  const histories: History[] = [];
  const known = new Map<string, number>();
  const spanAt = (source: number, at: number): Span => {
    const own = cuts.get(source) ?? [];
    const number = own.filter((cut) => cut <= at).length;
    const key = `${source} ${number}`;
    let history = known.get(key);
    if (history === undefined) {
      history = histories.length;
      known.set(key, history);
      histories.push({ source, from: own[number - 1] ?? null, isCurrent: number === own.length });
    }
    const from = own[number - 1] ?? Number.NEGATIVE_INFINITY;
    return { source, history, from, until: own[number] ?? Number.POSITIVE_INFINITY };
  };
  return {
    lots,
    lotsFrom,
    histories,
    features: features.map((rows) => cellsOf(rows, { size: lots.length, placeOf, spanAt })),
  };
}

/** The history of a source over the times [from, until). */
type Span = { source: number; history: number; from: number; until: number };

function cellsOf(
  rows: SourceRows,
  {
    size,
    placeOf,
    spanAt,
  }: { size: number; placeOf: Map<number, number>; spanAt: (source: number, at: number) => Span },
): FeatureCells {
  const byLot: HistoryCell[][] = Array.from({ length: size }, () => []);
  let squares = 0;
  let used = 0;
  let filled = 0;
  // Neighbours in time mostly come from one source, and so from one history.
  let span: Span | null = null;
  for (let i = 0; i < rows.values.length; i++) {
    const lot = rows.lots[i]!;
    const source = rows.sources[i]!;
    if (lot === 0 || source === 0) continue;
    const at = rows.takenAt[i]!;
    if (span === null || span.source !== source || at < span.from || at >= span.until) {
      span = spanAt(source, at);
    }
    const { history } = span;
    const cells = byLot[placeOf.get(lot)!]!;
    let cell = cells.find((one) => one.history === history);
    if (!cell) {
      cell = { history, count: 0, mean: 0 };
      cells.push(cell);
      filled++;
    }
    // Welford's update: exact enough for a large common offset.
    const before = rows.values[i]! - cell.mean;
    cell.count++;
    cell.mean += before / cell.count;
    squares += before * (rows.values[i]! - cell.mean);
    used++;
  }
  const degreesOfFreedom = used - filled;
  const sigma = degreesOfFreedom > 0 ? Math.sqrt(Math.max(0, squares) / degreesOfFreedom) : null;
  return { feature: rows.feature, sigma, degreesOfFreedom, byLot };
}

function lotsInOrder(features: readonly SourceRows[]) {
  const firstAt = new Map<number, number>();
  for (const { lots, takenAt } of features) {
    let last = 0;
    for (let i = 0; i < lots.length; i++) {
      const lot = lots[i]!;
      // Neighbours in time mostly share their lot, and within it the first one is the earliest.
      if (lot === 0 || lot === last) continue;
      last = lot;
      const known = firstAt.get(lot);
      if (known === undefined || takenAt[i]! < known) firstAt.set(lot, takenAt[i]!);
    }
  }
  const ordered = [...firstAt].sort((a, b) => a[1] - b[1] || a[0] - b[0]);
  return {
    lots: ordered.map(([lot]) => lot),
    lotsFrom: ordered.map(([, at]) => at),
    placeOf: new Map(ordered.map(([lot], place) => [lot, place])),
  };
}

function cutsBySource(events: readonly HistoryEvent[]): Map<number, number[]> {
  const cuts = new Map<number, number[]>();
  for (const { source, at } of events) cuts.set(source, [...(cuts.get(source) ?? []), at]);
  for (const own of cuts.values()) own.sort((a, b) => a - b);
  return cuts;
}

function requireRows({ values, ...columns }: SourceRows): void {
  for (const field of ["takenAt", "lots", "sources"] as const) {
    if (columns[field].length !== values.length) {
      const needs = `the number of values, ${values.length}`;
      throw new InvalidInput("lotCells", `${field}.length`, columns[field].length, needs);
    }
  }
  requireFinite("lotCells", "values", values);
}
