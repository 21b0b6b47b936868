import type { Pattern } from "../evaluation/patterns";
import type { ChartKind } from "../plan/feature-plan";
import type { RuleWords } from "../rules/rule";
import { axisSpans } from "./axis-spans";
import { type Bracket, bracketsOf } from "./brackets";
import { phraseRoom } from "./chart-layout";
import type { LimitRun } from "./limit-runs";
import { type DrawnPoint, type PointColumns, pointsOf } from "./point-columns";
import { MIXED, type RibbonKind, type RibbonRun, ribbonRuns } from "./ribbons";
import { roundSpan, type Span } from "./scale";
import type { ShownWindow } from "./shown-window";

/*
 * A long history reaches the browser in stretches. What a chart draws of a window follows from the stretch that holds
 * it, so that who moves about within a stretch waits for nobody.
 */

/** A phase with the words that stand over it. */
export type PhaseView = { from: number; to: number; label: string };

/** A tool change, repair or calibration: `place` among the subgroups, half a place before the next one. */
export type EventView = {
  id: number;
  kind: RibbonKind;
  sourceId: number;
  place: number;
  label: string;
  title: string;
};

/** What holds for the chart wherever it is; words are in the page's language. */
export type ChartFacts = {
  featureId: number;
  /** Of the part, as pages name it. */
  part: string;
  unit: string;
  chart: ChartKind;
  /** Decimals of readings; means and limits show one more. */
  places: number;
  /** The plant's, for moments. */
  zone: string;
  /** Subgroups in the whole history. */
  count: number;
  /** Sources that any reading states. */
  kinds: RibbonKind[];
  /** Subgroups behind the limits in force. */
  baseline: ShownWindow | null;
  marker: { place: number; label: string } | null;
  isReduced: boolean;
};

/** Neighbouring subgroups with all that is drawn and told of them. */
export type ChartStretch = ShownWindow & {
  columns: PointColumns;
  runs: LimitRun[];
  phases: PhaseView[];
  /** Those with members in the stretch; of the others of their members only the first and the last. */
  patterns: Pattern[];
  events: EventView[];
  /** Why subgroups were left out, by their number. */
  causes: Record<number, string>;
  /** Codes behind the ids that appear, by kind. */
  names: Record<RibbonKind, Record<number, string>>;
};

/** One thin row under the chart. */
export type RibbonView = { kind: RibbonKind; runs: RibbonRun[]; events: EventView[] };

/** Everything that the chart draws. */
export type ChartView = Omit<ChartFacts, "kinds" | "featureId"> &
  Pick<ChartStretch, "runs" | "phases" | "patterns" | "names"> & {
    window: ShownWindow;
    points: (DrawnPoint & { cause: string | null })[];
    brackets: Bracket[];
    ribbons: RibbonView[];
    /** On which limits and most points can be read, and which hold every point; the same where that can be read. */
    domains: { location: Span; spread: Span };
    wholeDomains: { location: Span; spread: Span };
    lanes: { location: number; spread: number };
  };

/** Room above and below the points, as a share of what they span. */
const MARGIN = 0.08;

/** The part of a stretch that a chart of this window draws. The window lies within the stretch. */
export function viewOf(
  { kinds, featureId: _, ...facts }: ChartFacts,
  stretch: ChartStretch,
  { window, words }: { window: ShownWindow; words: RuleWords },
): ChartView {
  const points = pointsOf(stretch.columns, window).map((point) => ({
    ...point,
    cause: stretch.causes[point.number] ?? null,
  }));
  const runs = clipped(stretch.runs, window);
  const patterns = stretch.patterns.filter(
    ({ members }) => members.at(-1)! >= window.from && members[0]! <= window.to,
  );
  const brackets = bracketsOf(patterns, { window, room: phraseRoom(window), words });
  const lanesOn = (chart: Pattern["chart"]) =>
    brackets
      .filter(({ pattern }) => pattern.chart === chart)
      .reduce((most, { lane }) => Math.max(most, lane + 1), 0);
  const isLast = window.to === facts.count - 1;
  // Behind the last point there is room only at the end of the history: elsewhere the place is the next window's.
  const isWithin = ({ place }: { place: number }) =>
    place >= window.from - 0.5 && (place < window.to + 0.5 || isLast);
  return {
    ...facts,
    window,
    points,
    runs,
    phases: clipped(stretch.phases, window),
    patterns,
    brackets,
    ribbons: kinds.map((kind) => {
      const ids = points.map((point) => point.sources[kind]);
      const present = new Set(ids);
      return {
        kind,
        runs: ribbonRuns(ids, window.from),
        events: stretch.events.filter(
          (event) =>
            event.kind === kind && isWithin(event) && (present.has(event.sourceId) || present.has(MIXED)),
        ),
      };
    }),
    names: stretch.names,
    baseline: facts.baseline && (clipped([facts.baseline], window)[0] ?? null),
    marker: facts.marker && isWithin(facts.marker) ? facts.marker : null,
    ...domainsOf(points, runs),
    lanes: { location: lanesOn("location"), spread: lanesOn("spread") },
  };
}

/** Where the axes of a chart begin and end. */
export type Domains = ChartView["domains"];

/** Below such a share of an axis its points would lie too close to each other. */
const LEAST_OF_AN_AXIS = 0.6;

/**
 * Axes for who moves on: as they were, or longer, while what is shown fills enough of them. An axis that followed every
 * point would move under who compares one window with the next.
 */
export function calmDomains(before: Domains, wanted: Domains): Domains {
  const location = calmSpan(before.location, wanted.location);
  const spread = calmSpan(before.spread, wanted.spread);
  return location === before.location && spread === before.spread ? before : { location, spread };
}

function calmSpan(before: Span, wanted: Span): Span {
  if (before.low <= wanted.low && before.high >= wanted.high) {
    return isFilled(before, wanted) ? before : wanted;
  }
  const both = { low: Math.min(before.low, wanted.low), high: Math.max(before.high, wanted.high) };
  return isFilled(both, wanted) ? both : wanted;
}

function isFilled(axis: Span, { low, high }: Span): boolean {
  return high - low >= LEAST_OF_AN_AXIS * (axis.high - axis.low);
}

/** The parts of stretches that lie in a window. */
export function clipped<Part extends ShownWindow>(parts: readonly Part[], window: ShownWindow): Part[] {
  return parts
    .filter(({ from, to }) => to >= window.from && from <= window.to)
    .map((part) => ({ ...part, from: Math.max(part.from, window.from), to: Math.min(part.to, window.to) }));
}

function domainsOf(
  points: readonly DrawnPoint[],
  runs: readonly LimitRun[],
): Pick<ChartView, "domains" | "wholeDomains"> {
  const location = axisSpans(
    points.map((point) => point.mean),
    { kept: runs.flatMap((run) => [run.location.lower, run.location.upper]), margin: MARGIN },
  );
  const spread = axisSpans(
    points.flatMap((point) => point.spread ?? []),
    { kept: [0, ...runs.flatMap((run) => run.spread?.upper ?? [])], margin: MARGIN },
  );
  // Where nothing spreads the axis is as long as the one above: from 0 to 1 would be another scale altogether.
  const isSpread = points.some((point) => point.spread) || runs.some((run) => run.spread);
  const fromZero = (span: Span, above: Span): Span => ({
    low: 0,
    high: roundSpan(isSpread ? span : { low: 0, high: above.high - above.low }).high,
  });
  return {
    domains: { location: roundSpan(location.near), spread: fromZero(spread.near, location.near) },
    wholeDomains: { location: roundSpan(location.whole), spread: fromZero(spread.whole, location.whole) },
  };
}
