import { REPLICATES } from "../../../lib/capability/models/bootstrap";
import { percent } from "../../../lib/capability/words";
import { significant } from "../../../lib/format/figures";
import { fixed } from "../../../lib/format/numbers";
import type { Tolerance } from "../../../lib/plan/feature-plan";
import { askedWords } from "../../../lib/plan/index-asked";
import type { ShownStudy } from "../../../lib/statement/content";
import { ENGLISH } from "../../../lib/words/words";
import { MODEL_FORMS, parameterName } from "../model-words";
import type { FormulaLine, FormulaWords } from "./formula-lines";
import type { Further } from "./further";

const DIGITS = 6;

type Shown = { places: number; tolerance: Tolerance };

/** The way to the indices of a fitted model. */
export function modelLines(
  study: ShownStudy,
  { places, tolerance }: Shown,
  { formulas, capability }: FormulaWords = ENGLISH,
): FormulaLine[] {
  const { model: said } = formulas;
  const { modelStudy, Ppk } = study;
  if (modelStudy === null || Ppk === null) return [];
  const { fit, quantiles, indices } = modelStudy;
  const { formula } = MODEL_FORMS[fit.model];
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
  const { source } = said;
  return [
    {
      figure: said.distribution,
      formula,
      numbers: Object.entries(fit.parameters)
        .map(
          ([name, parameter]) =>
            `${parameterName(fit.model, name, capability.model)} = ${significant(parameter, DIGITS)}`,
        )
        .join(", "),
      source: said.distributionSource,
      rests: ["distribution"],
    },
    {
      figure: said.percentiles,
      formula: said.ofThat,
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
      formula: formulas.nearer(
        isUpper ? "Ppk = (U − X₅₀) / (X₉₉.₈₆₅ − X₅₀)" : "Ppk = (X₅₀ − L) / (X₅₀ − X₀.₁₃₅)",
        isUpper,
      ),
      numbers: `${numbers} = ${fixed(Ppk, 4)}`,
      source,
      rests: ["stable", "distribution", "independent"],
    },
    {
      figure: formulas.atLeast("Ppk"),
      formula: said.quantile(percent(1 - study.confidence), REPLICATES),
      numbers: study.lowerBounds.Ppk === null ? formulas.notComputed : fixed(study.lowerBounds.Ppk, 4),
      source: said.bootstrapSource,
      rests: ["distribution", "independent"],
    },
  ];
}

/** Cpm and what was counted outside. */
export function countedLines(
  study: ShownStudy,
  { places, tolerance, target }: Shown & { target: number | null },
  { formulas }: FormulaWords = ENGLISH,
): FormulaLine[] {
  const { counted: said } = formulas;
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
      source: formulas.cpmSource,
      rests: ["normal", "independent"],
    });
  }
  for (const side of ["below", "above"] as const) {
    const seen = study.observedOutside[side];
    const interval = study.observedIntervals[side];
    if (seen === null || interval === null) continue;
    const level = significant((1 - study.confidence) / 2, 3);
    lines.push({
      figure: said[side],
      formula: said.formula(level),
      numbers: said.numbers(seen, count, significant(interval[0], 3), significant(interval[1], 3)),
      source: said.source,
      rests: ["independent"],
    });
  }
  return lines;
}

/** Planning, the gauge's part and the conformity zones. */
export function furtherLines(
  { plan, gauge, conformity }: Further,
  { places, tolerance }: Shown,
  { formulas: said }: FormulaWords,
): FormulaLine[] {
  const lines: FormulaLine[] = [];
  if (plan !== null && plan.pieces !== null) {
    const nu = plan.degreesOfFreedomPerPiece;
    const freedom = nu === null ? "n − 1" : said.pieces.freedom(significant(nu, 4));
    lines.push({
      figure: said.pieces.figure,
      formula:
        plan.judgedBy === null
          ? said.pieces.byBound(plan.name)
          : plan.judgedBy === "one-sided"
            ? said.pieces.oneSided(freedom)
            : said.pieces.byIndex(plan.name, freedom),
      numbers: said.pieces.numbers(plan.name, fixed(plan.index, 4), askedWords(plan.target), plan.pieces),
      source: said.pieces.source,
      rests: ["stable", "normal", "distribution", "independent"],
    });
  }
  if (gauge?.aware) {
    const { sdProcess, gaugeShare } = gauge.aware;
    lines.push({
      figure: said.gauge.figure,
      formula: said.gauge.formula,
      numbers:
        sdProcess === null
          ? said.gauge.all(significant(gauge.sigma, DIGITS))
          : said.gauge.numbers(
              significant(gauge.sigma, DIGITS),
              significant(sdProcess, DIGITS),
              percent(gaugeShare),
            ),
      source: said.gauge.source,
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
      figure: said.conformity.figure,
      formula: said.conformity.formula,
      numbers: sums.join("; "),
      source: said.conformity.source,
      rests: ["gauge"],
    });
  }
  return lines;
}
