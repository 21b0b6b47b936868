import "server-only";
import { createHash } from "node:crypto";
import type { BoardRow } from "../../db/queries/board";
import { latestNewsId } from "../../db/queries/news";
import type { GaugeDue } from "../../lib/board/gauges-due";
import { datedSentence } from "../../lib/drift/flag-words";
import { nameOf } from "../../lib/drift/sentence";
import { partName } from "../../lib/format/names";
import { paged } from "../../lib/format/paged";
import { agoWords, dayIn, exactMomentIn } from "../../lib/format/times";
import type { Words } from "../../lib/words/words";
import { database } from "../database";
import { turnerOf } from "../fittings/page-turner";
import { drawStrip } from "../fittings/strip-drawing";
import type { Plant } from "../plant";
import { boardShown } from "../shown/lengths";
import type { BandView } from "./band-section";
import { type BoardFilter, type BoardPlace, boardAddress, choicesOf, filterBoard } from "./board-filter";
import type { BoardView } from "./followed-board";
import { gaugeDueWords, loadGaugesDue } from "./load-gauges";
import { type PlacedFlags, placeFlags } from "./placed-flags";
import { latestOf, placeRows, withReasons } from "./placed-rows";
import type { QuietPart } from "./quiet-section";
import type { ShownMoment } from "./shown-moment";
import { shownRows } from "./shown-rows";

/** Five screens of a desk: as many as somebody goes through before they look for another way. */
const ROWS_ON_A_PAGE = 25;

/** Lines of a table, of which two go into the height of a row above. */
const QUIET_ROWS_ON_A_PAGE = 50;

/** Where every feature stands, and the latest news before it was read. */
export type ReadBoard = { since: number; all: readonly BoardRow[] };

export async function readBoard(): Promise<ReadBoard> {
  const since = await latestNewsId(await database());
  return { since, all: await boardShown(await database()) };
}

/** What one board shows of it. */
export type NarrowedBoard = ReadBoard & {
  plant: Plant;
  filter: BoardFilter;
  shown: readonly BoardRow[];
  gauges: GaugeDue[];
  flags: PlacedFlags;
};

export async function narrowed(
  read: ReadBoard,
  { filter, plant, words }: { filter: BoardFilter; plant: Plant; words: Words },
): Promise<NarrowedBoard> {
  const shown = filterBoard(read.all, filter, words.charts.features);
  const gauges = await loadGaugesDue(shown, plant);
  const flags = await placeFlags(await database(), shown);
  return { ...read, plant, filter, shown, gauges, flags };
}

/** In words, figures and drawings, in the language and with the marks that are in force. */
export function boardView(narrow: NarrowedBoard, place: BoardPlace, words: Words): BoardView {
  const { since, plant, filter, all, shown, gauges } = narrow;
  const { board, times } = words;
  const bands = placeRows(shown, plant.now);
  const turned = (page: Partial<BoardPlace>) => boardAddress(filter, { ...place, ...page });
  const latest = latestOf(all);
  return {
    since,
    frame: frameOf(narrow),
    features:
      shown.length === all.length ? board.features(all.length) : board.shown(shown.length, all.length),
    latest: latest === 0 ? board.noMeasurements : board.latest(agoWords(latest, plant.now, times)),
    choices: choicesOf(all),
    act: bandView(narrow, words, {
      band: "act",
      rows: bands.act,
      page: place.act,
      toPage: (act) => turned({ act }),
      gauges: [],
    }),
    watch: bandView(narrow, words, {
      band: "watch",
      rows: bands.watch,
      page: place.watch,
      toPage: (watch) => turned({ watch }),
      gauges,
    }),
    quiet: quietView(bands.quiet, narrow, { place, turned, words }),
  };
}

/**
 * Says whether what stands around the bands is the same: the plant's settings, whether there is anything to be shown, and
 * the process that made it, after which another version of the program may serve.
 */
function frameOf({ plant: { now: _, ...settings }, all, shown }: NarrowedBoard): string {
  const frame = [performance.timeOrigin, settings, all.length > 0, shown.length > 0];
  return createHash("sha1").update(JSON.stringify(frame)).digest("base64");
}

type BandParts = {
  band: "act" | "watch";
  rows: readonly BoardRow[];
  page: number;
  toPage: (page: number) => string;
  gauges: readonly GaugeDue[];
};

function bandView(
  { plant: { now, zone }, flags }: NarrowedBoard,
  words: Words,
  { band, rows, page, toPage, gauges }: BandParts,
): BandView {
  const { board, drift, times, trade } = words;
  const head = board.bands[band];
  const sources = flags.bands.get(band) ?? [];
  const isEmpty = rows.length === 0 && gauges.length === 0 && sources.length === 0;
  const shown = paged(rows, { page, size: ROWS_ON_A_PAGE });
  const isFirst = shown.page === 1;
  return {
    isEmpty,
    count: isEmpty
      ? head.none
      : board.counts({ sources: sources.length, features: rows.length, gauges: gauges.length }),
    place: isFirst ? null : board.turning.shown(shown.from, shown.to, shown.count),
    sources: (isFirst ? sources : []).map(({ id, source, latest }) => ({
      id,
      name: nameOf(source, drift),
      kind: trade.sources[source.kind],
      sentence: datedSentence(latest, dayIn(latest.onset.at, zone, times), { drift }),
      since: shownMoment(latest.onset.at, { now, zone, words }),
    })),
    rows: shownRows(withReasons(shown.rows, now, words), { flags, now, zone, words }),
    gauges: (isFirst ? gauges : []).map((gauge) => ({
      id: gauge.id,
      name: board.gauge(gauge.code),
      words: gaugeDueWords(gauge, board),
    })),
    turner: turnerOf(
      {
        label: board.turning.of(head.title),
        shown,
        toPage: (other) => `${toPage(other)}#band-${band}`,
      },
      board,
    ),
  };
}

type Turned = (page: Partial<BoardPlace>) => string;

/**
 * So many features come along folded; where there are more, a part is a link that unfolds it, for nobody should wait for
 * two thousand rows that are not even seen.
 */
function quietView(
  rows: readonly BoardRow[],
  { plant }: NarrowedBoard,
  { place, turned, words }: { place: BoardPlace; turned: Turned; words: Words },
): BoardView["quiet"] {
  const { quiet, turning } = words.board;
  const isLong = rows.length > QUIET_ROWS_ON_A_PAGE;
  const parts = byPart(rows);
  return {
    count: rows.length === 0 ? quiet.none : quiet.count(rows.length, parts.length),
    parts: parts.map(({ id, title, name, members }): QuietPart => {
      const isOpen = id === place.quiet;
      const anchor = `#quiet-${id}`;
      const shown = paged(isLong && !isOpen ? [] : members, {
        page: isLong ? place.rest : 1,
        size: QUIET_ROWS_ON_A_PAGE,
      });
      return {
        id,
        title,
        name,
        count: quiet.features(members.length),
        caption: quiet.of(title),
        fold: isLong ? { href: `${turned({ quiet: isOpen ? null : id, rest: 1 })}${anchor}`, isOpen } : null,
        rows: withReasons(shown.rows, plant.now, words).map(({ feature, standing, placing }) => ({
          id: feature.id,
          name: feature.name,
          strip: drawStrip({ feature, standing }, words),
          reason: placing.reason,
          ppkAtLeast: standing?.ppkAtLeast ?? null,
          at: standing?.lastAt == null ? null : shownMoment(standing.lastAt, { ...plant, words }),
        })),
        turner: turnerOf(
          {
            label: turning.of(title),
            shown,
            toPage: (rest) => `${turned({ quiet: id, rest })}${anchor}`,
          },
          words.board,
        ),
      };
    }),
  };
}

function shownMoment(
  at: number,
  { now, zone, words: { times } }: { now: number; zone: string; words: Words },
): ShownMoment {
  return { ms: at, exact: exactMomentIn(at, zone, times), ago: agoWords(at, now, times) };
}

type QuietMembers = { id: number; title: string; name: string; members: BoardRow[] };

function byPart(rows: readonly BoardRow[]): QuietMembers[] {
  const parts = new Map<number, QuietMembers>();
  for (const row of rows) {
    const { partId: id, part } = row.feature;
    const found = parts.get(id);
    if (found) found.members.push(row);
    else parts.set(id, { id, title: partName(part), name: part.name, members: [row] });
  }
  return [...parts.values()].sort((a, b) => a.title.localeCompare(b.title, "en", { numeric: true }));
}
