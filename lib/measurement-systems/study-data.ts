import { InvalidInput } from "../checks";
import type { Problem } from "../computed";
import { fault, type Refusal, type Refused, refused, refusedAs } from "../words/refusal";
import { arrangeCrossed, type StudyReading } from "./arrange";
import { type AverageAndRange, averageAndRange, rangeFactors } from "./average-and-range";
import { type Bias, biasOf } from "./bias";
import { type CrossedStudy, crossedStudy, POOL_ABOVE } from "./crossed-study";
import { type KnownPiece, type Linearity, linearityStudy } from "./linearity";
import { type SetupVariation, setupVariation } from "./setup-variation";
import { type TypeOne, typeOneStudy } from "./type-one";

/**
 * crossed: several people measure several parts several times · type-1: one known piece, often · bias-linearity:
 * pieces of known size over the range · setup: what setting a portable gauge up anew adds.
 */
export const STUDY_KINDS = ["crossed", "type-1", "bias-linearity", "setup"] as const;
export type StudyKind = (typeof STUDY_KINDS)[number];

export type KnownReading = { reference: number; value: number };
export type SetupReading = { piece: string; setup: string; value: number };

/** Readings as they were entered, in their order. */
export type StudyData =
  | { kind: "crossed"; readings: StudyReading[] }
  | { kind: "type-1"; reference: number; values: number[] }
  | { kind: "bias-linearity"; readings: KnownReading[] }
  | { kind: "setup"; readings: SetupReading[] };

/** What the figures rest on besides the readings, in their unit. */
export type StudySettings = {
  /** U − L; null where there is none. */
  toleranceWidth: number | null;
  /** The gauge's step; null when not stated. */
  resolution: number | null;
  confidence: number;
};

/** The share of the tolerance and the width in standard deviations of a type-1 study. Common practice, no source. */
export const TYPE_ONE = { share: 0.2, width: 6, asked: 1.33 } as const;

type BareLinearity = Omit<Linearity, "line"> & { line: Omit<Linearity["line"], "residuals"> };

/** Plain figures, fit to be kept as JSON. */
export type StudyResult =
  | { kind: "crossed"; study: CrossedStudy; byRange: AverageAndRange }
  | { kind: "type-1"; study: TypeOne }
  /** Linearity is null where only one size was measured; bias of each size. */
  | {
      kind: "bias-linearity";
      linearity: BareLinearity | null;
      pieces: { reference: number; bias: Bias | null }[];
    }
  | { kind: "setup"; study: SetupVariation };

export type StudyOutcome = { ok: true; result: StudyResult } | Refused;

/**
 * The figures of a study, or in words why there are none. The same data and settings give the same figures.
 *
 * @throws InvalidInput when a number is not finite, a width not positive, or unless 0 < confidence < 1
 */
export function studyResult(data: StudyData, settings: StudySettings): StudyOutcome {
  switch (data.kind) {
    case "crossed":
      return crossedResult(data.readings, settings);
    case "type-1":
      return typeOneResult(data, settings);
    case "bias-linearity":
      return linearityResult(data.readings, settings);
    case "setup":
      return setupResult(data.readings, settings);
  }
}

function crossedResult(
  readings: readonly StudyReading[],
  { toleranceWidth, confidence }: StudySettings,
): StudyOutcome {
  const gap = gapInCrossed(readings);
  if (gap !== null) return refusedAs(gap);
  const arranged = arrangeCrossed(readings);
  const { parts, operators, trials } = arranged;
  const factors = rangeFactors({ trials, operators: operators.length, parts: parts.length });
  return {
    ok: true,
    result: {
      kind: "crossed",
      study: crossedStudy(arranged, { toleranceWidth, poolAbove: POOL_ABOVE, confidence }),
      byRange: averageAndRange(arranged, { factors, toleranceWidth }),
    },
  };
}

/** What keeps readings from being a crossed study; null when nothing does. */
function gapInCrossed(readings: readonly StudyReading[]): Refusal | null {
  const parts = [...new Set(readings.map(({ part }) => part))];
  const operators = [...new Set(readings.map(({ operator }) => operator))];
  if (parts.length < 2) return fault("study-parts", parts.length);
  if (operators.length < 2) {
    return fault("study-operators", operators.length);
  }
  const counts = new Map<string, number>();
  const key = (part: string, operator: string) => JSON.stringify([part, operator]);
  for (const { part, operator } of readings)
    counts.set(key(part, operator), (counts.get(key(part, operator)) ?? 0) + 1);
  const trials = Math.max(...counts.values());
  for (const part of parts) {
    for (const operator of operators) {
      const count = counts.get(key(part, operator)) ?? 0;
      if (count === trials) continue;
      return fault("study-gap", part, operator, count, trials);
    }
  }
  return trials < 2 ? fault("study-trials") : null;
}

function typeOneResult(
  { reference, values }: { reference: number; values: readonly number[] },
  { toleranceWidth, resolution, confidence }: StudySettings,
): StudyOutcome {
  if (toleranceWidth === null) return refused("study-tolerance");
  const { share, width } = TYPE_ONE;
  const study = typeOneStudy(values, { reference, toleranceWidth, resolution, share, width, confidence });
  if (!study.ok) return refusedAs(shortage(study.problem));
  return { ok: true, result: { kind: "type-1", study: study.value } };
}

function linearityResult(readings: readonly KnownReading[], { confidence }: StudySettings): StudyOutcome {
  const pieces = knownPieces(readings);
  if (readings.length < 3) return refusedAs(shortage(tooFew(3, readings.length)));
  const linearity = linearityStudy(pieces, { confidence });
  return {
    ok: true,
    result: {
      kind: "bias-linearity",
      linearity: linearity.ok ? withoutResiduals(linearity.value) : null,
      pieces: pieces.map(({ reference, deviations }) => {
        const bias = biasOf(deviations, { reference: 0, confidence });
        return { reference, bias: bias.ok ? bias.value : null };
      }),
    },
  };
}

/** Deviations of each size, smallest size first. */
export function knownPieces(readings: readonly KnownReading[]): KnownPiece[] {
  const sizes = [...new Set(readings.map(({ reference }) => reference))].sort((a, b) => a - b);
  return sizes.map((reference) => ({
    reference,
    deviations: readings.filter((one) => one.reference === reference).map(({ value }) => value - reference),
  }));
}

function withoutResiduals({ line: { residuals: _, ...line }, ...rest }: Linearity): BareLinearity {
  return { ...rest, line };
}

function setupResult(readings: readonly SetupReading[], { confidence }: StudySettings): StudyOutcome {
  const study = setupVariation({
    values: readings.map(({ value }) => value),
    setups: numbered(readings.map(({ setup }) => setup)),
    pieces: numbered(readings.map(({ piece }) => piece)),
    confidence,
  });
  if (study.ok) return { ok: true, result: { kind: "setup", study: study.value } };
  return refused(study.problem.code === "too-few-subgroups" ? "study-one-setup" : "study-one-reading");
}

function numbered(names: readonly string[]): number[] {
  const order = new Map([...new Set(names)].map((name, i) => [name, i + 1]));
  return names.map((name) => order.get(name)!);
}

function tooFew(needed: number, got: number): Problem {
  return { code: "too-few-readings", needed, got };
}

function shortage(problem: Problem): Refusal {
  if (problem.code === "no-variation") return fault("study-alike");
  if (problem.code === "too-few-readings") return fault("study-few", problem.got, problem.needed);
  throw new InvalidInput("studyResult", "problem", problem.code, "one of readings");
}
