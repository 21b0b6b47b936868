import type { FeatureStudy } from "../../../lib/capability/feature-study";
import type { GateName } from "../../../lib/capability/gates";
import { c4 } from "../../../lib/constants/c4";
import { D2_OF_TWO } from "../../../lib/constants/control-chart-constants";
import { relativeRange } from "../../../lib/constants/relative-range";
import { chiSquareQuantile } from "../../../lib/distributions/chi-square";
import { normalUpperQuantile } from "../../../lib/distributions/normal";
import { significant } from "../../../lib/format/figures";
import { fixed } from "../../../lib/format/numbers";
import type { Tolerance } from "../../../lib/plan/feature-plan";
import type { ShownStudy } from "../../../lib/statement/content";
import { ENGLISH, type Words } from "../../../lib/words/words";

/** One figure of a study: its formula, the feature's own numbers in it, what comes out, and where it is from. */
export type FormulaLine = {
  figure: string;
  formula: string;
  numbers: string;
  source: string;
  /** The gates whose questions are this figure's assumptions. */
  rests?: readonly GateName[];
};

/** Of Anderson and Darling. */
export const NORMALITY_FORMULA = "A² = −n − (1/n) Σ (2i − 1) [ln Φ(zᵢ) + ln(1 − Φ(zₙ₊₁₋ᵢ))]";

/** Decimals beyond the feature's own with which numbers are put into a formula. */
const EXTRA = 3;
const DIGITS = 6;

/** What stands beside the formulas. */
export type FormulaWords = Pick<Words, "formulas" | "claims" | "capability">;
type Said = Words["formulas"];

type Written = {
  /** A computed figure, with more decimals than the feature's own. */
  value: (figure: number) => string;
  /** A limit as the drawing states it. */
  limit: (figure: number) => string;
  tolerance: Tolerance;
  said: Said;
};

/**
 * The way to every figure of a study with the numbers put in, so that somebody can follow it on paper.
 *
 * `tolerance` is the one that is judged against, without a limit that a natural bound makes idle. Numbers are
 * rounded only for showing; recomputed from what is shown, the last digit may differ.
 */
export function formulaLines(
  { study, limits }: Pick<FeatureStudy, "limits"> & { study: ShownStudy },
  { places, tolerance }: { places: number; tolerance: Tolerance },
  words: FormulaWords = ENGLISH,
): FormulaLine[] {
  const { formulas: said } = words;
  const { mean, sdOverall, count } = study;
  if (mean === null || sdOverall === null) return [];
  const written: Written = {
    value: (figure) => fixed(figure, places + EXTRA),
    limit: (figure) => fixed(figure, places),
    tolerance,
    said,
  };
  const summary: FormulaLine[] = [
    {
      figure: said.mean.figure,
      formula: "x̄ = Σx / n",
      numbers: said.mean.numbers(count, written.value(mean)),
      source: said.mean.source,
    },
    {
      figure: said.overall.figure,
      formula: "s = √(Σ(x − x̄)² / (n − 1))",
      numbers: said.overall.numbers(count - 1, significant(sdOverall, DIGITS)),
      source: said.overall.source,
    },
    ...(limits.ok ? [withinLine(limits.value, words)] : []),
  ];
  if (study.problem !== null) return summary;

  const freedomWithin = limits.ok ? limits.value.degreesOfFreedom : null;
  if (study.modelStudy !== null) return summary;
  const within = { sign: "σw", sigma: study.sigmaWithin, freedom: freedomWithin };
  const overall = { sign: "s", sigma: sdOverall, freedom: count - 1 };
  return [
    ...summary,
    ...widthLines(study, { name: "Cp", ...within, written }),
    ...nearerLines(study, { name: "Cpk", upper: study.Cpu, mean, ...within, written }),
    ...widthLines(study, { name: "Pp", ...overall, written }),
    ...nearerLines(study, { name: "Ppk", upper: study.Ppu, mean, ...overall, written }),
    ...outsideLines(study, { mean, sdOverall, tolerance, said }),
  ];
}

type Spread = { sign: string; sigma: number | null; freedom: number | null; written: Written };

/** Cp or Pp and its lower bound. */
function widthLines(
  study: ShownStudy,
  { name, sign, sigma, freedom, written: { limit, tolerance, said } }: Spread & { name: "Cp" | "Pp" },
): FormulaLine[] {
  const index = study[name];
  const { lower, upper } = tolerance;
  if (index === null || sigma === null || lower === null || upper === null) return [];
  const line: FormulaLine = {
    figure: name,
    formula: `${name} = (U − L) / 6${sign}`,
    numbers: `(${limit(upper)} − ${taken(limit(lower))}) / (6 × ${significant(sigma, DIGITS)}) = ${fixed(index, 4)}`,
    source: said.indexSource,
    rests: restsOf(name),
  };
  const bound = study.lowerBounds[name];
  if (bound === null || freedom === null) return [line];
  const level = 1 - study.confidence;
  const quantile = significant(chiSquareQuantile(level, freedom), DIGITS);
  return [
    line,
    {
      figure: said.atLeast(name),
      formula: `${name}·√(χ²(${fixed(level, 2)}; ν) / ν)`,
      numbers: `${fixed(index, 4)} × √(${quantile} / ${freedomWords(freedom)}) = ${fixed(bound, 4)}`,
      source: said.widthBoundSource,
    },
  ];
}

/** Cpk or Ppk towards the nearer limit, and its lower bound. */
function nearerLines(
  study: ShownStudy,
  {
    name,
    upper,
    mean,
    sign,
    sigma,
    freedom,
    written: { value, limit, tolerance, said },
  }: Spread & { name: "Cpk" | "Ppk"; upper: number | null; mean: number },
): FormulaLine[] {
  const index = study[name];
  const isUpper = index === upper;
  const nearer = isUpper ? tolerance.upper : tolerance.lower;
  if (index === null || sigma === null || nearer === null) return [];
  const distance = isUpper
    ? `${limit(nearer)} − ${taken(value(mean))}`
    : `${value(mean)} − ${taken(limit(nearer))}`;
  const line: FormulaLine = {
    figure: name,
    formula: said.nearer(`${name} = ${isUpper ? "(U − x̄)" : "(x̄ − L)"} / 3${sign}`, isUpper),
    numbers: `(${distance}) / (3 × ${significant(sigma, DIGITS)}) = ${fixed(index, 4)}`,
    source: said.indexSource,
    rests: restsOf(name),
  };
  const bound = study.lowerBounds[name];
  if (bound === null || freedom === null) return [line];
  const z = fixed(normalUpperQuantile(1 - study.confidence), 4);
  const square = `1/(9 × ${study.count}) + ${taken(fixed(index, 4))}²/(2 × ${freedomWords(freedom)})`;
  return [
    line,
    {
      figure: said.atLeast(name),
      formula: `${name} − z·√(1/(9n) + ${name}²/(2ν))`,
      numbers: `${fixed(index, 4)} − ${z} × √(${square}) = ${fixed(bound, 4)}`,
      source: said.nearerBoundSource,
    },
  ];
}

function outsideLines(
  { expectedOutside }: ShownStudy,
  {
    mean,
    sdOverall,
    tolerance,
    said: { expected },
  }: { mean: number; sdOverall: number; tolerance: Tolerance; said: Said },
): FormulaLine[] {
  const { source } = expected;
  const standardised = (limit: number) => `Φ(${significant((limit - mean) / sdOverall, 5)})`;
  const { below, above } = expectedOutside;
  return [
    ...(below === null || tolerance.lower === null
      ? []
      : [
          {
            figure: expected.below,
            formula: "Φ((L − x̄) / s)",
            numbers: `${standardised(tolerance.lower)} = ${significant(below, 3)}`,
            source,
          },
        ]),
    ...(above === null || tolerance.upper === null
      ? []
      : [
          {
            figure: expected.above,
            formula: "1 − Φ((U − x̄) / s)",
            numbers: `1 − ${standardised(tolerance.upper)} = ${significant(above, 3)}`,
            source,
          },
        ]),
  ];
}

/** What must hold for an index to mean what it says: one of the process as it runs, or of these readings alone. */
function restsOf(name: "Cp" | "Cpk" | "Pp" | "Ppk"): readonly GateName[] {
  return name.startsWith("C") ? ["stable", "normal", "independent", "resolution"] : ["normal", "independent"];
}

/** A figure that is taken off or squared: a negative one in brackets. */
function taken(figure: string): string {
  return figure.startsWith("−") ? `(${figure})` : figure;
}

/** Whole for an overall sigma, with decimals where they are an approximation. */
function freedomWords(freedom: number): string {
  return Number.isInteger(freedom) ? String(freedom) : significant(freedom, 5);
}

function withinLine(
  {
    estimator,
    sigma,
    subgroupSize,
    degreesOfFreedom,
  }: { estimator: string; sigma: number; subgroupSize: number | null; degreesOfFreedom: number },
  { formulas: { within: said }, claims }: FormulaWords,
): FormulaLine {
  const names: Readonly<Record<string, string>> = claims.estimators;
  const line = {
    figure: said.figure,
    source: said.source(freedomWords(degreesOfFreedom)),
  };
  const shown = significant(sigma, DIGITS);
  const constant = constantOf(estimator, subgroupSize, said);
  if (constant === null) {
    return {
      ...line,
      formula: `σw: ${names[estimator] ?? estimator}`,
      numbers: `σw = ${shown}`,
    };
  }
  return {
    ...line,
    formula: `σw = ${constant.mean} / ${constant.name}`,
    numbers: `${significant(sigma * constant.value, DIGITS)} / ${fixed(constant.value, 5)} = ${shown}`,
  };
}

/** The mean measure of spread that the estimator divides, and by what; null where there is no such pair. */
function constantOf(
  estimator: string,
  size: number | null,
  { movingRange }: Said["within"],
): { mean: string; name: string; value: number } | null {
  if (estimator === "mean-moving-range") return { mean: movingRange, name: "d₂", value: D2_OF_TWO };
  if (size === null) return null;
  if (estimator === "mean-range") return { mean: "R̄", name: "d₂", value: relativeRange(size).d2 };
  if (estimator === "mean-sd") return { mean: "s̄", name: "c₄", value: c4(size) };
  return null;
}
