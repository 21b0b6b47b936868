import "server-only";
import type { Database } from "../../../db/connection";
import type { LimitsRow } from "../../../db/queries/history";
import { namesOf } from "../../../db/queries/history";
import { sourceEvents } from "../../../db/queries/sources";
import type { ChartFacts, ChartStretch, EventView, PhaseView } from "../../../lib/chart/chart-view";
import { type ChartPoint, chartPoints, isStated, kindsStated } from "../../../lib/chart/feature-chart";
import { limitRuns, phasesOf } from "../../../lib/chart/limit-runs";
import { columnsOf, type ReadingColumns, readingColumns } from "../../../lib/chart/point-columns";
import { eventsFrom, placeOfEvent, type RibbonKind } from "../../../lib/chart/ribbons";
import { type ShownWindow, shownWindow } from "../../../lib/chart/shown-window";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { Pattern } from "../../../lib/evaluation/patterns";
import { TRIAL_VERSION } from "../../../lib/evaluation/setup";
import { partName } from "../../../lib/format/names";
import { placesOf, unitSign } from "../../../lib/format/numbers";
import { dayIn, shortMomentIn } from "../../../lib/format/times";
import type { LimitsVersion } from "../../../lib/plan/feature-plan";
import type { Words } from "../../../lib/words/words";
import { words as wordsOfPage } from "../../language/language";
import { type JudgedFeature, onceJudged } from "./judged-feature";

export type ChartQuery = {
  /** First and last subgroup asked for; null for the latest. */
  window: ShownWindow | null;
  /** Moment to be marked; null for none. */
  from: number | null;
};

/** The window that is shown. A moment to be marked lies a quarter into it when no window was asked for. */
export function windowFor({ points }: Evaluation, { window, from }: ChartQuery): ShownWindow {
  const usual = shownWindow(points.count, window);
  if (window !== null || from === null || points.count === 0) return usual;
  const place = points.at.findIndex((at) => at >= from);
  if (place < 0 || place > usual.from + (usual.to - usual.from) / 8) return usual;
  const width = usual.to - usual.from;
  return shownWindow(points.count, {
    from: Math.max(0, place - Math.round(width / 4)),
    to: points.count - 1,
  });
}

/** What holds for a feature's chart whatever part of the history it shows; with the moment that is to be marked. */
export async function chartFacts(
  judged: JudgedFeature,
  { from, zone }: { from: number | null; zone: string },
): Promise<ChartFacts> {
  const { feature, setup } = judged.history;
  const { points } = judged.evaluation;
  const words = await wordsOfPage();
  return {
    featureId: feature.id,
    part: partName(feature.part),
    unit: unitSign(feature.unit),
    chart: setup.plan.chart,
    places: feature.resolution === null ? placesFor(judged.evaluation) : placesOf(feature.resolution),
    zone,
    count: points.count,
    kinds: ribbonKinds(judged),
    baseline: baselineOf(judged),
    marker: markerOf(judged.evaluation, { from, zone, words }),
    isReduced: setup.plan.reduction !== null,
  };
}

/**
 * What a chart draws and tells of neighbouring subgroups, with names and times in words.
 *
 * @param range within the history
 */
export async function chartStretch(
  database: Database,
  judged: JudgedFeature,
  { range, zone }: { range: ShownWindow; zone: string },
): Promise<ChartStretch> {
  const { history, evaluation } = judged;
  const { series, setup, limits, exclusions } = history;
  const { points, versions } = evaluation;
  const words = await wordsOfPage();
  const patterns = judged.patterns
    .filter(({ members }) => members.at(-1)! >= range.from && members[0]! <= range.to)
    .map((pattern) => shortened(pattern, range));
  const found = chartPoints(evaluation, { series, setup, patterns, window: range });
  return {
    ...range,
    columns: columnsOf(found, range.from),
    runs: limitRuns(points, { versions, window: range }),
    phases: phasesOf(points, range).map((phase) => phaseView(phase, { versions, limits, zone, words })),
    patterns,
    events: await eventsOf(database, evaluation, { found, range, zone, words }),
    causes: Object.fromEntries(
      found
        .filter(({ excluded }) => excluded)
        .flatMap(({ number, at }) => {
          const exclusion = exclusions.find(({ from, to }) => from <= at && at <= to);
          return exclusion ? [[number, exclusion.cause]] : [];
        }),
    ),
    names: await namesFor(database, found, ribbonKinds(judged)),
  };
}

/** The single readings behind the points of a chart. */
export async function chartReadings(
  database: Database,
  { history, evaluation }: JudgedFeature,
  range: ShownWindow,
): Promise<ReadingColumns> {
  const { series, setup } = history;
  const found = chartPoints(evaluation, { series, setup, patterns: [], window: range });
  const pieces = found.flatMap((point) => point.readings.map((reading) => reading.piece));
  return readingColumns(found, { from: range.from, serials: await namesOf(database, "piece", pieces) });
}

/** A pattern may go on for years; of what lies outside of the stretch its ends are enough. */
function shortened(pattern: Pattern, { from, to }: ShownWindow): Pattern {
  const { members } = pattern;
  const last = members.length - 1;
  return {
    ...pattern,
    members: members.filter((member, i) => i === 0 || i === last || (member >= from && member <= to)),
  };
}

const ribbonKinds = onceJudged(({ history: { series } }): RibbonKind[] => [
  ...(isStated(series.lot) ? ["lot" as const] : []),
  ...kindsStated(series),
]);

/** Where no resolution is stated, sigma tells what is worth showing: two digits of it. */
function placesFor({ versions }: Evaluation): number {
  const sigma = versions.at(-1)?.sigma ?? 0;
  if (!(sigma > 0)) return placesOf(null);
  return Math.min(MOST_PLACES, Math.max(0, 1 - Math.floor(Math.log10(sigma))));
}

const MOST_PLACES = 8;

function phaseView(
  { from, to, version }: { from: number; to: number; version: number },
  {
    versions,
    limits,
    zone,
    words: { features, times },
  }: { versions: readonly LimitsVersion[]; limits: readonly LimitsRow[]; zone: string; words: Words },
): PhaseView {
  const { marks } = features;
  const judged = versions[version];
  if (!judged || judged.version === TRIAL_VERSION) return { from, to, label: marks.trial };
  const frozen = limits.find((row) => row.version === judged.version);
  const day = frozen ? dayIn(frozen.frozenAt, zone, times) : null;
  return { from, to, label: marks.limits(judged.version, day) };
}

async function eventsOf(
  database: Database,
  { points }: Evaluation,
  {
    found,
    range,
    zone,
    words: { features, trade, times },
  }: { found: readonly ChartPoint[]; range: ShownWindow; zone: string; words: Words },
): Promise<EventView[]> {
  const last = found.at(-1);
  if (!last) return [];
  const from = eventsFrom({ at: points.at, window: range });
  const events = await sourceEvents(database, { from, to: last.at });
  return events.flatMap((event): EventView[] => {
    const place = placeOfEvent(event.at, { at: points.at, window: range });
    if (place === null) return [];
    const what = features.marks.event(event.code, trade.events[event.event]);
    const title = features.marks.noted(what, shortMomentIn(event.at, zone, times), event.note);
    return [{ id: event.id, kind: event.kind, sourceId: event.sourceId, place, label: what, title }];
  });
}

async function namesFor(
  database: Database,
  found: readonly ChartPoint[],
  kinds: readonly RibbonKind[],
): Promise<ChartStretch["names"]> {
  const names = {} as ChartStretch["names"];
  for (const kind of ["lot", "fixture", "tool", "machine", "gauge", "operator", "setup"] as const) {
    const ids = kinds.includes(kind) ? found.map((point) => point.sources[kind]).filter((id) => id > 0) : [];
    names[kind] = Object.fromEntries(await namesOf(database, kind, ids));
  }
  return names;
}

function markerOf(
  { points }: Evaluation,
  { from, zone, words }: { from: number | null; zone: string; words: Words },
): ChartFacts["marker"] {
  if (from === null || points.count === 0) return null;
  const place = placeOfEvent(from - 1, { at: points.at, window: { from: 0, to: points.count - 1 } });
  return place === null ? null : { place, label: words.features.marks.since(dayIn(from, zone, words.times)) };
}

/** The subgroups behind the limits in force. */
const baselineOf = onceJudged(({ history, evaluation }): ShownWindow | null => {
  const { points, progress } = evaluation;
  const frozen = history.limits.find((row) => row.version === progress.limits?.version);
  if (!frozen) return null;
  const from = points.at.findIndex((at) => at >= frozen.baselineFrom);
  const to = points.at.findLastIndex((at) => at <= frozen.baselineTo);
  return from < 0 || to < from ? null : { from, to };
});
