import { criticalErrors, type FeatureStep, type FoundStep, findStep, NAMED, seriesOf } from "./find-step";
import { type HistoryEvent, lotCells, type PartCells, type SourceRows } from "./lot-cells";
import { type Distrust, levelsOf } from "./neighbours";
import { type StepPoint, stepBetween } from "./step-split";

/** How a source that ran beside a moved one did meanwhile, by its own readings, lots not taken out. */
export type NeighbourChange = {
  source: number;
  /** Over the features that moved with the source named, in sigma. */
  difference: number;
  standardError: number;
  /** Within three standard errors of no change. */
  flat: boolean;
};

export type Change = Omit<FoundStep, "lot" | "lastBefore" | "named" | "explained"> & {
  /** Ids of the first lot after the change and of the last compared one before it. */
  since: number;
  lastBefore: number;
  /** Moment of the first reading of the lot `since`, UTC ms. */
  sinceAt: number;
  neighbours: NeighbourChange[];
  /** Sources that explain the same lots as well by having moved the other way. */
  rivals: number[];
};

export type SourceChange = {
  source: number;
  /** Moment of the event that began what is compared; null when nothing was logged. */
  historyFrom: number | null;
  /** Lots since then in which it ran, and in which another source ran beside it. */
  lots: number;
  lotsCompared: number;
  /** Features compared. */
  features: number;
} & (
  | { state: "moved"; change: Change }
  | { state: "quiet"; reach: Reach | null }
  /** Nothing ever ran beside it. */
  | { state: "alone" }
  /** Something ran beside it, in too few lots. */
  | { state: "too-few"; needed: number }
);

/** The smallest step that would have been named for a middling feature, had it come `lots` compared lots ago. */
export type Reach = { lots: number; sigma: number };

export type RecentChanges = {
  /** In time order. */
  lots: number[];
  lotsFrom: number[];
  /** Moved ones first, what explains most leading; then quiet ones and those that cannot be judged. */
  sources: SourceChange[];
  /** Changes that an event has ended: what the source did before it. */
  ended: { source: number; until: number; change: Change }[];
};

const MOST_CHANGES = 12;
const RIVAL_SHARE = 0.9;
const REACH_LOTS = 5;
const FLAT_ERRORS = 3;

/**
 * Which source of one kind has moved lately, whatever the lots did?
 *
 * Every source is compared only with the others in the same lot, feature by feature, and each is searched for
 * the one step that best explains it (`findStep`). It is named when at least two features (a tool: one) lie
 * beyond 4 standard errors in the same direction, and their mean does as well and is 0.35 sigma or more. With
 * hundreds of possible lots, a dozen features and several sources searched, 2 or 3 standard errors turn up by
 * themselves every day; 4 in two features at the same lot hardly ever do.
 *
 * When one source moves, its neighbours seem to move the other way. So the source that explains most is taken
 * first; from its lot on it is no yardstick for the features that moved, and the rest is searched again. Where
 * two explain the same within a tenth, the one whose own readings moved is taken and the other is kept as a rival.
 *
 * An event on a source (changed, repaired, adjusted, calibrated, moved) begins its history anew: earlier lots are
 * not compared with later ones, neither for it nor, through it, for its neighbours.
 *
 * This is the simple forerunner of a scan that weighs all kinds of sources against each other: it sees one step
 * for each history, no slow drift as such, and nothing where a source is always alone. Thresholds: common
 * practice, no source. Differences are those of features picked because they moved, so somewhat too large.
 *
 * @throws InvalidInput when lengths differ or a value is not a finite number
 */
export function recentChanges({
  features,
  isTool = false,
  events = [],
}: {
  features: readonly SourceRows[];
  /** A tool cuts few features, often one; then one is enough to name it. */
  isTool?: boolean;
  events?: readonly HistoryEvent[];
}): RecentChanges {
  const part = lotCells(features, { events });
  const search = startSearch(part, isTool ? 1 : NAMED.features);
  const found = new Map<number, FoundStep & { rivals: number[] }>();
  while (found.size < MOST_CHANGES) {
    const next = strongest(search, [...found.keys()]);
    if (!next) break;
    found.set(next.history, next);
    for (const { feature, moved } of next.features) {
      if (moved) search.distrusted.push({ history: next.history, feature, fromLot: next.lot });
    }
  }

  const changes = [...found].map(([history, step]) => ({ history, change: changeOf(part, history, step) }));
  const moved = changes.filter(({ history }) => part.histories[history]!.isCurrent);
  const rest = [...new Set(part.histories.map(({ source }) => source))].filter((source) =>
    moved.every(({ history }) => part.histories[history]!.source !== source),
  );
  const last = (source: number) => lastEvent(events, source);
  return {
    lots: part.lots,
    lotsFrom: part.lotsFrom,
    sources: [
      ...moved.map(({ history, change }): SourceChange => {
        const { source } = part.histories[history]!;
        return { ...extentOf(part, source, last(source)), state: "moved", change };
      }),
      ...rest.map((source) => unmoved(search, source, last(source))).sort(byState),
    ],
    ended: changes
      .filter(({ history }) => !part.histories[history]!.isCurrent)
      .map(({ history, change }) => {
        const { source, from } = part.histories[history]!;
        const until = Math.min(
          ...events
            .filter((one) => one.source === source && one.at > (from ?? -Infinity))
            .map(({ at }) => at),
        );
        return { source, until, change };
      }),
  };
}

type Search = { part: PartCells; levels: Float64Array[]; distrusted: Distrust[]; needed: number };

function startSearch(part: PartCells, needed: number): Search {
  const levels = part.features.map((cells) => levelsOf(cells, part.histories.length));
  return { part, levels, distrusted: [], needed };
}

/** The named step that explains most among histories not taken yet, with those that explain it as well. */
function strongest(search: Search, taken: readonly number[]) {
  const { part } = search;
  const named = part.histories.flatMap((_, history) => {
    if (taken.includes(history)) return [];
    const step = findStep(part, { ...search, history });
    return step?.named ? [{ history, ...step }] : [];
  });
  named.sort((a, b) => b.explained - a.explained);
  const first = named[0];
  if (!first) return null;
  const candidates = named
    .filter((one) => one.explained >= RIVAL_SHARE * first.explained && overlaps(one, first))
    .map((one) => ({ ...one, own: ownChange(part, one.history, one) }))
    .sort((a, b) => errorsOf(b.own) - errorsOf(a.own));
  const [chosen, ...others] = candidates;
  if (!chosen) return null;
  const rivals = others
    .filter(({ own }) => errorsOf(chosen.own) < NAMED.errors || errorsOf(own) > FLAT_ERRORS)
    .map(({ history }) => part.histories[history]!.source);
  return { ...chosen, rivals };
}

function overlaps(one: FoundStep, other: FoundStep): boolean {
  if (one === other) return true;
  const features = new Set(movedOf(other).map(({ feature }) => feature));
  return movedOf(one).some(({ feature }) => features.has(feature));
}

function movedOf(step: { features: readonly FeatureStep[] }): FeatureStep[] {
  return step.features.filter(({ moved }) => moved);
}

function errorsOf(change: { difference: number; standardError: number } | null): number {
  return change === null ? 0 : Math.abs(change.difference) / change.standardError;
}

/**
 * How a history's own means changed at a lot, over the features that moved in a step and along it, in sigma.
 * What lots differ by is in it, as scatter that widens the error.
 */
function ownChange(part: PartCells, history: number, step: FoundStep) {
  const along = new Map(
    movedOf(step).map((one) => [
      one.feature,
      { sigma: one.sigma, sign: Math.sign(one.difference) * step.direction },
    ]),
  );
  const chosen = part.features.filter(({ feature }) => along.has(feature));
  const earlier: StepPoint[] = [];
  const later: StepPoint[] = [];
  // From a usual mean of each feature, so that features missing in a lot do not shift its mean.
  const usual = new Map(chosen.map((cells) => [cells.feature, usualMean(cells.byLot, history)]));
  for (let lot = 0; lot < part.lots.length; lot++) {
    let count = 0;
    let deviation = 0;
    let variance = 0;
    for (const { feature, byLot } of chosen) {
      const cell = byLot[lot]!.find((one) => one.history === history);
      const { sigma, sign } = along.get(feature)!;
      if (!cell) continue;
      count++;
      deviation += (sign * (cell.mean - usual.get(feature)!)) / sigma;
      variance += 1 / cell.count;
    }
    if (count === 0) continue;
    const point = { deviation: deviation / count, information: (count * count) / variance };
    (lot < step.lot ? earlier : later).push(point);
  }
  return stepBetween(earlier, later);
}

function usualMean(byLot: PartCells["features"][number]["byLot"], history: number): number {
  let count = 0;
  let mean = 0;
  for (const lot of byLot) {
    for (const cell of lot) {
      if (cell.history !== history) continue;
      count += cell.count;
      mean += (cell.count / count) * (cell.mean - mean);
    }
  }
  return mean;
}

function changeOf(part: PartCells, history: number, step: FoundStep & { rivals: number[] }): Change {
  const { lot, lastBefore, named: _, explained: __, ...rest } = step;
  const { source } = part.histories[history]!;
  const neighbours = part.histories.flatMap((other, place): NeighbourChange[] => {
    if (other.source === source || !ranBeside(part, place, history, lot)) return [];
    const own = ownChange(part, place, step);
    if (!own) return [];
    const { difference, standardError } = own;
    const flat = Math.abs(difference) <= FLAT_ERRORS * standardError;
    return [{ source: other.source, difference, standardError, flat }];
  });
  return {
    ...rest,
    since: part.lots[lot]!,
    lastBefore: part.lots[lastBefore]!,
    sinceAt: part.lotsFrom[lot]!,
    neighbours,
  };
}

function ranBeside(part: PartCells, one: number, other: number, fromLot: number): boolean {
  return part.features.some(({ byLot }) =>
    byLot
      .slice(fromLot)
      .some(
        (lot) => lot.some(({ history }) => history === one) && lot.some(({ history }) => history === other),
      ),
  );
}

function unmoved(search: Search, source: number, from: number | null): SourceChange {
  const { part } = search;
  const extent = extentOf(part, source, from);
  const wasEverBeside = part.features.some(({ byLot }) =>
    byLot.some((lot) => {
      const sources = new Set(lot.map(({ history }) => part.histories[history]!.source));
      return sources.has(source) && sources.size > 1;
    }),
  );
  if (!wasEverBeside) return { ...extent, state: "alone" };
  const needed = NAMED.lotsBefore + NAMED.lotsAfter;
  if (extent.lotsCompared < needed) return { ...extent, state: "too-few", needed };
  const history = part.histories.findIndex((one) => one.source === source && one.isCurrent);
  return { ...extent, state: "quiet", reach: history < 0 ? null : reachOf(search, history) };
}

/** The step that the middle one of the features could have hidden. */
function reachOf({ part, levels }: Search, history: number): Reach | null {
  const smallest: { lots: number; sigma: number }[] = [];
  for (const { cells, contrasts } of seriesOf(part, { history, levels, distrusted: [] })) {
    const lots = Math.min(REACH_LOTS, contrasts.length - NAMED.lotsBefore);
    if (lots < NAMED.lotsAfter) continue;
    const points = contrasts.map(({ adjusted, information }) => ({
      deviation: adjusted / cells.sigma!,
      information,
    }));
    const step = stepBetween(points.slice(0, -lots), points.slice(-lots));
    if (!step) continue;
    const sigma = Math.max(
      NAMED.least,
      criticalErrors(NAMED.errors, cells.degreesOfFreedom) * step.standardError,
    );
    smallest.push({ lots, sigma });
  }
  smallest.sort((a, b) => a.sigma - b.sigma);
  return smallest[Math.floor(smallest.length / 2)] ?? null;
}

function extentOf(part: PartCells, source: number, from: number | null) {
  const history = part.histories.findIndex((one) => one.source === source && one.isCurrent);
  const ran = new Set<number>();
  const compared = new Set<number>();
  let features = 0;
  for (const { byLot } of part.features) {
    let isCompared = false;
    for (const [lot, cells] of byLot.entries()) {
      if (!cells.some((cell) => cell.history === history)) continue;
      ran.add(lot);
      if (cells.every((cell) => part.histories[cell.history]!.source === source)) continue;
      compared.add(lot);
      isCompared = true;
    }
    if (isCompared) features++;
  }
  return { source, historyFrom: from, lots: ran.size, lotsCompared: compared.size, features };
}

function lastEvent(events: readonly HistoryEvent[], source: number): number | null {
  return events.reduce<number | null>(
    (last, one) => (one.source === source && (last === null || one.at > last) ? one.at : last),
    null,
  );
}

const STATES = ["moved", "quiet", "too-few", "alone"] as const;

function byState(a: SourceChange, b: SourceChange): number {
  return STATES.indexOf(a.state) - STATES.indexOf(b.state);
}
