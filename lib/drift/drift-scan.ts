import { drift as english } from "../words/en/drift";
import { differenceCharts, type LotDifference } from "./difference-chart";
import { type EventShift, eventShifts } from "./event-shifts";
import { type Forecast, forecastOf } from "./forecast";
import { type FeatureShift, movedFeatures } from "./magnitude";
import {
  type ChangeKind,
  type CodeOf,
  type MeasuredPart,
  type ScannedKind,
  type ScannedSource,
  type SourceEvent,
  sourceKey,
} from "./measured-part";
import { type Finding, penalty, type RawScan, scanPrepared, thresholdFor } from "./scan";
import { ScanMemory } from "./scan-memory";
import { DESCRIBING, layingOut, type ScanStep, telling } from "./scan-step";
import { type ScatterAsked, scatterHere } from "./scatter";
import { type Magnitude, magnitudeOf, sentenceOf, type Telling } from "./sentence";
import { type Separation, separate } from "./separate";
import { smallestShift } from "./smallest-shift";
import { type StandingOffset, standingOffsets } from "./standing";

/** Another source that could have done it, and the run that would tell. */
export type Alternative = {
  source: ScannedSource;
  /** It ran on the same pieces; only the pattern over features speaks for one or the other. */
  aliased: boolean;
  /** Below 3 the data cannot tell, below 6 the source named first is probable, above the pattern favours it. */
  patternGap: number;
} & Separation;

export type DriftFlag = {
  source: ScannedSource;
  kind: ChangeKind;
  /** Number of the edge, where a flag is about one edge of a tool. */
  edge: number | null;
  /** Lots by code; `at` is when the likeliest one began, UTC milliseconds. */
  onset: { lot: string; at: number; from: string; to: string; posterior: { lot: string; weight: number }[] };
  /** E / (E + m). */
  confidence: number;
  logEvidence: number;
  magnitude: Magnitude;
  /** Features more likely than not to have moved, then those in scope that did not. */
  features: FeatureShift[];
  unmoved: FeatureShift[];
  forecast: Forecast | null;
  alternatives: Alternative[];
  /** In English, for the command line and other programs; `sentenceOf` says it in any language. */
  sentence: string;
  telling: Telling;
  /** Its lots against the rest of each lot, and those of its neighbours of the same kind. */
  evidence: {
    own: LotDifference[];
    neighbours: { source: ScannedSource; lots: LotDifference[] }[];
    /** Its lots over all features: a later scan no longer has them. Missing in what an older version stored. */
    course?: LotDifference[];
  };
};

/** Every source that was scanned, most evidence first. */
export type SourceVerdict = {
  source: ScannedSource;
  flagged: boolean;
  /** Log evidence, and what a flag needs. */
  logEvidence: number;
  threshold: number;
  /** A flagged source that this one cannot be told from, for it ran on the same pieces; not quiet, but not named. */
  rivalOf: ScannedSource | null;
  /** The smallest step of a single feature that would have been flagged, in sigma. */
  smallestShift: number | null;
  /** How it lies against the rest of each of its lots, over all features. */
  lots: LotDifference[];
};

export type DriftScan = {
  flags: DriftFlag[];
  /** Found, but too small to matter or on a single feature. */
  silent: { source: ScannedSource; kind: ChangeKind; onsetLot: string; effectInSigma: number | null }[];
  sources: SourceVerdict[];
  standing: StandingOffset[];
  /** What changed at logged events, the latest first: taken as intended, and said all the same. */
  atEvents: EventShift[];
  /** Lots of the window in time. */
  lots: { code: string; at: number }[];
  /** Sources scanned, lots not counted. */
  scanned: number;
  /** What could not be scanned, and why; `feature` is null where a whole part could not. */
  leftOut: { part: string; feature: string | null; reason: string }[];
  /** How much lots, and fixtures within lots, vary against single pieces, as ratios of variance. */
  variation: { part: string; feature: string; sigma: number; lot: number; cell: number }[];
  /** Measurements clipped as blunders. */
  blunders: { part: string; feature: string; takenAt: number; excess: number; unit: string }[];
};

/**
 * Which fixture, tool, gauge or operator moved, since when, how far, and how long until it matters?
 *
 * Every source is compared with its neighbours inside the same lot as far as the data allow; all features it
 * touches are pooled into one number, and the source that explains most is named. README.md of this folder tells
 * the method and its measured rates.
 *
 * The last 60 lots of each part are looked at. Source events split a source's history: from the latest on it is
 * judged anew. With `memory` a new lot costs the scan of its own part only; the result is the same. `onStep` hears what
 * it is about, and `askScatter` may have a part of the work done beside this thread.
 */
export function scanForDrift(
  parts: readonly MeasuredPart[],
  {
    codeOf,
    events = [],
    memory = new ScanMemory(),
    askScatter = scatterHere,
    onStep = () => {},
  }: {
    codeOf: CodeOf;
    events?: readonly SourceEvent[];
    memory?: ScanMemory;
    askScatter?: ScatterAsked;
    onStep?: (step: ScanStep) => void;
  },
): DriftScan {
  const onPart = (done: number) => onStep(layingOut(done, parts.length));
  const prepared = memory.layOut(parts, { codeOf, events, onPart });
  const scanner = memory.scanner(askScatter);
  const tables = prepared.filter(({ features }) => features.length > 0).length;
  const raw = scanPrepared(prepared, telling(scanner.scan, tables, onStep));
  scanner.done();
  onStep(DESCRIBING);
  const share = penalty(raw.weighed);
  const charts = once((kind: ScannedKind) => differenceCharts(raw.scans, raw.axis, { kind, features: null }));
  const flagged = new Map(raw.flags.map(({ source, logEvidence }) => [sourceKey(source), logEvidence]));
  return {
    flags: raw.flags.map((finding) =>
      flagOf(finding, raw, charts(finding.source.kind).get(finding.source.id) ?? []),
    ),
    silent: raw.silent.map(({ source, kind, onset, effect }) => ({
      source,
      kind,
      onsetLot: raw.axis.codes[onset.likeliest]!,
      effectInSigma: effect,
    })),
    sources: raw.weighed
      .map((one) => ({
        source: one.source,
        flagged: flagged.has(sourceKey(one.source)),
        // What a flag was raised on may have come to light only when others were explained.
        logEvidence: Math.max(
          one.tempered - share(one),
          flagged.get(sourceKey(one.source)) ?? Number.NEGATIVE_INFINITY,
        ),
        threshold: thresholdFor(one.source, raw.sources),
        rivalOf: flagged.has(sourceKey(one.source)) ? null : rivalOf(one.source, raw),
        smallestShift: smallestShift(one, { scans: raw.scans, sources: raw.sources }),
        lots: charts(one.source.kind).get(one.source.id) ?? [],
      }))
      .sort((a, b) => b.logEvidence - a.logEvidence),
    standing: standingOffsets(raw.scans),
    atEvents: eventShifts(raw.scans, events),
    lots: raw.axis.codes.map((code, i) => ({ code, at: raw.axis.at[i]! })),
    scanned: raw.sources,
    leftOut: leftOutOf(parts, prepared),
    variation: raw.scans.flatMap(({ prepared: { table, features }, fit }) =>
      features.map(({ feature, sigma }, f) => ({
        part: table.part,
        feature: feature.name,
        sigma: sigma * fit.scale[f]!,
        ...fit.ratios[f]!,
      })),
    ),
    blunders: raw.scans.flatMap(({ prepared: { table, features }, fit }) =>
      fit.blunders.map(({ feature: f, row, excess }) => ({
        part: table.part,
        feature: features[f]!.feature.name,
        takenAt: table.takenAt[row]!,
        excess: excess * features[f]!.sigma,
        unit: features[f]!.feature.unit,
      })),
    ),
  };
}

function rivalOf(source: ScannedSource, { flags }: RawScan): ScannedSource | null {
  const key = sourceKey(source);
  const of = flags.find(({ rivals }) =>
    rivals.some((rival) => rival.aliased && sourceKey(rival.source) === key),
  );
  return of?.source ?? null;
}

function flagOf(finding: Finding, { axis, scans }: RawScan, course: LotDifference[]): DriftFlag {
  const { source, kind, onset, logEvidence, shifts } = finding;
  const moved = kind === "spread" ? spreadFeatures(finding) : movedFeatures(shifts);
  const movedNames = new Set(moved.map(({ part, feature }) => `${part}|${feature}`));
  const alternatives = finding.rivals.map((rival) => ({ ...rival, ...separate(finding, rival) }));
  const forecast = forecastOf(finding);
  const magnitude = magnitudeOf(finding);
  const edge = edgeOf(finding);
  const signed = moved.map(({ part, feature, shift }) => ({ part, feature, sign: shift < 0 ? -1 : 1 }));
  const features = signed.length > 0 ? signed : null;
  const charts = differenceCharts(scans, axis, { kind: source.kind, features });
  const flag = {
    source,
    kind,
    edge,
    onset: {
      lot: axis.codes[onset.likeliest]!,
      at: axis.at[onset.likeliest]!,
      from: axis.codes[onset.from]!,
      to: axis.codes[onset.to]!,
      posterior: onset.posterior.map(({ lot, weight }) => ({ lot: axis.codes[lot]!, weight })),
    },
    confidence: 1 / (1 + finding.sources * Math.exp(-logEvidence)),
    logEvidence,
    magnitude,
    features: moved,
    unmoved: shifts.filter(({ part, feature }) => !movedNames.has(`${part}|${feature}`)),
    forecast,
    alternatives,
    telling: {
      variant: finding.variant,
      fromStart: onset.likeliest === 0,
      inScope: kind === "spread" ? moved.length : shifts.length,
      resolution: resolutionOf(finding, moved),
    },
    evidence: {
      own: charts.get(source.id) ?? [],
      neighbours: [...charts]
        .filter(([id]) => id !== source.id)
        .map(([id, lots]) => ({ source: { kind: source.kind, id }, lots })),
      course,
    },
  };
  return { ...flag, sentence: sentenceOf(flag, { drift: english }) };
}

function once<K, V>(make: (key: K) => V): (key: K) => V {
  const made = new Map<K, V>();
  return (key) => {
    const known = made.get(key);
    if (known !== undefined) return known;
    const value = make(key);
    made.set(key, value);
    return value;
  };
}

/** Features whose pieces scatter more; their mean did not move. */
function spreadFeatures({ candidate, scans }: Finding): FeatureShift[] {
  return candidate.places.flatMap(({ table, k }) => {
    const { prepared, spread } = scans[table]!;
    return spread.moved[k]!.map(({ feature: f }) => ({
      part: prepared.table.part,
      feature: prepared.features[f]!.feature.name,
      unit: prepared.features[f]!.feature.unit,
      shiftInSigma: 0,
      shift: 0,
      standardError: 0,
      shareOfTolerance: null,
      moved: 1,
    }));
  });
}

function resolutionOf({ scans }: Finding, moved: readonly FeatureShift[]): number | null {
  const steps = scans.flatMap(({ prepared }) =>
    prepared.features.flatMap(({ feature }) =>
      moved.some((one) => one.feature === feature.name && one.part === prepared.table.part) &&
      feature.resolution !== null
        ? [feature.resolution]
        : [],
    ),
  );
  return steps.length === 0 ? null : Math.min(...steps);
}

function edgeOf({ candidate, life, scans }: Finding): number | null {
  const place = candidate.places[0];
  if (life < 0 || place === undefined) return null;
  const { prepared, hypotheses } = scans[place.table]!;
  const [f] = hypotheses.carriers[hypotheses.all[place.k]!.carrier]!.scope;
  return prepared.designs[prepared.features[f!]!.design]!.tool.edgeOf(life);
}

function leftOutOf(
  parts: readonly MeasuredPart[],
  prepared: ReturnType<ScanMemory["layOut"]>,
): DriftScan["leftOut"] {
  const out: DriftScan["leftOut"] = prepared.flatMap(({ table, leftOut }) =>
    leftOut.map(({ feature, reason }) => ({ part: table.part, feature, reason })),
  );
  for (const { part } of parts) {
    const own = prepared.filter(({ table }) => table.part === part);
    if (own.some(({ features }) => features.length > 0)) continue;
    const reason = own.flatMap(({ leftOut }) => leftOut.map((one) => one.reason))[0];
    out.push({ part, feature: null, reason: reason ?? "It has no measurements." });
  }
  return out;
}
