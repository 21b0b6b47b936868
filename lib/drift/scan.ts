import { aliasedSources } from "./aliases";
import type { Prepared } from "./design";
import { type LotAxis, lotAxis } from "./lot-axis";
import { effectError, effectOf, type FeatureShift, featureShifts, movedFeatures } from "./magnitude";
import { type ChangeKind, type ScannedSource, sourceKey } from "./measured-part";
import { type Onset, onsetOf } from "./onset";
import { type Explained, NOTHING_EXPLAINED, onItsOwnTerms, type TableScan } from "./scan-table";
import { LEAST_EFFECT, LEAST_FEATURES, LOT_THRESHOLD, MOST_FLAGS, THRESHOLD } from "./settings";
import { type Candidate, logMean, type WeighedSource, weighSources } from "./weigh-sources";

/** Another source that could have done it. */
export type Rival = {
  source: ScannedSource;
  /** It ran on the same pieces: only the pattern over features speaks for one or the other. */
  aliased: boolean;
  /** By how much the data favour the source named first, in log evidence. Below 3 they cannot tell. */
  patternGap: number;
};

/** A source that moved, before it is put into words. */
export type Finding = {
  source: ScannedSource;
  kind: ChangeKind;
  variant: Candidate["variant"];
  life: number;
  onset: Onset;
  logEvidence: number;
  sources: number;
  /** In sigma; null for scatter. */
  effect: number | null;
  shifts: FeatureShift[];
  rivals: Rival[];
  candidate: Candidate;
  /** The onsets that were weighed, for the interval and the forecast. */
  onsets: Candidate[];
  /** State of the tables in which it was found. */
  scans: readonly TableScan[];
};

export type RawScan = {
  axis: LotAxis;
  flags: Finding[];
  silent: Finding[];
  /** The sources as weighed before anything was explained. */
  weighed: WeighedSource[];
  sources: number;
  scans: readonly TableScan[];
};

export type TableScanner = (prepared: Prepared, explained: Explained, before: TableScan | null) => TableScan;

/**
 * Finds the sources that moved, one after another.
 *
 * A source passes when its log evidence exceeds log(number of sources) + 1.5. Of those that pass, the one that
 * explains the data best goes into the model and everything is weighed anew, so that one fault is named once and
 * its echoes in crossing sources vanish. If the model were exact, Markov's inequality alone would bound the
 * chance of a false flag by e^−1.5; the simulated rate is far lower (README.md).
 *
 * Source: e-values, Vovk and Wang, Annals of Statistics 49 (2021) 1736-1754 (from memory).
 */
export function scanPrepared(every: readonly Prepared[], scanOne: TableScanner): RawScan {
  const prepared = every.filter(({ features }) => features.length > 0);
  const axis = lotAxis(prepared.map(({ table }) => table));
  let scans = prepared.map((one) => scanOne(one, NOTHING_EXPLAINED, null));
  const first = scans;
  const flags: Finding[] = [];
  const silent: Finding[] = [];
  let weighed = weighSources(scans, axis);
  const before = weighed;
  let sources = 0;
  for (let round = 0; round < MOST_FLAGS + 4 && flags.length < MOST_FLAGS; round++) {
    if (round > 0) weighed = weighSources(scans, axis);
    const decision = decide(weighed);
    if (round === 0) sources = decision.sources;
    const found = decision.found ?? secondLook(weighed, { scans, axis, scanOne });
    if (found === null) break;
    const finding = findingOf(found, weighed, { scans, axis, sources: decision.sources });
    (isSilent(finding) || isEcho(finding, flags) ? silent : flags).push(finding);
    const now = scans;
    scans = now.map((scan, t) => {
      const explained = explainedAfter(scan, finding, t);
      return explained === null ? scan : scanOne(scan.prepared, explained, scan);
    });
  }
  return {
    axis,
    flags: onePerSource(flags),
    silent,
    weighed: before,
    sources,
    scans: first,
  };
}

/** The evidence of one lot is shared among all lots that might have been different. */
export function penalty(weighed: readonly WeighedSource[]): (one: WeighedSource) => number {
  const lots = weighed.filter(({ source }) => source.kind === "lot").length;
  return ({ source }) => (source.kind === "lot" ? Math.log(lots) : 0);
}

/** Sources share one budget of false flags; lots have one of their own. */
function decide(weighed: readonly WeighedSource[]): { sources: number; found: WeighedSource | null } {
  const sources = weighed.filter(({ source }) => source.kind !== "lot").length;
  const share = penalty(weighed);
  let found: WeighedSource | null = null;
  for (const one of weighed) {
    if (one.tempered - share(one) < thresholdFor(one.source, sources)) continue;
    if (found === null || one.plain - share(one) > found.plain - share(found)) found = one;
  }
  return { sources, found };
}

/** A second look is worth its while where the evidence falls short by no more than this. */
const WORTH_A_LOOK = 6;
/** How much clearer a source must be on a second look, which takes out of the scatter whatever fits it best. */
const SECOND_LOOK = 3;
/** Lots that wander look just like a machine or a process that moves: what fits best would always win. */
const NO_SECOND_LOOK: readonly string[] = ["machine", "process", "temperature"];

/**
 * Where no source passes: the one that explains the data best, weighed once more on its own terms
 * (see `onItsOwnTerms`), if it passes then.
 */
function secondLook(
  weighed: readonly WeighedSource[],
  { scans, axis, scanOne }: { scans: readonly TableScan[]; axis: LotAxis; scanOne: TableScanner },
): WeighedSource | null {
  const sources = weighed.filter(({ source }) => source.kind !== "lot").length;
  const share = penalty(weighed);
  let best: WeighedSource | null = null;
  for (const one of weighed) {
    if (NO_SECOND_LOOK.includes(one.source.kind)) continue;
    const needed = thresholdFor(one.source, sources) + share(one);
    if (one.plain < needed || one.tempered < needed - WORTH_A_LOOK) continue;
    if (best === null || one.plain - share(one) > best.plain - share(best)) best = one;
  }
  if (best === null) return null;
  const { source } = best;
  const candidate = best.candidates.reduce((a, b) => (b.plain > a.plain ? b : a));
  if (candidate.kind === "spread") return null;
  const again = scans.map((scan, t) => {
    const place = candidate.places.find(({ table }) => table === t);
    if (place === undefined) return scan;
    const hypotheses = [...scan.explained.hypotheses, place.k];
    return onItsOwnTerms(scan, scanOne(scan.prepared, { ...scan.explained, hypotheses }, scan), source);
  });
  const [own] = weighSources(again, axis, source);
  const needed = thresholdFor(source, sources) + (source.kind === "lot" ? 0 : SECOND_LOOK);
  return own !== undefined && own.tempered - share(own) >= needed ? own : null;
}

export function thresholdFor({ kind }: ScannedSource, sources: number): number {
  return kind === "lot" ? LOT_THRESHOLD : THRESHOLD + Math.log(Math.max(1, sources));
}

function findingOf(
  found: WeighedSource,
  weighed: readonly WeighedSource[],
  state: { scans: readonly TableScan[]; axis: LotAxis; sources: number },
): Finding {
  const share = penalty(weighed);
  const logEvidence = found.tempered - share(found);
  const plain = found.plain - share(found);
  const onsets = likeliestKind(found.candidates, state.scans);
  const candidate = onsets.reduce((a, b) => (b.tempered > a.tempered ? b : a));
  const temper = Math.max(1, plain / Math.max(logEvidence, 1e-6));
  const gap = (one: WeighedSource) => (plain - (one.plain - share(one))) / temper;
  const aliased = new Set(aliasedSources(candidate, weighed, state.scans).map(sourceKey));
  const touched = new Set(candidate.places.flatMap((place) => featuresAt(place, candidate, state.scans)));
  const rivals = weighed
    .filter((one) => sourceKey(one.source) !== sourceKey(found.source))
    .map((one) => ({ source: one.source, aliased: aliased.has(sourceKey(one.source)), patternGap: gap(one) }))
    .filter(
      (rival) =>
        rival.aliased ||
        (rival.patternGap < RIVAL_GAP && touches(rival.source, touched, { weighed, scans: state.scans })),
    )
    .sort((a, b) => a.patternGap - b.patternGap);
  const shifts = candidate.kind === "spread" ? [] : featureShifts(state.scans, candidate);
  return {
    source: found.source,
    kind: candidate.kind,
    variant: candidate.variant,
    life: candidate.life,
    onset: inOwnLots(onsetOf(onsets, state), candidate, state.axis),
    logEvidence,
    sources: state.sources,
    effect: candidate.kind === "spread" ? null : effectOf(state.scans, candidate, shifts),
    shifts,
    rivals,
    candidate,
    onsets,
    scans: state.scans,
  };
}

/** Ends of the interval as lots of the parts concerned: the axis holds those of all parts. */
function inOwnLots(onset: Onset, { places }: Candidate, { indexOf }: LotAxis): Onset {
  const own = places.flatMap(({ table }) => [...indexOf[table]!]);
  const from = Math.min(onset.likeliest, ...own.filter((lot) => lot >= onset.from));
  const to = Math.max(onset.likeliest, ...own.filter((lot) => lot <= onset.to));
  return { ...onset, from, to };
}

/** What two sources have both moved is another matter than which of two moved it: a rival is on the same features. */
function touches(
  source: ScannedSource,
  touched: ReadonlySet<string>,
  { weighed, scans }: { weighed: readonly WeighedSource[]; scans: readonly TableScan[] },
): boolean {
  const key = sourceKey(source);
  const candidates = weighed.find((one) => sourceKey(one.source) === key)?.candidates ?? [];
  return candidates.some((one) =>
    one.places.some((place) => featuresAt(place, one, scans).some((feature) => touched.has(feature))),
  );
}

/** Features in scope of a hypothesis, by table and index. */
function featuresAt(
  { table, k }: Candidate["places"][number],
  { kind }: Candidate,
  scans: readonly TableScan[],
): string[] {
  const { hypotheses, spread, prepared } = scans[table]!;
  if (kind === "spread") {
    const moved = spread.moved[k]?.map(({ feature }) => feature) ?? prepared.features.map((_, f) => f);
    return moved.map((f) => `${table}|${f}`);
  }
  return hypotheses.carriers[hypotheses.all[k]!.carrier]!.scope.map((f) => `${table}|${f}`);
}

/** Gaps below it are listed as rivals. */
const RIVAL_GAP = 3;

/** Shifts beyond this many sigma are far from the usual ones, which the evidence reckons with. */
const FAR = 5;

/**
 * Candidates of the kind of change that explains most in all. Where features have gone far it is the kind that fits
 * best: evidence made for shifts of about a sigma would take what is known best.
 */
function likeliestKind(candidates: readonly Candidate[], scans: readonly TableScan[]): Candidate[] {
  const kinds = new Map<ChangeKind, Candidate[]>();
  for (const candidate of candidates) {
    kinds.set(candidate.kind, [...(kinds.get(candidate.kind) ?? []), candidate]);
  }
  const total = (ofKind: readonly Candidate[]) => logMean(ofKind.map(({ tempered }) => tempered));
  const likeliest = [...kinds.values()].reduce((a, b) => (total(b) > total(a) ? b : a));
  const best = likeliest.reduce((a, b) => (b.tempered > a.tempered ? b : a));
  if (best.kind === "spread" || farthest(best, scans) < FAR) return likeliest;
  const shifts = candidates.filter(({ kind }) => kind !== "spread");
  const fits = shifts.map((candidate) => explainedSquares(candidate, scans));
  return kinds.get(shifts[fits.indexOf(Math.max(...fits))]!.kind)!;
}

function testsOf({ places }: Candidate, scans: readonly TableScan[]): { t: number; information: number }[] {
  return places.flatMap(({ table, k }) => {
    const { tests, hypotheses } = scans[table]!;
    const { scope } = hypotheses.carriers[hypotheses.all[k]!.carrier]!;
    return scope.flatMap((f) => {
      const [t, information] = [tests.t[k * tests.features + f]!, tests.information[k * tests.features + f]!];
      return Number.isNaN(t) ? [] : [{ t, information }];
    });
  });
}

function farthest(candidate: Candidate, scans: readonly TableScan[]): number {
  const shifts = testsOf(candidate, scans).map(({ t, information }) => Math.abs(t) / Math.sqrt(information));
  return Math.max(0, ...shifts);
}

function explainedSquares(candidate: Candidate, scans: readonly TableScan[]): number {
  return testsOf(candidate, scans).reduce((sum, { t }) => sum + t * t, 0);
}

/** A tool that cuts at least this many features moves more than one of them. */
const FEATURES_OF_TOOL = 3;
/** Log evidence beyond the threshold at which a doubtful offset of a tool is believed. */
const BEYOND_DOUBT = 5;

/**
 * Too small to matter, or a single feature of many: kept in the model, recorded, not flagged. A part of one feature
 * has no other to agree.
 *
 * Edges are never set quite alike and every edge wears a little. So where a tool's offset does not exceed the least
 * one by its standard error, or one feature of several carries it, the evidence has to be beyond doubt.
 */
function isSilent({ kind, source, effect, shifts, candidate, logEvidence, sources }: Finding): boolean {
  if (kind === "spread" || effect === null) return false;
  if (effect < LEAST_EFFECT) return true;
  if (source.kind === "temperature") return false;
  const moved = movedFeatures(shifts).length;
  if (source.kind !== "tool") return moved < Math.min(LEAST_FEATURES, shifts.length);
  const isAlone = moved < LEAST_FEATURES && shifts.length >= FEATURES_OF_TOOL;
  const isSmall = effect - effectError(candidate) < LEAST_EFFECT;
  return (isAlone || isSmall) && logEvidence < thresholdFor(source, sources) + BEYOND_DOUBT;
}

/** A source that ran on the pieces of one already flagged is named there as its rival, not once more by itself. */
function isEcho({ source }: Finding, flags: readonly Finding[]): boolean {
  const key = sourceKey(source);
  return flags.some(({ rivals }) => rivals.some((rival) => rival.aliased && sourceKey(rival.source) === key));
}

function explainedAfter(scan: TableScan, finding: Finding, table: number): Explained | null {
  const { candidate, kind } = finding;
  const place = candidate.places.find((one) => one.table === table);
  if (place === undefined) return null;
  const { hypotheses, spread } = scan.explained;
  if (kind !== "spread") return { hypotheses: [...hypotheses, place.k], spread };
  return { hypotheses, spread: [...spread, scan.spread.hypotheses[place.k]!] };
}

function onePerSource(flags: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return flags.filter(({ source }) => {
    const key = sourceKey(source);
    const isNew = !seen.has(key);
    seen.add(key);
    return isNew;
  });
}
