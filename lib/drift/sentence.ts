import { counted, fixed, percent, placesOf, withUnit } from "../format/numbers";
import { median } from "../summary/moments";
import type { FeatureForecast, Forecast } from "./forecast";
import { millimetreIn } from "./length-unit";
import { type FeatureShift, movedFeatures } from "./magnitude";
import type { ScannedSource } from "./measured-part";
import type { Finding } from "./scan";
import type { SuggestedRun } from "./separate";

/** How far a source moved, as one figure. */
export type Magnitude = {
  value: number;
  /** The features' unit; "um/m/K" for temperature, "ratio" for scatter. */
  unit: string;
  standardError: number | null;
  shareOfTolerance: number | null;
  inSigma: number | null;
};

/** Names that the words of a finding need: lots by index, and what would separate it from its first rival. */
export type Wording = {
  lots: readonly string[];
  magnitude: Magnitude;
  forecast: Forecast | null;
  moved: readonly FeatureShift[];
  inScope: number;
  resolution: number | null;
  edge: number | null;
  rival: { source: ScannedSource; aliased: boolean; patternGap: number; suggested: SuggestedRun } | null;
};

/** One sentence (or two) that says which source moved, since when, how far, and what comes next. */
export function sentenceOf(finding: Finding, wording: Wording): string {
  const said = [says(finding, wording)];
  const ahead = wording.forecast === null ? null : forecastWords(wording.forecast);
  if (ahead !== null) said[0] += `; ${ahead}`;
  if (wording.rival !== null) said.push(rivalWords(wording.rival));
  return `${said.map((one) => `${one}.`).join(" ")}`;
}

function says(finding: Finding, wording: Wording): string {
  const { source, kind, variant } = finding;
  const since = sinceWords(finding, wording.lots);
  const size = sizeWords(wording);
  const who = nameOf(source);
  if (kind === "spread") {
    const ratio = fixed(wording.magnitude.value, 1);
    return `Pieces from ${who} scatter ${ratio} times as much as the others since ${since}, while their mean did not move: look for a loose clamp or a loose stylus`;
  }
  switch (source.kind) {
    case "temperature": {
      const { value, standardError } = wording.magnitude;
      const rate = `${fixed(value, 1)} ± ${fixed(standardError ?? 0, 1)} µm per metre and kelvin`;
      return `Sizes follow the part temperature since ${since}: ${rate}, where uncorrected iron or steel would give 10 to 12`;
    }
    case "lot":
      return `${who} alone is different on ${counted(wording.moved.length, "feature")}, by ${size}: look at the material, not at the fixtures`;
    case "tool":
      if (kind === "step" && variant === "edge") {
        return `${who} edge ${wording.edge} was set ${size} off in ${since}: ${agreeWords(wording, "it cuts")}`;
      }
      if (kind === "step") {
        const from = variant === "since" ? `since edge ${wording.edge} (${since})` : `since ${since}`;
        return `${who} has moved ${size} ${from}; ${agreeWords(wording, "it cuts")}`;
      }
      return finding.onset.likeliest === 0
        ? `${who} wears ${size} over a life; ${agreeWords(wording, "it cuts")}`
        : `${who} has worn ${size} more over a life since ${since}; ${agreeWords(wording, "it cuts")}`;
    case "gauge":
      return `${who} ${kind === "step" ? "reads" : "has drifted"} ${size} since ${since}; ${agreeWords(wording, "measured with it")}: check the gauge before the machine`;
    case "fixture":
      return `${who} ${kind === "step" ? "has moved" : "is drifting, so far"} ${size} since ${since}; ${agreeWords(wording, "it holds")}`;
    default:
      return `${who} ${kind === "step" ? "has moved" : "is drifting, so far"} ${size} since ${since}; ${agreeWords(wording, "it touches")}`;
  }
}

export function nameOf({ kind, id }: ScannedSource): string {
  switch (kind) {
    case "lot":
      return `Lot ${id}`;
    case "operator":
      return `Operator ${id}`;
    case "setup":
      return `Set-up ${id}`;
    case "machine":
      return `Machine ${id}`;
    case "process":
      return id === "" ? "The process" : `The process of ${id}`;
    case "temperature":
      return "Part temperature";
    default:
      return id;
  }
}

/** The same inside a sentence; codes stay as they are. */
function within(source: ScannedSource): string {
  const name = nameOf(source);
  return name === source.id ? name : `${name.charAt(0).toLowerCase()}${name.slice(1)}`;
}

function sinceWords({ onset }: Finding, lots: readonly string[]): string {
  const code = lots[onset.likeliest]!;
  // Where no lots are named, runs of pieces take their place.
  const at = code.startsWith("pieces ") ? code : `lot ${code}`;
  if (onset.from === onset.to) return at;
  return `${at} (between ${lots[onset.from]} and ${lots[onset.to]})`;
}

function sizeWords({ magnitude, resolution, moved }: Wording): string {
  const { value, unit, shareOfTolerance } = magnitude;
  const places = Math.max(placesOf(resolution), leadingPlaces(value));
  const together = moved.length < 2 || moved.every(({ shift }) => shift > 0 === moved[0]!.shift > 0);
  const figure = withUnit(fixed(together ? value : Math.abs(value), places, { signed: together }), unit);
  return shareOfTolerance === null ? figure : `${figure} (${percent(shareOfTolerance)} of tolerance)`;
}

/** Two figures of a small number: 0.0034 is shown with four decimals whatever the gauge resolves. */
function leadingPlaces(value: number): number {
  const size = Math.abs(value);
  return size === 0 ? 0 : Math.min(8, Math.max(0, 1 - Math.floor(Math.log10(size))));
}

function agreeWords({ moved, inScope }: Wording, which: string): string {
  if (inScope === 1) return `seen on the one feature ${which}`;
  if (moved.length === inScope) return `all ${inScope} features ${which} agree`;
  return `${moved.length} of the ${inScope} features ${which} agree`;
}

function forecastWords({ features, notForeseeable }: Forecast): string | null {
  const first = soonest(features, "tolerance") ?? soonest(features, "control");
  if (first === null) {
    return notForeseeable.length > 0 ? "how it goes on cannot be foreseen yet" : null;
  }
  const where = first.limit === "tolerance" ? `its ${first.side} tolerance limit` : "its control limit";
  if (first.pieces.median === 0) return `${first.feature} is at ${where} already`;
  const { median: middle, low, high } = first.pieces;
  const latest = Number.isFinite(high) ? String(Math.round(high)) : "many more";
  return `at this rate ${first.feature} meets ${where} first, in about ${counted(Math.round(middle), "piece")} (${Math.round(low)} to ${latest})`;
}

function soonest(
  features: readonly FeatureForecast[],
  limit: FeatureForecast["limit"],
): FeatureForecast | null {
  return features.find((one) => one.limit === limit && Number.isFinite(one.pieces.median)) ?? null;
}

const CANNOT_TELL = 3;
const PROBABLY = 6;

function rivalWords({ source, aliased, patternGap, suggested }: NonNullable<Wording["rival"]>): string {
  const other = within(source);
  const doubt =
    patternGap < CANNOT_TELL
      ? `The data cannot tell it from ${other}`
      : patternGap < PROBABLY
        ? `It is probably this and not ${other}`
        : `The pattern over features speaks against ${other}`;
  const why = aliased ? ", which ran on the same pieces" : "";
  return `${doubt}${why}: ${runWords(suggested)}, then scan again`;
}

/** "run 5 pieces on FX-3 and GA-11 together" */
export function runWords(suggested: SuggestedRun): string {
  if (suggested.run === "pair") {
    const [a, b] = suggested.sources;
    return `run ${counted(suggested.pieces, "piece")} on ${within(a)} and ${within(b)} together`;
  }
  const gauge = suggested.gauge === null ? "another gauge" : within(suggested.gauge);
  return `measure a known check piece with ${gauge}, or ${counted(suggested.pieces, "piece")} on both`;
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
