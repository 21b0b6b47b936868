import { asEntered } from "../../../../lib/format/numbers";
import { arrangeCrossed, type StudyReading } from "../../../../lib/measurement-systems/arrange";
import { rangeFactors } from "../../../../lib/measurement-systems/average-and-range";
import { POOL_ABOVE } from "../../../../lib/measurement-systems/crossed-study";
import type { StudyResult, StudySettings } from "../../../../lib/measurement-systems/study-data";
import { range } from "../../../../lib/summary/moments";
import type { Words } from "../../../../lib/words/words";
import { type Assumption, type Formula, figure } from "./formulas";

type Result = Extract<StudyResult, { kind: "crossed" }>;

type CrossedWords = Words["gaugeStudies"]["crossed"];

/** The way to each figure of a crossed study, with its own numbers. */
export function crossedFormulas(
  { study, byRange }: Result,
  readings: readonly StudyReading[],
  { toleranceWidth, said }: StudySettings & { said: CrossedWords },
): Formula[] {
  const { parts, operators, trials } = arrangeCrossed(readings);
  const { aiag } = said.sources;
  const p = parts.length;
  const o = operators.length;
  const n = trials;
  const ms = (term: string) => study.anova.lines.find((line) => line.term === term)?.meanSquare ?? null;
  const msE = ms("repeatability")!;
  const msPO = ms("interaction");
  const below = msPO ?? msE;
  const belowName = msPO === null ? "MSₑ" : "MSₚₒ";
  const { deviations, components, untruncated } = study;
  const cut = (value: number) => (value < 0 ? said.cut(figure(value)) : figure(value));
  const factors = rangeFactors({ trials: n, operators: o, parts: p });
  return [
    { figure: said.figures.repeatability, formula: "σ²ₑ = MSₑ", numbers: `= ${figure(msE)}`, source: aiag },
    ...(msPO === null
      ? []
      : [
          {
            figure: said.figures.interaction,
            formula: "σ²ₚₒ = (MSₚₒ − MSₑ) / n",
            numbers: `(${figure(msPO)} − ${figure(msE)}) / ${n} = ${cut(untruncated.interaction)}`,
            source: aiag,
          },
        ]),
    {
      figure: said.figures.operator,
      formula: `σ²ₒ = (MSₒ − ${belowName}) / pn`,
      numbers: `(${figure(ms("operator")!)} − ${figure(below)}) / (${p} × ${n}) = ${cut(untruncated.operator)}`,
      source: aiag,
    },
    {
      figure: said.figures.part,
      formula: `σ²ₚ = (MSₚ − ${belowName}) / on`,
      numbers: `(${figure(ms("part")!)} − ${figure(below)}) / (${o} × ${n}) = ${cut(untruncated.part)}`,
      source: aiag,
    },
    {
      figure: said.figures.gauge,
      formula: said.gaugeFormula,
      numbers: `√(${figure(components.repeatability)} + ${figure(components.operator)} + ${figure(components.interaction)}) = ${figure(deviations.grr)}`,
      source: aiag,
    },
    {
      figure: said.figures.study,
      formula: said.studyFormula,
      numbers:
        study.percentStudy === null
          ? said.nothingVaried
          : `100 × ${figure(deviations.grr)} / ${figure(deviations.total)} = ${figure(study.percentStudy.grr)} %`,
      source: aiag,
    },
    {
      figure: said.figures.tolerance,
      formula: said.toleranceFormula,
      numbers:
        toleranceWidth === null || study.percentTolerance === null
          ? said.noTolerance
          : `100 × 6 × ${figure(deviations.grr)} / ${figure(toleranceWidth)} = ${figure(study.percentTolerance.grr)} %`,
      source: aiag,
    },
    {
      figure: said.figures.ndc,
      formula: said.ndcFormula,
      numbers:
        study.ndcUnrounded === null
          ? said.noVariation
          : said.ndcIs(
              `${asEntered(1.41)} × ${figure(deviations.part)} / ${figure(deviations.grr)} = ${figure(study.ndcUnrounded)}`,
              study.ndc,
            ),
      source: said.sources.ndc,
    },
    {
      figure: said.figures.interval,
      formula: said.intervalFormula,
      numbers: `σ² ${said.fromTo(figure(study.grrInterval.modifiedLargeSample.interval[0]), figure(study.grrInterval.modifiedLargeSample.interval[1]))}`,
      source: said.sources.interval,
    },
    {
      figure: said.figures.byRange,
      formula: said.rangeFormula,
      numbers: said.rangeIs(
        `${figure(byRange.meanRange)} × ${figure(factors.K1)} = ${figure(byRange.equipmentVariation)}`,
        `${figure(byRange.differenceOfOperators)} × ${figure(factors.K2)} = ${figure(byRange.appraiserVariation)}`,
        `${figure(byRange.partRange)} × ${figure(factors.K3)} = ${figure(byRange.partVariation)}`,
      ),
      source: said.sources.byRange,
    },
  ];
}

/** A crossed study is commonly made of at least this much. AIAG, from memory. */
const USUAL = { parts: 10, operators: 3, trials: 2 };

export function crossedAssumptions(
  { study, byRange }: Result,
  readings: readonly StudyReading[],
  { resolution, said }: StudySettings & { said: CrossedWords["presumes"] },
): Assumption[] {
  const { parts, operators, trials, values } = arrangeCrossed(readings);
  const wide = parts.flatMap((part, i) =>
    operators.flatMap((operator, j) =>
      range(values[i]![j]!) > byRange.rangeUpperLimit ? [said.by(part, operator)] : [],
    ),
  );
  const isUsual =
    parts.length >= USUAL.parts && operators.length >= USUAL.operators && trials >= USUAL.trials;
  return [
    {
      words: said.size(parts.length, operators.length, trials),
      holds: isUsual,
    },
    {
      words: said.alike(wide.length === 0 ? null : wide.join(", "), figure(byRange.rangeUpperLimit)),
      holds: wide.length === 0,
    },
    {
      words: said.interaction(
        study.interactionP === null ? null : figure(study.interactionP),
        asEntered(POOL_ABOVE),
      ),
      holds: study.interactionP === null ? null : study.interactionP > 0.05,
    },
    {
      words: said.step(
        resolution === null ? null : figure(resolution),
        figure(study.deviations.repeatability),
      ),
      holds: resolution === null ? null : resolution <= study.deviations.repeatability,
    },
    { words: said.range, holds: null },
    { words: said.blind, holds: null },
  ];
}
