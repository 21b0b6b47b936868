import { InvalidInput } from "../checks";
import {
  type CombinedInterval,
  type MeanSquareTerm,
  modifiedLargeSample,
  satterthwaite,
} from "../components/linear-combination";
import type { CrossedReadings } from "./arrange";
import { type CrossedAnova, type CrossedTerm, crossedAnova } from "./crossed-anova";

export const STUDY_COMPONENTS = [
  "repeatability",
  "operator",
  "interaction",
  "reproducibility",
  "grr",
  "part",
  "total",
] as const;
export type StudyComponent = (typeof STUDY_COMPONENTS)[number];
type PerComponent<T> = Record<StudyComponent, T>;

/** Above this p the interaction is taken for repeatability, as AIAG does. */
export const POOL_ABOVE = 0.25;

/** Study variation is six standard deviations wide, as a process is. */
const STUDY_WIDTH = 6;

export type CrossedStudy = {
  /** The table in use: without interaction when it was pooled. */
  anova: CrossedAnova;
  interactionP: number | null;
  pooled: boolean;
  /** Variances, in the square of the unit, each cut at 0. */
  components: PerComponent<number>;
  /** As the mean squares give them; a negative one says that its source adds nothing that can be seen. */
  untruncated: { repeatability: number; operator: number; interaction: number; part: number };
  deviations: PerComponent<number>;
  /** Per cent of the total variance; null when nothing varies. */
  contribution: PerComponent<number> | null;
  /** Per cent of the total standard deviation; null when nothing varies. */
  percentStudy: PerComponent<number> | null;
  /** Per cent of the width of the tolerance that six standard deviations take; null without both limits. */
  percentTolerance: PerComponent<number> | null;
  /** Classes of parts that the gauge tells apart; null for a gauge without any variation. */
  ndc: number | null;
  ndcUnrounded: number | null;
  /** Of the variance of the gauge, repeatability and reproducibility together. */
  grrInterval: { modifiedLargeSample: CombinedInterval; satterthwaite: CombinedInterval | null };
  repeatabilityInterval: CombinedInterval;
};

/**
 * How much of what is seen is the gauge? Each operator measures each part several times.
 *
 *   repeatability σ²ₑ = MSₑ,  interaction = (MSₚₒ − MSₑ)/n,  operator = (MSₒ − MSₚₒ)/pn,  part = (MSₚ − MSₚₒ)/on
 *   reproducibility = operator + interaction,  GRR = repeatability + reproducibility,  total = GRR + part
 *   % study = 100 σ/σ total,  % tolerance = 100·6σ/(U − L),  ndc = ⌊1.41 σ part / σ GRR⌋
 *
 * The interaction is pooled with repeatability when its p exceeds `poolAbove`. Components are cut at 0 one by one.
 * The interval of the GRR variance is that of the sum before cutting: the uncertainty of a component of 0 counts.
 *
 * Source: AIAG, Measurement Systems Analysis, 4th edition (from memory); intervals as in lib/components.
 *
 * @param toleranceWidth U − L in the unit of the readings; null without both limits
 * @throws InvalidInput as `crossedAnova`; for a width that is not positive, or unless 0 < confidence < 1
 */
export function crossedStudy(
  readings: CrossedReadings,
  {
    toleranceWidth,
    poolAbove,
    confidence,
  }: { toleranceWidth: number | null; poolAbove: number; confidence: number },
): CrossedStudy {
  if (toleranceWidth !== null && !(toleranceWidth > 0 && Number.isFinite(toleranceWidth))) {
    throw new InvalidInput("crossedStudy", "toleranceWidth", toleranceWidth, "positive");
  }
  const full = crossedAnova(readings, { interaction: true });
  const interactionP = full.lines.find(({ term }) => term === "interaction")!.p;
  // Without any repeatability there is nothing to pool with.
  const pooled = interactionP !== null && interactionP > poolAbove;
  const anova = pooled ? crossedAnova(readings, { interaction: false }) : full;
  const parts = varianceParts(anova, readings);
  const components = assembled(parts);
  const deviations = mapped(components, Math.sqrt);
  const ndcUnrounded = deviations.grr === 0 ? null : (1.41 * deviations.part) / deviations.grr;
  return {
    anova,
    interactionP,
    pooled,
    components,
    untruncated: parts,
    deviations,
    contribution: components.total === 0 ? null : mapped(components, (one) => (100 * one) / components.total),
    percentStudy: deviations.total === 0 ? null : mapped(deviations, (one) => (100 * one) / deviations.total),
    percentTolerance:
      toleranceWidth === null
        ? null
        : mapped(deviations, (one) => (100 * STUDY_WIDTH * one) / toleranceWidth),
    ndc: ndcUnrounded === null ? null : Math.floor(ndcUnrounded),
    ndcUnrounded,
    ...intervals(anova, { readings, confidence }),
  };
}

function meanSquares({ lines }: CrossedAnova) {
  const of = (term: CrossedTerm) => lines.find((line) => line.term === term);
  const repeatability = of("repeatability")!;
  return {
    part: of("part")!,
    operator: of("operator")!,
    interaction: of("interaction") ?? null,
    repeatability,
    /** What part and operator are measured against. */
    below: of("interaction") ?? repeatability,
  };
}

function varianceParts(anova: CrossedAnova, { parts, operators, trials }: CrossedReadings) {
  const { part, operator, interaction, repeatability, below } = meanSquares(anova);
  return {
    repeatability: repeatability.meanSquare,
    operator: (operator.meanSquare - below.meanSquare) / (parts.length * trials),
    interaction: interaction === null ? 0 : (interaction.meanSquare - repeatability.meanSquare) / trials,
    part: (part.meanSquare - below.meanSquare) / (operators.length * trials),
  };
}

function assembled(parts: CrossedStudy["untruncated"]): PerComponent<number> {
  const { repeatability } = parts;
  const operator = Math.max(0, parts.operator);
  const interaction = Math.max(0, parts.interaction);
  const part = Math.max(0, parts.part);
  const reproducibility = operator + interaction;
  const grr = repeatability + reproducibility;
  return { repeatability, operator, interaction, reproducibility, grr, part, total: grr + part };
}

function mapped(values: PerComponent<number>, of: (value: number) => number): PerComponent<number> {
  return {
    repeatability: of(values.repeatability),
    operator: of(values.operator),
    interaction: of(values.interaction),
    reproducibility: of(values.reproducibility),
    grr: of(values.grr),
    part: of(values.part),
    total: of(values.total),
  };
}

/** GRR = [MSₒ + (p − 1) MSₚₒ + p(n − 1) MSₑ] / pn; pooled, [MSₒ + (pn − 1) MSₑ] / pn. */
function intervals(
  anova: CrossedAnova,
  { readings, confidence }: { readings: CrossedReadings; confidence: number },
): Pick<CrossedStudy, "grrInterval" | "repeatabilityInterval"> {
  const { operator, interaction, repeatability } = meanSquares(anova);
  const p = readings.parts.length;
  const n = readings.trials;
  const terms: MeanSquareTerm[] =
    interaction === null
      ? [
          { ...operator, coefficient: 1 / (p * n) },
          { ...repeatability, coefficient: 1 - 1 / (p * n) },
        ]
      : [
          { ...operator, coefficient: 1 / (p * n) },
          { ...interaction, coefficient: (p - 1) / (p * n) },
          { ...repeatability, coefficient: (n - 1) / n },
        ];
  const byLargeSample = modifiedLargeSample(terms, confidence);
  return {
    grrInterval: {
      modifiedLargeSample: byLargeSample,
      satterthwaite: byLargeSample.estimate > 0 ? satterthwaite(terms, confidence) : null,
    },
    repeatabilityInterval: modifiedLargeSample([{ ...repeatability, coefficient: 1 }], confidence),
  };
}
