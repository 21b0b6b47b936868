import "server-only";
import type { Database } from "../../../db/connection";
import type { FeatureHistory, LimitsRow } from "../../../db/queries/history";
import { namesOf } from "../../../db/queries/history";
import { sourceEvents } from "../../../db/queries/sources";
import { axisSpans } from "../../../lib/chart/axis-spans";
import { bracketsOf } from "../../../lib/chart/brackets";
import { type ChartPoint, chartPoints, kindsStated } from "../../../lib/chart/feature-chart";
import { type LimitRun, limitRuns, phasesOf } from "../../../lib/chart/limit-runs";
import { MIXED, placeOfEvent, type RibbonKind, ribbonRuns } from "../../../lib/chart/ribbons";
import type { Span } from "../../../lib/chart/scale";
import { type ShownWindow, shownWindow } from "../../../lib/chart/shown-window";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { Pattern } from "../../../lib/evaluation/patterns";
import { TRIAL_VERSION } from "../../../lib/evaluation/setup";
import { placesOf, unitSign } from "../../../lib/format/numbers";
import { dayIn, shortMomentIn } from "../../../lib/format/times";
import type { LimitsVersion } from "../../../lib/plan/feature-plan";
import type { Words } from "../../../lib/words/words";
import { words as wordsOfPage } from "../../language/language";
import { phraseRoom } from "./chart-places";
import type { ChartView, EventView, PhaseView, RibbonView } from "./chart-view";
import { type JudgedFeature, onceJudged } from "./judged-feature";

/** Room above and below the points, as a share of what they span. */
const MARGIN = 0.08;

export type ChartQuery = {
  /** First and last subgroup asked for; null for the latest. */
  window: ShownWindow | null;
  /** Moment to be marked; null for none. */
  from: number | null;
};

/** Everything that the chart component draws, with names and times in words. */
export async function loadChart(
  database: Database,
  judged: JudgedFeature,
  { query, zone }: { query: ChartQuery; zone: string },
): Promise<ChartView> {
  const { history, evaluation, patterns } = judged;
  const { feature, series, setup, limits, exclusions } = history;
  const { points, versions } = evaluation;
  const words = await wordsOfPage();
  const window = windowFor(evaluation, query);
  const shown = points.count > 0 ? chartPoints(evaluation, { series, setup, patterns, window }) : [];
  const runs = points.count > 0 ? limitRuns(points, { versions, window }) : [];
  const kinds = ribbonKinds(judged);
  const ribbons = await ribbonsOf(database, evaluation, { shown, kinds, window, zone, words });
  const names = await namesFor(database, shown, kinds);
  const brackets = bracketsOf(patterns, { window, room: phraseRoom(window), words: words.rules });
  const lanesOn = (chart: Pattern["chart"]) =>
    brackets
      .filter((bracket) => bracket.pattern.chart === chart)
      .reduce((most, { lane }) => Math.max(most, lane + 1), 0);

  return {
    unit: unitSign(feature.unit),
    chart: setup.plan.chart,
    places: feature.resolution === null ? placesFor(evaluation) : placesOf(feature.resolution),
    window,
    count: points.count,
    points: shown.map((point) => ({
      ...point,
      when: shortMomentIn(point.at, zone, words.times),
      day: dayIn(point.at, zone, words.times),
      cause: point.excluded ? causeOf(exclusions, point.at) : null,
    })),
    runs,
    phases:
      points.count > 0
        ? phasesOf(points, window).map((phase) => phaseView(phase, { versions, limits, zone, words }))
        : [],
    patterns: patterns.filter(
      ({ members }) => (members.at(-1) ?? -1) >= window.from && (members[0] ?? 0) <= window.to,
    ),
    ribbons,
    names,
    marker: markerOf(evaluation, { query, window, zone, words }),
    baseline: baselineOf(evaluation, { limits, window }),
    ...domainsOf(shown, runs),
    lanes: { location: lanesOn("location"), spread: lanesOn("spread") },
    isReduced: setup.plan.reduction !== null,
  };
}

const ribbonKinds = onceJudged(({ history: { series } }): RibbonKind[] => [
  ...(series.lot.some((id) => id !== 0) ? ["lot" as const] : []),
  ...kindsStated(series),
]);

/** Where no resolution is stated, sigma tells what is worth showing: two digits of it. */
function placesFor({ versions }: Evaluation): number {
  const sigma = versions.at(-1)?.sigma ?? 0;
  if (!(sigma > 0)) return placesOf(null);
  return Math.min(MOST_PLACES, Math.max(0, 1 - Math.floor(Math.log10(sigma))));
}

const MOST_PLACES = 8;

/** A moment to be marked lies a quarter into the window when no window was asked for. */
function windowFor({ points }: Evaluation, { window, from }: ChartQuery): ShownWindow {
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

function causeOf(exclusions: FeatureHistory["exclusions"], at: number): string | null {
  return exclusions.find(({ from, to }) => from <= at && at <= to)?.cause ?? null;
}

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

async function ribbonsOf(
  database: Database,
  { points }: Evaluation,
  {
    shown,
    kinds,
    window,
    zone,
    words: { features, trade, times },
  }: {
    shown: readonly ChartPoint[];
    kinds: readonly RibbonKind[];
    window: ShownWindow;
    zone: string;
    words: Words;
  },
): Promise<RibbonView[]> {
  if (shown.length === 0) return [];
  const events = await sourceEvents(database, {
    from: (shown[0] as ChartPoint).at - DAY_MS,
    to: (shown.at(-1) as ChartPoint).at,
  });
  return kinds.map((kind) => {
    const ids = shown.map((point) => point.sources[kind]);
    const present = new Set(
      shown.flatMap((point) => (point.sources[kind] === MIXED ? [] : [point.sources[kind]])),
    );
    const views = events.flatMap((event): EventView[] => {
      if (event.kind !== kind || !(present.has(event.sourceId) || ids.includes(MIXED))) return [];
      const place = placeOfEvent(event.at, { at: points.at, window });
      if (place === null) return [];
      const what = features.marks.event(event.code, trade.events[event.event]);
      return [
        {
          place,
          label: what,
          title: features.marks.noted(what, shortMomentIn(event.at, zone, times), event.note),
        },
      ];
    });
    return { kind, runs: ribbonRuns(ids, window.from), events: views };
  });
}

const DAY_MS = 86_400_000;

async function namesFor(
  database: Database,
  shown: readonly ChartPoint[],
  kinds: readonly RibbonKind[],
): Promise<ChartView["names"]> {
  const names = {} as ChartView["names"];
  for (const kind of ["lot", "fixture", "tool", "machine", "gauge", "operator", "setup"] as const) {
    const ids = kinds.includes(kind) ? shown.map((point) => point.sources[kind]).filter((id) => id > 0) : [];
    names[kind] = Object.fromEntries(await namesOf(database, kind, ids));
  }
  const pieces = shown.flatMap((point) => point.readings.map((reading) => reading.piece));
  names.piece = Object.fromEntries(await namesOf(database, "piece", pieces));
  return names;
}

function markerOf(
  { points }: Evaluation,
  { query, window, zone, words }: { query: ChartQuery; window: ShownWindow; zone: string; words: Words },
): ChartView["marker"] {
  if (query.from === null || points.count === 0) return null;
  const place = placeOfEvent(query.from - 1, { at: points.at, window });
  return place === null
    ? null
    : { place, label: words.features.marks.since(dayIn(query.from, zone, words.times)) };
}

function baselineOf(
  { points, progress }: Evaluation,
  { limits, window }: { limits: readonly LimitsRow[]; window: ShownWindow },
): ShownWindow | null {
  const frozen = limits.find((row) => row.version === progress.limits?.version);
  if (!frozen) return null;
  let from = -1;
  let to = -1;
  for (let number = window.from; number <= window.to; number++) {
    const at = points.at[number] as number;
    if (at < frozen.baselineFrom || at > frozen.baselineTo) continue;
    if (from < 0) from = number;
    to = number;
  }
  return from < 0 ? null : { from, to };
}

function domainsOf(
  shown: readonly ChartPoint[],
  runs: readonly LimitRun[],
): Pick<ChartView, "domains" | "wholeDomains"> {
  const location = axisSpans(
    shown.map((point) => point.mean),
    { kept: runs.flatMap((run) => [run.location.lower, run.location.upper]), margin: MARGIN },
  );
  const spread = axisSpans(
    shown.flatMap((point) => point.spread ?? []),
    { kept: [0, ...runs.flatMap((run) => run.spread?.upper ?? [])], margin: MARGIN },
  );
  const fromZero = ({ high }: Span): Span => ({ low: 0, high });
  return {
    domains: { location: location.near, spread: fromZero(spread.near) },
    wholeDomains: { location: location.whole, spread: fromZero(spread.whole) },
  };
}
