import type { SourceEventRow } from "../../db/queries/sources";
import { counted, fixed } from "../../lib/format/numbers";
import { dayIn } from "../../lib/format/times";
import type { SourceKind } from "../../lib/measurements/series";
import { sigmaWords } from "../../lib/sources/change-words";
import { type GridCell, sourceGrid } from "../../lib/sources/source-grid";
import type { DriftNames } from "./drift-names";
import type { KindDrift } from "./part-drift";

/** `strength` is 0 to 4 in the direction of its sign, null where nothing ran beside it. */
export type CellView = { strength: number | null; figure: string; words: string };
/** Before the lot at `place`; the number of lots stands for "after the last one". */
export type TickView = { place: number; words: string };
export type RowView = {
  source: number;
  code: string;
  cells: (CellView | null)[];
  ticks: TickView[];
  /** Place of the first lot since the source moved. */
  since: number | null;
};
export type GroupView = { kind: SourceKind; isCompared: boolean; rows: RowView[] };
export type GridView = { lots: { id: number; code: string; day: string }[]; groups: GroupView[] };

/** Lower ends of the strengths 1 to 4, in sigma. */
export const STRENGTHS = [0.25, 0.5, 0.75, 1] as const;

/** The grid of sources and lots for lots `from` to `to` of the part's list. */
export function gridView(
  kinds: readonly KindDrift[],
  {
    from,
    to,
    zone,
    names,
    events,
  }: { from: number; to: number; zone: string; names: DriftNames; events: readonly SourceEventRow[] },
): GridView {
  const changes = kinds[0]?.changes;
  if (!changes) return { lots: [], groups: [] };
  const lots = changes.lots.slice(from, to);
  const lotsFrom = changes.lotsFrom.slice(from, to);
  const days = lotsFrom.map((at) => dayIn(at, zone));
  const end = changes.lotsFrom[to] ?? Number.POSITIVE_INFINITY;

  const groups = kinds.map(({ kind, rows, changes: { sources } }): GroupView => {
    const isCompared = sources.some(({ state }) => state !== "alone");
    const found = sourceGrid(rows, { lots, isCompared });
    const views = found.map(({ source, cells }): RowView => {
      const code = names.source(source);
      const moved = sources.find((one) => one.source === source && one.state === "moved");
      const since = moved?.state === "moved" ? lots.indexOf(moved.change.since) : -1;
      return {
        source,
        code,
        cells: lots.map((lot, place) => {
          const cell = cells.find((one) => one.lot === lot);
          return cell ? cellView(cell, `${code} in ${names.lot(lot)}, ${days[place]}`) : null;
        }),
        ticks: ticksOf(
          events.filter(({ sourceId, at }) => sourceId === source && at < end),
          lotsFrom,
          zone,
        ),
        since: since < 0 ? null : since,
      };
    });
    views.sort((a, b) => a.code.localeCompare(b.code, "en", { numeric: true }));
    return { kind, isCompared, rows: views };
  });
  return {
    lots: lots.map((id, place) => ({ id, code: names.lot(id), day: days[place]! })),
    groups: groups.filter(({ rows }) => rows.length > 0),
  };
}

function cellView({ deviation, features, count }: GridCell, where: string): CellView {
  if (deviation === null) {
    const words = `${where}: ran alone, ${counted(count, "reading")}; nothing to compare it with.`;
    return { strength: null, figure: "", words };
  }
  const reached = STRENGTHS.filter((least) => Math.abs(deviation) >= least).length;
  return {
    strength: deviation < 0 ? -reached : reached,
    figure: fixed(deviation, 1, { signed: true }),
    words: `${where}: ${sigmaWords(deviation)} from the others, over ${counted(features, "feature")} and ${counted(count, "reading")}.`,
  };
}

/** Events within the lots shown, at the boundary of the first lot that began after them. */
function ticksOf(events: readonly SourceEventRow[], lotsFrom: readonly number[], zone: string): TickView[] {
  const first = lotsFrom[0];
  if (first === undefined) return [];
  return events
    .filter(({ at }) => at >= first - DAY_MS)
    .map(({ at, event, note }) => {
      const next = lotsFrom.findIndex((from) => from >= at);
      return {
        place: next < 0 ? lotsFrom.length : next,
        words: `${event} ${dayIn(at, zone)}${note === "" ? "" : `: ${note}`}`,
      };
    });
}

const DAY_MS = 86_400_000;
