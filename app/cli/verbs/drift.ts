import { type DriftFlag, type DriftScan, scanForDrift } from "../../../lib/drift/drift-scan";
import type { CodeOf, MeasuredPart } from "../../../lib/drift/measured-part";
import { readToolCode } from "../../../lib/drift/tool-code";
import { fixed } from "../../../lib/format/numbers";
import type { FileNames } from "../../../lib/intake/batch";
import type { FiledSeries } from "../../../lib/intake/collect";
import { SOURCE_KINDS, type SourceKind } from "../../../lib/measurements/series";
import { suggestKind } from "../../../lib/plan/suggest-plan";
import { readEventsFile } from "../events-file";
import { printJson, printTable } from "../output";
import { onlyFile, readFeatures } from "../study-file";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `drift FILE   which fixture, tool, gauge, operator, machine or lot moved, since when and how far

  --events FILE  what was done to sources: a CSV file with the columns at, source, event (changed, repaired,
                 adjusted, calibrated or moved) and, where a code is not unique, kind. From its latest event on
                 a source is judged anew
  --json         {"flags":[{"sourceKind","sourceId","kind","onsetLot","confidence","magnitude","unit",
                 "features":[…],"sentence","alternatives":[…]}], "sources", "standing", "leftOut"}

A tool column such as T-114/3 names edge 3 of tool T-114. "features" are written part|feature. A quiet verdict
carries the smallest step of a single feature, in sigma, that would have been seen.
`,
  options: { events: { type: "string" }, json: { type: "boolean" } },
  async run({ values, positionals }) {
    const file = onlyFile("drift", positionals);
    const { features, names, remarks } = await readFeatures(file);
    const events =
      values.events === undefined ? [] : await readEventsFile(values.events, (code) => kindsOf(names, code));
    const scan = scanForDrift(partsOf(features), { codeOf: codesOf(names), events });
    for (const remark of remarks) process.stderr.write(`${remark}\n`);
    if (values.json) printJson(asJson(scan));
    else print(scan);
  },
});

function partsOf(features: readonly FiledSeries[]): MeasuredPart[] {
  const parts = new Map<string, MeasuredPart & { features: MeasuredPart["features"][number][] }>();
  for (const { filed, series } of features) {
    const part = parts.get(filed.part) ?? { part: filed.part, features: [] };
    parts.set(filed.part, part);
    part.features.push({
      name: filed.feature,
      kind: suggestKind(filed.feature, filed.nominal),
      nominal: filed.nominal,
      lower: filed.lower,
      upper: filed.upper,
      unit: filed.unit ?? "none",
      resolution: null,
      series,
    });
  }
  return [...parts.values()];
}

function codesOf(names: FileNames): CodeOf {
  return (kind, id) => names[kind][id] ?? "";
}

function kindsOf(names: FileNames, code: string): SourceKind[] {
  return SOURCE_KINDS.filter((kind) =>
    names[kind].some((name, id) => id > 0 && (kind === "tool" ? readToolCode(name).position : name) === code),
  );
}

function asJson({ flags, silent, sources, standing, leftOut, scanned }: DriftScan) {
  return {
    flags: flags.map(flagJson),
    silent: silent.map(({ source, kind, onsetLot, effectInSigma }) => ({
      sourceKind: source.kind,
      sourceId: source.id,
      kind,
      onsetLot,
      effectInSigma,
    })),
    sources: sources
      .filter(({ source, flagged }) => flagged || source.kind !== "lot")
      .map(({ source, flagged, logEvidence, threshold, smallestShift, rivalOf }) => ({
        sourceKind: source.kind,
        sourceId: source.id,
        flagged,
        logEvidence,
        threshold,
        smallestShift,
        rivalOf: rivalOf && { sourceKind: rivalOf.kind, sourceId: rivalOf.id },
      })),
    standing: standing.map(({ part, source, pieces, sizeInSigma, scatterRatio, features }) => ({
      part,
      sourceKind: source.kind,
      sourceId: source.id,
      pieces,
      sizeInSigma,
      scatterRatio,
      features,
    })),
    leftOut,
    scanned,
  };
}

function flagJson(flag: DriftFlag) {
  const { source, kind, onset, confidence, logEvidence, magnitude, features, sentence, forecast, edge } =
    flag;
  return {
    sourceKind: source.kind,
    sourceId: source.id,
    kind,
    onsetLot: onset.lot,
    onsetFrom: onset.from,
    onsetTo: onset.to,
    ...(edge !== null && { edge }),
    confidence,
    logEvidence,
    magnitude: magnitude.value,
    unit: magnitude.unit,
    magnitudeError: magnitude.standardError,
    shareOfTolerance: magnitude.shareOfTolerance,
    effectInSigma: magnitude.inSigma,
    features: features.map(({ part, feature }) => `${part}|${feature}`),
    shifts: features.map(({ part, feature, shift, standardError, unit }) => ({
      part,
      feature,
      shift,
      standardError,
      unit,
    })),
    forecast,
    sentence,
    alternatives: flag.alternatives.map(({ source: other, aliased, patternGap, suggested }) => ({
      sourceKind: other.kind,
      sourceId: other.id,
      aliased,
      patternGap,
      suggested: suggestedJson(suggested),
    })),
  };
}

function suggestedJson(suggested: DriftFlag["alternatives"][number]["suggested"]) {
  const named = ({ kind, id }: { kind: string; id: string }) => ({ sourceKind: kind, sourceId: id });
  return suggested.run === "pair"
    ? { run: "pair", sources: suggested.sources.map(named), pieces: suggested.pieces }
    : { run: "check-piece", gauge: suggested.gauge && named(suggested.gauge), pieces: suggested.pieces };
}

function print({ flags, sources, leftOut, scanned }: DriftScan): void {
  for (const { sentence } of flags) process.stdout.write(`${sentence}\n`);
  const quiet = sources.filter(({ source, flagged }) => !flagged && source.kind !== "lot");
  if (flags.length === 0) {
    process.stdout.write(`Nothing moved among ${scanned} sources, as far as these measurements can tell.\n`);
  }
  process.stdout.write("\n");
  printTable(
    ["quiet source", "a step of one feature is seen from"],
    quiet.map(({ source, smallestShift, rivalOf }) => [
      `${source.kind} ${source.id}`,
      rivalOf !== null
        ? `cannot be told from ${rivalOf.id}`
        : smallestShift === null
          ? "cannot be told"
          : `${fixed(smallestShift, 1)} sigma`,
    ]),
  );
  for (const { part, feature, reason } of leftOut) {
    process.stdout.write(`Left out: ${[part, feature].filter(Boolean).join(", ")}: ${reason}\n`);
  }
}
