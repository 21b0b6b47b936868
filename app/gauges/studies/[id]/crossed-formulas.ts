import { counted } from "../../../../lib/format/numbers";
import { arrangeCrossed, type StudyReading } from "../../../../lib/measurement-systems/arrange";
import { rangeFactors } from "../../../../lib/measurement-systems/average-and-range";
import { POOL_ABOVE } from "../../../../lib/measurement-systems/crossed-study";
import type { StudyResult, StudySettings } from "../../../../lib/measurement-systems/study-data";
import { range } from "../../../../lib/summary/moments";
import { type Assumption, type Formula, figure } from "./formulas";

type Result = Extract<StudyResult, { kind: "crossed" }>;

const AIAG = "AIAG, Measurement Systems Analysis, 4th edition (from memory)";

/** The way to each figure of a crossed study, with its own numbers. */
export function crossedFormulas(
  { study, byRange }: Result,
  readings: readonly StudyReading[],
  { toleranceWidth }: StudySettings,
): Formula[] {
  const { parts, operators, trials } = arrangeCrossed(readings);
  const p = parts.length;
  const o = operators.length;
  const n = trials;
  const ms = (term: string) => study.anova.lines.find((line) => line.term === term)?.meanSquare ?? null;
  const msE = ms("repeatability")!;
  const msPO = ms("interaction");
  const below = msPO ?? msE;
  const belowName = msPO === null ? "MSₑ" : "MSₚₒ";
  const { deviations, components, untruncated } = study;
  const cut = (value: number) => (value < 0 ? `${figure(value)}, cut to 0` : figure(value));
  const factors = rangeFactors({ trials: n, operators: o, parts: p });
  return [
    { figure: "Repeatability", formula: "σ²ₑ = MSₑ", numbers: `= ${figure(msE)}`, source: AIAG },
    ...(msPO === null
      ? []
      : [
          {
            figure: "Part by operator",
            formula: "σ²ₚₒ = (MSₚₒ − MSₑ) / n",
            numbers: `(${figure(msPO)} − ${figure(msE)}) / ${n} = ${cut(untruncated.interaction)}`,
            source: AIAG,
          },
        ]),
    {
      figure: "Operator",
      formula: `σ²ₒ = (MSₒ − ${belowName}) / pn`,
      numbers: `(${figure(ms("operator")!)} − ${figure(below)}) / (${p} × ${n}) = ${cut(untruncated.operator)}`,
      source: AIAG,
    },
    {
      figure: "Part to part",
      formula: `σ²ₚ = (MSₚ − ${belowName}) / on`,
      numbers: `(${figure(ms("part")!)} − ${figure(below)}) / (${o} × ${n}) = ${cut(untruncated.part)}`,
      source: AIAG,
    },
    {
      figure: "Gauge",
      formula: "σ gauge = √(σ²ₑ + σ²ₒ + σ²ₚₒ)",
      numbers: `√(${figure(components.repeatability)} + ${figure(components.operator)} + ${figure(components.interaction)}) = ${figure(deviations.grr)}`,
      source: AIAG,
    },
    {
      figure: "Of study",
      formula: "100 σ gauge / σ total",
      numbers:
        study.percentStudy === null
          ? "nothing varied"
          : `100 × ${figure(deviations.grr)} / ${figure(deviations.total)} = ${figure(study.percentStudy.grr)} %`,
      source: AIAG,
    },
    {
      figure: "Of tolerance",
      formula: "100 × 6 σ gauge / (U − L)",
      numbers:
        toleranceWidth === null || study.percentTolerance === null
          ? "no tolerance was stated"
          : `100 × 6 × ${figure(deviations.grr)} / ${figure(toleranceWidth)} = ${figure(study.percentTolerance.grr)} %`,
      source: AIAG,
    },
    {
      figure: "Classes told apart",
      formula: "ndc = ⌊1.41 σₚ / σ gauge⌋",
      numbers:
        study.ndcUnrounded === null
          ? "the gauge shows no variation"
          : `1.41 × ${figure(deviations.part)} / ${figure(deviations.grr)} = ${figure(study.ndcUnrounded)}, so ${study.ndc}`,
      source: `${AIAG}; at least 5 are commonly asked for`,
    },
    {
      figure: "Interval of the gauge",
      formula: "estimate ± √Σ (g cᵢ MSᵢ)², from the mean squares before cutting",
      numbers: `σ² ${figure(study.grrInterval.modifiedLargeSample.interval[0])} to ${figure(study.grrInterval.modifiedLargeSample.interval[1])}`,
      source:
        "Graybill and Wang 1980; Burdick, Borror and Montgomery, Journal of Quality Technology 35 (2003) (from memory)",
    },
    {
      figure: "Average and range",
      formula: "EV = R̄·K₁, AV = √((x̄ difference·K₂)² − EV²/pn), PV = R part·K₃",
      numbers: `EV = ${figure(byRange.meanRange)} × ${figure(factors.K1)} = ${figure(byRange.equipmentVariation)}; AV from ${figure(byRange.differenceOfOperators)} × ${figure(factors.K2)} = ${figure(byRange.appraiserVariation)}; PV = ${figure(byRange.partRange)} × ${figure(factors.K3)} = ${figure(byRange.partVariation)}`,
      source: `${AIAG}; factors computed and not rounded`,
    },
  ];
}

/** A crossed study is commonly made of at least this much. AIAG, from memory. */
const USUAL = { parts: 10, operators: 3, trials: 2 };

export function crossedAssumptions(
  { study, byRange }: Result,
  readings: readonly StudyReading[],
  { resolution }: StudySettings,
): Assumption[] {
  const { parts, operators, trials, values } = arrangeCrossed(readings);
  const wide = parts.flatMap((part, i) =>
    operators.flatMap((operator, j) =>
      range(values[i]![j]!) > byRange.rangeUpperLimit ? [`part ${part} by ${operator}`] : [],
    ),
  );
  const size = `${counted(parts.length, "part")}, ${counted(operators.length, "operator")}, ${counted(trials, "trial")}`;
  const isUsual =
    parts.length >= USUAL.parts && operators.length >= USUAL.operators && trials >= USUAL.trials;
  return [
    {
      words: `It is as large as commonly asked for (10 parts, 3 operators, 2 trials): ${size}.`,
      holds: isUsual,
    },
    {
      words: `Everybody scatters alike on every part: ${wide.length === 0 ? "no range of trials lies above its limit" : `the range of ${wide.join(", ")} lies above its limit`} (D₄·R̄ = ${figure(byRange.rangeUpperLimit)}).`,
      holds: wide.length === 0,
    },
    {
      words:
        study.interactionP === null
          ? "Operators differ alike on every part: it cannot be tested."
          : `Operators differ alike on every part: p of the interaction ${figure(study.interactionP)}, joined with repeatability above ${POOL_ABOVE}.`,
      holds: study.interactionP === null ? null : study.interactionP > 0.05,
    },
    {
      words:
        resolution === null
          ? "The step of the gauge is fine beside its scatter: its resolution was not stated."
          : `The step of the gauge (${figure(resolution)}) is fine beside its scatter (${figure(study.deviations.repeatability)}).`,
      holds: resolution === null ? null : resolution <= study.deviations.repeatability,
    },
    { words: "Parts were taken across the range that the process makes.", holds: null },
    { words: "Operators did not see earlier readings, and measured in random order.", holds: null },
  ];
}
