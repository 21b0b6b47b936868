import { fixed, percent, placesOf, withUnit } from "../format/numbers";
import { median } from "../summary/moments";
import { drift as english } from "../words/en/drift";
import type { DriftFlag } from "./drift-scan";
import type { FeatureForecast, Forecast } from "./forecast";
import { millimetreIn } from "./length-unit";
import { movedFeatures } from "./magnitude";
import type { ScannedSource } from "./measured-part";
import type { Finding } from "./scan";
import type { SuggestedRun } from "./separate";

/** The words these sentences are made of. */
export type DriftWords = { drift: typeof english };

/** How far a source moved, as one figure. */
export type Magnitude = {
  value: number;
  /** The features' unit; "um/m/K" for temperature, "ratio" for scatter. */
  unit: string;
  standardError: number | null;
  shareOfTolerance: number | null;
  inSigma: number | null;
};

/** How a finding is told, which its figures do not show. */
export type Telling = {
  variant: Finding["variant"];
  /** It was so from the first lot looked at. */
  fromStart: boolean;
  inScope: number;
  /** Finest step of the gauges behind it. */
  resolution: number | null;
};

type Told = Pick<
  DriftFlag,
  "source" | "kind" | "edge" | "onset" | "magnitude" | "features" | "forecast" | "alternatives"
> & { telling: Telling };

/** One sentence (or two) that says which source moved, since when, how far, and what comes next; `day` is when that was. */
export function sentenceOf(flag: Told, { drift: words }: DriftWords, day: string | null = null): string {
  const said = [says(flag, words, day)];
  const ahead = flag.forecast === null ? null : forecastWords(flag.forecast, words);
  if (ahead !== null) said[0] += `; ${ahead}`;
  const [rival] = flag.alternatives;
  if (rival) said.push(rivalWords(rival, words));
  return `${said.map((one) => `${one}.`).join(" ")}`;
}

function says(flag: Told, words: DriftWords["drift"], day: string | null): string {
  const { source, kind, edge, telling, features } = flag;
  const { sentence } = words;
  const since = sinceWords(flag, words, day);
  const size = sizeWords(flag, words);
  const who = nameOf(source, words);
  const agree = (bond: Parameters<typeof sentence.agree>[2]) =>
    sentence.agree(features.length, telling.inScope, bond);
  if (kind === "spread") return sentence.spread(who, fixed(flag.magnitude.value, 1), since);
  switch (source.kind) {
    case "temperature": {
      const { value, standardError } = flag.magnitude;
      return sentence.temperature(since, `${fixed(value, 1)} ± ${fixed(standardError ?? 0, 1)}`);
    }
    case "lot":
      return sentence.lot(who, features.length, size);
    case "tool":
      if (kind === "step" && telling.variant === "edge")
        return `${sentence.edgeSet(who, edge, size, since)}: ${agree("cuts")}`;
      if (kind === "step") {
        const from = telling.variant === "since" ? edge : null;
        return `${sentence.toolMoved(who, size, since, from)}; ${agree("cuts")}`;
      }
      return telling.fromStart
        ? `${sentence.toolWears(who, size)}; ${agree("cuts")}`
        : `${sentence.toolWorn(who, size, since)}; ${agree("cuts")}`;
    case "gauge":
      return `${sentence.gauge(who, kind, size, since)}; ${agree("measures")}: ${sentence.checkGauge}`;
    case "fixture":
      return `${sentence.moved(who, kind, size, since)}; ${agree("holds")}`;
    default:
      return `${sentence.moved(who, kind, size, since)}; ${agree("touches")}`;
  }
}

export function nameOf({ kind, id }: ScannedSource, words: DriftWords["drift"] = english): string {
  switch (kind) {
    case "lot":
    case "operator":
    case "setup":
    case "machine":
    case "process":
      return words.names[kind](id);
    case "temperature":
      return words.names.temperature;
    default:
      return id;
  }
}

/** The same inside a sentence; codes stay as they are. */
function within(source: ScannedSource, words: DriftWords["drift"]): string {
  const name = nameOf(source, words);
  return name === source.id ? name : words.within(name);
}

function sinceWords({ onset }: Told, { sentence }: DriftWords["drift"], day: string | null): string {
  const said = [
    ...(day === null ? [] : [day]),
    ...(onset.from === onset.to ? [] : [sentence.between(onset.from, onset.to)]),
  ];
  const lot = sentence.since(onset.lot);
  return said.length === 0 ? lot : `${lot} (${said.join(", ")})`;
}

function sizeWords({ magnitude, telling, features }: Told, { sentence }: DriftWords["drift"]): string {
  const { value, unit, shareOfTolerance } = magnitude;
  const places = Math.max(placesOf(telling.resolution), leadingPlaces(value));
  const together = features.length < 2 || features.every(({ shift }) => shift > 0 === features[0]!.shift > 0);
  const figure = withUnit(fixed(together ? value : Math.abs(value), places, { signed: together }), unit);
  // Which of the figures in the table of features it is: none where they are pooled, else the middle one.
  const isPooled = telling.inScope > 1 && features.every(({ shift }) => shift !== value);
  const said = [
    ...(shareOfTolerance === null ? [] : [sentence.share(percent(shareOfTolerance))]),
    ...(isPooled ? [sentence.onAverage(telling.inScope)] : []),
    ...(!isPooled && features.length > 1 ? [sentence.middle(features.length)] : []),
  ];
  return said.length === 0 ? figure : `${figure} (${said.join(", ")})`;
}

/** Two figures of a small number: 0.0034 is shown with four decimals whatever the gauge resolves. */
function leadingPlaces(value: number): number {
  const size = Math.abs(value);
  return size === 0 ? 0 : Math.min(8, Math.max(0, 1 - Math.floor(Math.log10(size))));
}

function forecastWords(
  { features, notForeseeable }: Forecast,
  { sentence }: DriftWords["drift"],
): string | null {
  const first = soonest(features, "tolerance") ?? soonest(features, "control");
  if (first === null) return notForeseeable.length > 0 ? sentence.notForeseeable : null;
  const limit = first.limit === "tolerance" ? "tolerance" : "control";
  if (first.pieces.median === 0) return sentence.isAt(first.feature, limit, first.side);
  const { median: middle, low, high } = first.pieces;
  return sentence.meets(first.feature, limit, first.side, {
    middle: Math.round(middle),
    low: Math.round(low),
    high: Number.isFinite(high) ? Math.round(high) : null,
  });
}

function soonest(
  features: readonly FeatureForecast[],
  limit: FeatureForecast["limit"],
): FeatureForecast | null {
  return features.find((one) => one.limit === limit && Number.isFinite(one.pieces.median)) ?? null;
}

const CANNOT_TELL = 3;
const PROBABLY = 6;

function rivalWords(
  { source, aliased, patternGap, suggested }: DriftFlag["alternatives"][number],
  words: DriftWords["drift"],
): string {
  const doubt = patternGap < CANNOT_TELL ? "open" : patternGap < PROBABLY ? "probably" : "against";
  return words.sentence.rival(doubt, within(source, words), aliased, runWords(suggested, words));
}

/** "run 5 pieces on FX-3 and GA-11 together" */
export function runWords(suggested: SuggestedRun, words: DriftWords["drift"] = english): string {
  if (suggested.run === "pair") {
    const [a, b] = suggested.sources;
    return words.sentence.pair(suggested.pieces, within(a, words), within(b, words));
  }
  const gauge = suggested.gauge === null ? null : within(suggested.gauge, words);
  return words.sentence.checkPiece(gauge, suggested.pieces);
}

/**
 * The one figure for a finding. Where physics fixes the pattern it is the pooled shift in length (for temperature
 * the coefficient in µm per metre and kelvin), else the middle one of the features that moved.
 */
export function magnitudeOf(finding: Finding): Magnitude {
  const { candidate, shifts, source, effect } = finding;
  if (finding.kind === "spread") {
    const ratios = candidate.places.flatMap(({ table, k }) =>
      finding.scans[table]!.spread.moved[k]!.map(({ ratio }) => ratio),
    );
    const value = ratios.length === 0 ? 1 : median(ratios);
    return { value, unit: "ratio", standardError: null, shareOfTolerance: null, inSigma: null };
  }
  const moved = movedFeatures(shifts);
  const shown = moved.length > 0 ? moved : shifts;
  if (candidate.pattern !== null && candidate.pattern.square > 0) {
    const { along, square } = candidate.pattern;
    const [value, standardError] = [along / square, 1 / Math.sqrt(square)];
    if (source.kind === "temperature") {
      return {
        value: 10 * value,
        unit: "um/m/K",
        standardError: 10 * standardError,
        shareOfTolerance: null,
        inSigma: effect,
      };
    }
    const shares = shown.flatMap(({ shareOfTolerance, shift, unit: own }) =>
      shareOfTolerance === null || shift === 0
        ? []
        : [(shareOfTolerance / Math.abs(shift)) * Math.abs(value) * millimetreIn(own)],
    );
    // Features in mm and in inches moved by the same length: it is told in mm.
    const [unit = "none", ...others] = new Set(shown.map((one) => one.unit));
    const told = others.length === 0 ? unit : "mm";
    return {
      value: value * millimetreIn(told),
      unit: told,
      standardError: standardError * millimetreIn(told),
      shareOfTolerance: shares.length === 0 ? null : median(shares),
      inSigma: effect,
    };
  }
  const middle = [...shown].sort((a, b) => Math.abs(a.shift) - Math.abs(b.shift))[shown.length >> 1];
  return {
    value: middle?.shift ?? 0,
    unit: middle?.unit ?? "none",
    standardError: middle?.standardError ?? null,
    shareOfTolerance: middle?.shareOfTolerance ?? null,
    inSigma: effect,
  };
}
