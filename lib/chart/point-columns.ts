import type { ChartPoint, ReadingDetail } from "./feature-chart";
import { RIBBON_KINDS, type RibbonKind, type RibbonRun, ribbonRuns } from "./ribbons";
import type { ShownWindow } from "./shown-window";

/*
 * Points of a chart on their way to a browser: a column for each of their properties instead of an object for each of
 * them, and sources as runs. That is a quarter of the text. Single readings, which are told of one point at a time,
 * travel by themselves.
 */

export type PointColumns = {
  /** The first subgroup: entry i of a column is that of subgroup from + i. */
  from: number;
  at: number[];
  size: number[];
  mean: number[];
  spread: (number | null)[];
  z: (number | null)[];
  spreadZ: (number | null)[];
  /** Sums of `FLAGS`. */
  flags: number[];
  /** Kinds that no point states are absent. */
  sources: Partial<Record<RibbonKind, RibbonRun[]>>;
};

/** A point as the chart draws it. */
export type DrawnPoint = Omit<ChartPoint, "readings">;

export type ReadingColumns = {
  /** The first subgroup, and how many readings it and those after it have. */
  from: number;
  counts: number[];
  /** Of all of them, one after another. */
  value: number[];
  /** As the gauge gave them; null where all are charted as measured. */
  measured: number[] | null;
  partTemp: (number | null)[];
  /** Serials; empty where none is known. */
  piece: string[];
};

/** One reading as a page tells it. */
export type ToldReading = Omit<ReadingDetail, "piece"> & { piece: string };

const FLAGS = { excluded: 1, beyond: 2, spreadBeyond: 4, member: 8, spreadMember: 16 } as const;
type Flag = keyof typeof FLAGS;
const FLAG_NAMES = Object.keys(FLAGS) as Flag[];

/** `points` are neighbours, the first of them subgroup `from`. */
export function columnsOf(points: readonly ChartPoint[], from: number): PointColumns {
  const sources: PointColumns["sources"] = {};
  for (const kind of RIBBON_KINDS) {
    const ids = points.map((point) => point.sources[kind]);
    if (ids.some((id) => id !== 0)) sources[kind] = ribbonRuns(ids, from);
  }
  return {
    from,
    at: points.map(({ at }) => at),
    size: points.map(({ size }) => size),
    mean: points.map(({ mean }) => mean),
    spread: points.map(({ spread }) => spread),
    z: points.map(({ z }) => z),
    spreadZ: points.map(({ spreadZ }) => spreadZ),
    flags: points.map((point) => FLAG_NAMES.reduce((sum, name) => sum + (point[name] ? FLAGS[name] : 0), 0)),
    sources,
  };
}

/** @param serials of pieces, by their ids */
export function readingColumns(
  points: readonly ChartPoint[],
  { from, serials }: { from: number; serials: ReadonlyMap<number, string> },
): ReadingColumns {
  const readings = points.flatMap((point) => point.readings);
  return {
    from,
    counts: points.map((point) => point.readings.length),
    value: readings.map(({ value }) => value),
    measured: readings.every(({ value, measured }) => value === measured)
      ? null
      : readings.map(({ measured }) => measured),
    partTemp: readings.map(({ partTemp }) => partTemp),
    piece: readings.map(({ piece }) => serials.get(piece) ?? ""),
  };
}

/** The points of a window that lies within the columns. */
export function pointsOf(columns: PointColumns, { from, to }: ShownWindow): DrawnPoint[] {
  const sourcesOf = sourcesWithin(columns, { from, to });
  return sourcesOf.map((sources, k) => {
    const i = from - columns.from + k;
    const flags = columns.flags[i]!;
    const is = (name: Flag) => (flags & FLAGS[name]) !== 0;
    return {
      number: from + k,
      at: columns.at[i]!,
      size: columns.size[i]!,
      mean: columns.mean[i]!,
      spread: columns.spread[i]!,
      excluded: is("excluded"),
      z: columns.z[i]!,
      spreadZ: columns.spreadZ[i]!,
      beyond: is("beyond"),
      spreadBeyond: is("spreadBeyond"),
      member: is("member"),
      spreadMember: is("spreadMember"),
      sources,
    };
  });
}

function sourcesWithin({ sources }: PointColumns, { from, to }: ShownWindow): ChartPoint["sources"][] {
  const none = Object.fromEntries(RIBBON_KINDS.map((kind) => [kind, 0])) as ChartPoint["sources"];
  const found = Array.from({ length: to - from + 1 }, () => ({ ...none }));
  for (const kind of RIBBON_KINDS) {
    for (const run of sources[kind] ?? []) {
      for (let number = Math.max(from, run.from); number <= Math.min(to, run.to); number++) {
        found[number - from]![kind] = run.id;
      }
    }
  }
  return found;
}

/** The readings of one subgroup; null when they are not among these. */
export function readingsOf(columns: ReadingColumns, number: number): ToldReading[] | null {
  const at = number - columns.from;
  const count = columns.counts[at];
  if (count === undefined) return null;
  const first = columns.counts.slice(0, at).reduce((sum, each) => sum + each, 0);
  return Array.from({ length: count }, (_, k) => {
    const value = columns.value[first + k]!;
    return {
      value,
      measured: columns.measured?.[first + k] ?? value,
      partTemp: columns.partTemp[first + k]!,
      piece: columns.piece[first + k]!,
      place: k,
    };
  });
}
