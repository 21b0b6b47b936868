import type { AnsweredFlag, FlagRow } from "../../db/queries/drift";
import type { SourceEventRow } from "../../db/queries/sources";
import type { LotDifference } from "../../lib/drift/difference-chart";
import { type ScannedSource, sourceKey } from "../../lib/drift/measured-part";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { isOf } from "../../lib/drift/tool-code";
import { fixed } from "../../lib/format/numbers";
import { dayIn, momentIn } from "../../lib/format/times";
import { SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import type { Words } from "../../lib/words/words";

type GridWords = { said: Words["driftPage"]["grid"] } & Pick<Words, "times" | "trade">;

/** `strength` is 0 to 4 in the direction of its sign, null where nothing ran beside it. */
export type CellView = { strength: number | null; figure: string; words: string };
/** Before the lot at `place`; the number of lots stands for "after the last one". */
export type TickView = { place: number; words: string };
export type RowView = {
  /** Kind and code. */
  source: string;
  code: string;
  cells: (CellView | null)[];
  ticks: TickView[];
  /** Place of the first lot since the source moved. */
  since: number | null;
};
export type GroupView = { kind: SourceKind; isCompared: boolean; rows: RowView[] };
export type GridView = {
  lots: { code: string; day: string }[];
  groups: GroupView[];
  /** What is to be said of sources that are judged afresh. */
  afresh: string[];
};

/** Lower ends of the strengths 1 to 4, in sigma. */
export const STRENGTHS = [0.25, 0.5, 0.75, 1] as const;

/**
 * The grid of sources and lots for some lots of a part.
 *
 * A source that was put right keeps its row: the scan has only what it did since, so what it did before comes from the
 * flag that the event ended.
 */
export function gridView(
  scan: StoredScan,
  {
    lots: codes,
    zone,
    events,
    flags,
    answered = [],
    words,
  }: {
    lots: readonly string[];
    zone: string;
    events: readonly SourceEventRow[];
    flags: readonly FlagRow[];
    /** The latest event first. */
    answered?: readonly AnsweredFlag[];
    words: GridWords;
  },
): GridView {
  const begins = new Map(scan.lots.map(({ code, at }) => [code, at]));
  const lotsFrom = codes.map((code) => begins.get(code) ?? 0);
  const lots = codes.map((code, place) => ({ code, day: dayIn(lotsFrom[place]!, zone, words.times) }));
  const places = new Map(codes.map((code, place) => [code, place]));
  const since = new Map(
    flags.map(({ source, latest }) => [sourceKey(source), places.get(latest.onset.lot) ?? null]),
  );
  const groups = SOURCE_KINDS.map((kind): GroupView => {
    const rows = withAnswered(scan, answered)
      .filter(({ source }) => source.kind === kind)
      .flatMap(({ source, lots: differences }): RowView[] => {
        const cells: (CellView | null)[] = codes.map(() => null);
        for (const one of differences) {
          const place = places.get(one.code);
          if (place !== undefined)
            cells[place] = cellView(one, words.said.where(source.id, one.code, lots[place]!.day), words);
        }
        for (const { latest, answer, endedAt } of answered.filter((one) => isSame(one.source, source))) {
          const before = words.said.before(
            words.trade.events[answer.event],
            momentIn(endedAt, zone, words.times),
          );
          for (const one of latest.evidence.course ?? []) {
            const place = places.get(one.code);
            if (place === undefined || cells[place]) continue;
            const cell = cellView(one, words.said.where(source.id, one.code, lots[place]!.day), words);
            cells[place] = { ...cell, words: `${cell.words} ${before}` };
          }
        }
        if (cells.every((cell) => cell === null)) return [];
        const ticks = ticksOf(
          events.filter((event) => isOf(event, source)),
          lotsFrom,
          { zone, words },
        );
        return [
          {
            source: sourceKey(source),
            code: source.id,
            cells,
            ticks,
            since: since.get(sourceKey(source)) ?? null,
          },
        ];
      })
      .sort((a, b) => a.code.localeCompare(b.code, "en", { numeric: true }));
    return {
      kind,
      isCompared: rows.some(({ cells }) => cells.some((cell) => cell && cell.strength !== null)),
      rows,
    };
  });
  const shown = groups.filter(({ rows }) => rows.length > 0);
  const sources = new Set(shown.flatMap(({ rows }) => rows.map(({ source }) => source)));
  return {
    lots,
    groups: shown,
    afresh: afreshSources(scan, answered)
      .filter(({ source }) => sources.has(sourceKey(source)))
      .map((one) => afreshWords(one, { zone, words })),
  };
}

/** The sources that were put right within the window, each with its latest event and its lots since. */
export function afreshSources(
  { sources }: Pick<StoredScan, "sources">,
  answered: readonly AnsweredFlag[],
): { source: ScannedSource; answer: SourceEventRow; lots: number }[] {
  return answered
    .filter(({ source }, i) => answered.findIndex((one) => isSame(one.source, source)) === i)
    .map(({ source, answer }) => {
      const own = sources.find((one) => isSame(one.source, source));
      return { source, answer, lots: own?.lots.length ?? 0 };
    });
}

/** "FX-2: judged afresh since repaired Mon 16 Nov 2026, 07:10; no lots yet." */
function afreshWords(
  { source, answer, lots }: ReturnType<typeof afreshSources>[number],
  { zone, words: { said, times, trade } }: { zone: string; words: GridWords },
): string {
  return said.afresh(source.id, trade.events[answer.event], momentIn(answer.at, zone, times), lots);
}

function withAnswered(
  { sources }: StoredScan,
  answered: readonly AnsweredFlag[],
): Pick<StoredScan["sources"][number], "source" | "lots">[] {
  const gone = afreshSources({ sources }, answered).filter(
    ({ source }) => !sources.some((one) => isSame(one.source, source)),
  );
  return [...sources, ...gone.map(({ source }) => ({ source, lots: [] }))];
}

function isSame(a: ScannedSource, b: ScannedSource): boolean {
  return sourceKey(a) === sourceKey(b);
}

function cellView(
  { difference, halfWidth, pieces, alone }: LotDifference,
  where: string,
  { said }: GridWords,
): CellView {
  const figure = fixed(difference, 1, { signed: true });
  const amount = said.amount(figure, fixed(halfWidth, 1));
  if (alone) {
    const words = said.aloneWords(where, pieces, amount);
    return { strength: null, figure, words };
  }
  const reached = STRENGTHS.filter((least) => Math.abs(difference) >= least).length;
  return {
    strength: difference < 0 ? -reached : reached,
    figure,
    words: said.words(where, amount, pieces),
  };
}

/** Events within the lots shown, at the boundary of the first lot that began after them. */
function ticksOf(
  events: readonly SourceEventRow[],
  lotsFrom: readonly number[],
  { zone, words: { times, trade } }: { zone: string; words: GridWords },
): TickView[] {
  const first = lotsFrom[0];
  if (first === undefined) return [];
  return events
    .filter(({ at }) => at >= first - DAY_MS)
    .map(({ at, event, note }) => {
      const next = lotsFrom.findIndex((from) => from >= at);
      return {
        place: next < 0 ? lotsFrom.length : next,
        words: `${trade.events[event]} ${dayIn(at, zone, times)}${note === "" ? "" : `: ${note}`}`,
      };
    });
}

const DAY_MS = 86_400_000;
