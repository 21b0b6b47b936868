import type { FeatureStudy } from "../../../lib/capability/feature-study";
import type { GateName } from "../../../lib/capability/gates";
import { c4 } from "../../../lib/constants/c4";
import { D2_OF_TWO } from "../../../lib/constants/control-chart-constants";
import { relativeRange } from "../../../lib/constants/relative-range";
import { chiSquareQuantile } from "../../../lib/distributions/chi-square";
import { normalUpperQuantile } from "../../../lib/distributions/normal";
import { ESTIMATOR_WORDS, significant } from "../../../lib/format/figures";
import { counted, fixed } from "../../../lib/format/numbers";
import type { Tolerance } from "../../../lib/plan/feature-plan";
import type { ShownStudy } from "../../../lib/statement/content";

/** One figure of a study: its formula, the feature's own numbers in it, what comes out, and where it is from. */
export type FormulaLine = {
  figure: string;
  formula: string;
  numbers: string;
  source: string;
  /** The gates whose questions are this figure's assumptions. */
  rests?: readonly GateName[];
};

/** Decimals beyond the feature's own with which numbers are put into a formula. */
const EXTRA = 3;
const DIGITS = 6;

const INDICES_SOURCE = "ISO 22514-2 and ISO 22514-4 (from memory); NIST/SEMATECH e-Handbook 6.1.6";

type Written = {
  /** A computed figure, with more decimals than the feature's own. */
  value: (figure: number) => string;
  /** A limit as the drawing states it. */
  limit: (figure: number) => string;
  tolerance: Tolerance;
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
): FormulaLine[] {
  const { mean, sdOverall, count } = study;
  if (mean === null || sdOverall === null) return [];
  const written: Written = {
    value: (figure) => fixed(figure, places + EXTRA),
    limit: (figure) => fixed(figure, places),
    tolerance,
  };
  const summary: FormulaLine[] = [
    {
      figure: "Mean",
      formula: "x̄ = Σx / n",
      numbers: `over ${counted(count, "reading")}: ${written.value(mean)}`,
      source: "two passes, after Chan, Golub and LeVeque 1983 (from memory)",
    },
    {
      figure: "Overall sigma",
      formula: "s = √(Σ(x − x̄)² / (n − 1))",
      numbers: `with n − 1 = ${count - 1}: ${significant(sdOverall, DIGITS)}`,
      source: "ISO 22514-2 (from memory): the sample standard deviation, without c₄",
    },
    ...(limits.ok ? [withinLine(limits.value)] : []),
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
    ...outsideLines(study, { mean, sdOverall, tolerance }),
  ];
}

type Spread = { sign: string; sigma: number | null; freedom: number | null; written: Written };

/** Cp or Pp and its lower bound. */
function widthLines(
  study: ShownStudy,
  { name, sign, sigma, freedom, written: { limit, tolerance } }: Spread & { name: "Cp" | "Pp" },
): FormulaLine[] {
  const index = study[name];
  const { lower, upper } = tolerance;
  if (index === null || sigma === null || lower === null || upper === null) return [];
  const line: FormulaLine = {
    figure: name,
    formula: `${name} = (U − L) / 6${sign}`,
    numbers: `(${limit(upper)} − ${taken(limit(lower))}) / (6 × ${significant(sigma, DIGITS)}) = ${fixed(index, 4)}`,
    source: INDICES_SOURCE,
    rests: restsOf(name),
  };
  const bound = study.lowerBounds[name];
  if (bound === null || freedom === null) return [line];
  const level = 1 - study.confidence;
  const quantile = significant(chiSquareQuantile(level, freedom), DIGITS);
  return [
    line,
    {
      figure: `${name}, at least`,
      formula: `${name}·√(χ²(${fixed(level, 2)}; ν) / ν)`,
      numbers: `${fixed(index, 4)} × √(${quantile} / ${freedomWords(freedom)}) = ${fixed(bound, 4)}`,
      source: "NIST/SEMATECH e-Handbook 6.1.6 and 3.5.1.2",
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
    written: { value, limit, tolerance },
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
    formula: isUpper
      ? `${name} = (U − x̄) / 3${sign}, the upper limit being the nearer`
      : `${name} = (x̄ − L) / 3${sign}, the lower limit being the nearer`,
    numbers: `(${distance}) / (3 × ${significant(sigma, DIGITS)}) = ${fixed(index, 4)}`,
    source: INDICES_SOURCE,
    rests: restsOf(name),
  };
  const bound = study.lowerBounds[name];
  if (bound === null || freedom === null) return [line];
  const z = fixed(normalUpperQuantile(1 - study.confidence), 4);
  const square = `1/(9 × ${study.count}) + ${taken(fixed(index, 4))}²/(2 × ${freedomWords(freedom)})`;
  return [
    line,
    {
      figure: `${name}, at least`,
      formula: `${name} − z·√(1/(9n) + ${name}²/(2ν))`,
      numbers: `${fixed(index, 4)} − ${z} × √(${square}) = ${fixed(bound, 4)}`,
      source: "Bissell, Applied Statistics 39 (1990) 331-340 (from memory); NIST/SEMATECH e-Handbook 3.5.1.2",
    },
  ];
}

function outsideLines(
  { expectedOutside }: ShownStudy,
  { mean, sdOverall, tolerance }: { mean: number; sdOverall: number; tolerance: Tolerance },
): FormulaLine[] {
  const source = "the normal distribution; far tails by erfc, never by one minus the other tail";
  const standardised = (limit: number) => `Φ(${significant((limit - mean) / sdOverall, 5)})`;
  const { below, above } = expectedOutside;
  return [
    ...(below === null || tolerance.lower === null
      ? []
      : [
          {
            figure: "Expected below",
            formula: "Φ((L − x̄) / s)",
            numbers: `${standardised(tolerance.lower)} = ${significant(below, 3)}`,
            source,
          },
        ]),
    ...(above === null || tolerance.upper === null
      ? []
      : [
          {
            figure: "Expected above",
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

function withinLine({
  estimator,
  sigma,
  subgroupSize,
  degreesOfFreedom,
}: {
  estimator: string;
  sigma: number;
  subgroupSize: number | null;
  degreesOfFreedom: number;
}): FormulaLine {
  const line = {
    figure: "Sigma within",
    source: `degrees of freedom ν = ${freedomWords(degreesOfFreedom)} (Patnaik's approximation, exact for the pooled form); ISO 7870-2 (from memory)`,
  };
  const shown = significant(sigma, DIGITS);
  const constant = constantOf(estimator, subgroupSize);
  if (constant === null) {
    return {
      ...line,
      formula: `σw: ${ESTIMATOR_WORDS[estimator] ?? estimator}`,
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
): { mean: string; name: string; value: number } | null {
  if (estimator === "mean-moving-range") return { mean: "mean moving range", name: "d₂", value: D2_OF_TWO };
  if (size === null) return null;
  if (estimator === "mean-range") return { mean: "R̄", name: "d₂", value: relativeRange(size).d2 };
  if (estimator === "mean-sd") return { mean: "s̄", name: "c₄", value: c4(size) };
  return null;
}
