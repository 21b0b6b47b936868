import { BOOTSTRAP_WORDS } from "../../../lib/capability/models/bootstrap";
import { percent } from "../../../lib/capability/words";
import { significant } from "../../../lib/format/figures";
import { asEntered, fixed } from "../../../lib/format/numbers";
import type { Tolerance } from "../../../lib/plan/feature-plan";
import type { ShownStudy } from "../../../lib/statement/content";
import { MODEL_FORMS } from "../model-words";
import type { FormulaLine } from "./formula-lines";
import type { Further } from "./further";

const DIGITS = 6;

type Shown = { places: number; tolerance: Tolerance };

/** The way to the indices of a fitted model. */
export function modelLines(study: ShownStudy, { places, tolerance }: Shown): FormulaLine[] {
  const { modelStudy, Ppk } = study;
  if (modelStudy === null || Ppk === null) return [];
  const { fit, quantiles, indices } = modelStudy;
  const { formula, signs } = MODEL_FORMS[fit.model];
  const value = (figure: number) => fixed(figure, places + 3);
  const { below, median, above } = quantiles;
  const isUpper = indices.Ppk === indices.Ppu;
  const nearer = isUpper ? tolerance.upper : tolerance.lower;
  const numbers = (() => {
    if (nearer === null) return "";
    return isUpper
      ? `(${fixed(nearer, places)} − ${value(median)}) / (${value(above)} − ${value(median)})`
      : `(${value(median)} − ${fixed(nearer, places)}) / (${value(median)} − ${value(below)})`;
  })();
  const source = "ISO 22514-2 (from memory); NIST/SEMATECH e-Handbook 6.1.6 and 3.5.1.2";
  return [
    {
      figure: "Distribution",
      formula,
      numbers: Object.entries(fit.parameters)
        .map(([name, parameter]) => `${signs[name] ?? name} = ${significant(parameter, DIGITS)}`)
        .join(", "),
      source: "maximum likelihood; ISO 22514-2 names the families (from memory)",
      rests: ["distribution"],
    },
    {
      figure: "Percentiles",
      formula: "X₀.₁₃₅, X₅₀ and X₉₉.₈₆₅ of that distribution",
      numbers: `${value(below)}, ${value(median)}, ${value(above)}`,
      source,
      rests: [],
    },
    ...(indices.Pp === null || tolerance.lower === null || tolerance.upper === null
      ? []
      : [
          {
            figure: "Pp",
            formula: "Pp = (U − L) / (X₉₉.₈₆₅ − X₀.₁₃₅)",
            numbers: `(${fixed(tolerance.upper, places)} − ${fixed(tolerance.lower, places)}) / (${value(above)} − ${value(below)}) = ${fixed(indices.Pp, 4)}`,
            source,
            rests: ["distribution", "independent"] as const,
          },
        ]),
    {
      figure: "Ppk",
      formula: isUpper
        ? "Ppk = (U − X₅₀) / (X₉₉.₈₆₅ − X₅₀), the upper limit being the nearer"
        : "Ppk = (X₅₀ − L) / (X₅₀ − X₀.₁₃₅), the lower limit being the nearer",
      numbers: `${numbers} = ${fixed(Ppk, 4)}`,
      source,
      rests: ["stable", "distribution", "independent"],
    },
    {
      figure: "Ppk, at least",
      formula: `${percent(1 - study.confidence)} quantile of the index in ${BOOTSTRAP_WORDS}`,
      numbers: study.lowerBounds.Ppk === null ? "not computed" : fixed(study.lowerBounds.Ppk, 4),
      source: "Efron and Tibshirani, An Introduction to the Bootstrap (1993), 6.5 (from memory)",
      rests: ["distribution", "independent"],
    },
  ];
}

/** Cpm and what was counted outside. */
export function countedLines(
  study: ShownStudy,
  { places, tolerance, target }: Shown & { target: number | null },
): FormulaLine[] {
  const { Cpm, mean, sdOverall, count } = study;
  const lines: FormulaLine[] = [];
  const { lower, upper } = tolerance;
  if (
    Cpm !== null &&
    target !== null &&
    mean !== null &&
    sdOverall !== null &&
    lower !== null &&
    upper !== null
  ) {
    lines.push({
      figure: "Cpm",
      formula: "Cpm = (U − L) / 6√(s² + (x̄ − T)²)",
      numbers: `(${fixed(upper, places)} − ${fixed(lower, places)}) / 6√(${significant(sdOverall, DIGITS)}² + (${fixed(mean, places + 3)} − ${fixed(target, places)})²) = ${fixed(Cpm, 4)}`,
      source: "Chan, Cheng and Spiring, J. Quality Technology 20 (1988); NIST/SEMATECH e-Handbook 6.1.6",
      rests: ["normal", "independent"],
    });
  }
  for (const side of ["below", "above"] as const) {
    const seen = study.observedOutside[side];
    const interval = study.observedIntervals[side];
    if (seen === null || interval === null) continue;
    const level = significant((1 - study.confidence) / 2, 3);
    lines.push({
      figure: side === "below" ? "Counted below" : "Counted above",
      formula: `from Beta quantile(${level}; k, n − k + 1) to Beta quantile(1 − ${level}; k + 1, n − k)`,
      numbers: `k = ${seen} of n = ${count}: ${significant(interval[0], 3)} to ${significant(interval[1], 3)}`,
      source: "Clopper and Pearson, Biometrika 26 (1934) 404-413 (from memory)",
      rests: ["independent"],
    });
  }
  return lines;
}

/** Planning, the gauge's part and the conformity zones. */
export function furtherLines(
  { plan, gauge, conformity }: Further,
  { places, tolerance }: Shown,
): FormulaLine[] {
  const lines: FormulaLine[] = [];
  if (plan !== null && plan.pieces !== null) {
    const nu = plan.degreesOfFreedomPerPiece;
    const freedom = nu === null ? "n − 1" : `${significant(nu, 4)}·n, as the present estimate has per piece`;
    lines.push({
      figure: "Pieces to show it",
      formula:
        plan.judgedBy === null
          ? `n′ = n·((${plan.name} − bound) / (${plan.name} − target))²`
          : plan.judgedBy === "one-sided"
            ? `the smallest n whose exact lower bound by the noncentral t reaches the target, with ν = ${freedom}`
            : `the smallest n with ${plan.name} − z·√(1/(9n) + ${plan.name}²/(2ν)) ≥ target, with ν = ${freedom}`,
      numbers: `${plan.name} ${fixed(plan.index, 4)}, target ${asEntered(plan.target)}: n = ${plan.pieces}`,
      source: "the intervals above, turned round; they hold once the same value is found again",
      rests: ["stable", "normal", "distribution", "independent"],
    });
  }
  if (gauge?.aware) {
    const { sdProcess, gaugeShare } = gauge.aware;
    lines.push({
      figure: "Process without its gauge",
      formula: "σ² process = σ² observed − σ² gauge, for s and for σw alike",
      numbers:
        sdProcess === null
          ? `σ gauge ${significant(gauge.sigma, DIGITS)} is all of s`
          : `s² − ${significant(gauge.sigma, DIGITS)}² = ${significant(sdProcess, DIGITS)}²; gauge ${percent(gaugeShare)} of the variance`,
      source: "AIAG, Measurement Systems Analysis, 4th edition, chapter I (from memory)",
      rests: ["gauge"],
    });
  }
  if (conformity !== null) {
    const U = conformity.uncertainty;
    const shown = (limit: number) => fixed(limit, places + 1);
    const sums = [
      ...(tolerance.lower === null
        ? []
        : [`${fixed(tolerance.lower, places)} + ${significant(U, 3)} = ${shown(tolerance.lower + U)}`]),
      ...(tolerance.upper === null
        ? []
        : [`${fixed(tolerance.upper, places)} − ${significant(U, 3)} = ${shown(tolerance.upper - U)}`]),
    ];
    lines.push({
      figure: "Conformity",
      formula: "proved from L + U to U₀ − U; refuted below L − U and above U₀ + U",
      numbers: sums.join("; "),
      source: "ISO 14253-1 (from memory); the factor of U is for both sides to agree on",
      rests: ["gauge"],
    });
  }
  return lines;
}
