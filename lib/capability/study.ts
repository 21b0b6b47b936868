import { lagOneAutocorrelation } from "../autocorrelation/lag-one";
import { InvalidInput, requireFinite } from "../checks";
import type { Computed, Problem } from "../computed";
import type { FeatureKind, Tolerance } from "../plan/feature-plan";
import { mean, sampleStandardDeviation } from "../summary/moments";
import { claim } from "./claim";
import { type ClaimWords, GATE_REQUIREMENTS, type Gate, type GateRequirements, judgeGates } from "./gates";
import { capabilityIndices, type IndexName, type Indices, NO_INDICES } from "./indices";
import { capabilityIntervals, type Interval } from "./intervals";
import type { ModelChoice, ModelName } from "./models/model";
import { type ModelStudy, type ModelStudyInput, modelStudy } from "./models/model-study";
import { type Normality, normality } from "./normality";
import { clopperPearson, expectedOutside, observedOutside, type PerSide } from "./outside";
import { judgedTolerance } from "./tolerance";

/** Everything a study needs to know of one feature; null where something is not known. */
export type StudyInput = {
  /** In the order of time, in the feature's unit. */
  values: ArrayLike<number>;
  /** The sigma within subgroups of the chart in use, its estimator's name and degrees of freedom. */
  sigmaWithin: number | null;
  degreesOfFreedomWithin: number | null;
  estimator: string | null;
  subgroups: number;
  lots: number | null;
  unresolvedSignals: number | null;
  tolerance: Tolerance;
  target: number | null;
  naturalBound: number | null;
  /** The gauge's stated step; seen in the readings themselves when null. */
  resolution: number | null;
  /** Share of the tolerance that the gauge's variation takes (0.12 for 12 %). */
  gaugeShare: number | null;
  /** Where that share is from, as a sentence that the gate quotes. */
  gaugeBasis?: string | null | undefined;
  /** How a page writes a length, in sentences of gates and claim; a bare figure when absent. */
  lengthWords?: ((length: number) => string) | undefined;
  confidence: number;
  /** The charted points in the order of time, for the test of independence; the readings when absent. */
  points?: ArrayLike<number>;
  /** Number of pieces, when a piece was measured more than once; the number of readings when absent. */
  pieces?: number;
  requirements?: GateRequirements;
  /** The distribution behind the indices; the normal one when absent. "auto" chooses by kind, then by fit. */
  model?: ModelChoice | undefined;
  /** What the feature is, for the choice of a model. */
  kind?: FeatureKind | null | undefined;
  /** The language of the claim and of the reasons of the gates; English when absent. */
  words?: ClaimWords | undefined;
  /** Does the slow part, fit and bootstrap; `modelStudy` when absent. For a caller that keeps or moves that work. */
  fitting?: ((input: ModelStudyInput) => Computed<ModelStudy>) | undefined;
};

/** One feature's study: the object that the command line prints, plus the claim and what it rests on. */
export type CapabilityStudy = {
  count: number;
  mean: number | null;
  sdOverall: number | null;
  sigmaWithin: number | null;
  estimator: string | null;
} & Indices & {
    intervals: Record<IndexName, Interval | null>;
    lowerBounds: Record<IndexName, number | null>;
    /** Fractions by the model and the overall sigma. */
    expectedOutside: PerSide<number>;
    /** Readings counted. */
    observedOutside: PerSide<number>;
    /** Exact interval of the fraction behind each count, at the study's confidence. */
    observedIntervals: PerSide<Interval>;
    normality: Normality | null;
    model: ModelName;
    /** The fitted distribution with its quantiles and the models tried; null for the normal one. */
    modelStudy: ModelStudy | null;
    gates: Gate[];
    confidence: number;
    claim: string;
    /** Why there are no indices; null when there are. */
    problem: Problem | null;
  };

/**
 * The capability and performance study of one feature, on the normal model unless another is asked for.
 *
 * The one road by which the page, the board and the command line come to an index: figures, their
 * uncertainty, what lies outside, the gates and the sentence that may be said. Shortages leave null
 * figures and a reason, never Infinity.
 *
 * On a fitted model the P indices, their bounds and the fractions outside are those of its percentiles. The C
 * indices are null: only the normal model parts a spread within subgroups from the whole.
 *
 * Source: see the functions it is made of.
 *
 * @throws InvalidInput when an argument is broken: a reading or limit that is not finite, limits swapped,
 *   a confidence not between 0 and 1, a negative count
 */
export function capabilityStudy(input: StudyInput): CapabilityStudy {
  const where = "capabilityStudy";
  const { values, sigmaWithin, degreesOfFreedomWithin, confidence } = input;
  requireFinite(where, "values", values);
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput(where, "confidence", confidence, "a probability between 0 and 1");
  }
  if (input.resolution !== null && !(input.resolution > 0 && Number.isFinite(input.resolution))) {
    throw new InvalidInput(where, "resolution", input.resolution, "positive");
  }

  const count = values.length;
  const tolerance = judgedTolerance(where, input);
  const centre = count >= 1 ? mean(values) : null;
  const sdOverall = count >= 2 ? sampleStandardDeviation(values) : null;
  const hasSpread = centre !== null && sdOverall !== null;

  const requirements = input.requirements ?? GATE_REQUIREMENTS;
  const modelled = fittedModel(input, { tolerance, significance: requirements.significance });
  const fitted = modelled?.ok ? modelled.value : null;
  const found = hasSpread ? capabilityIndices({ ...input, mean: centre, sdOverall }) : tooFew(count);
  const problem = problemOf(found) ?? problemOf(modelled);
  const indices =
    problem !== null || !found.ok ? NO_INDICES : fitted ? { ...NO_INDICES, ...fitted.indices } : found.value;
  const usual = capabilityIntervals({
    indices: fitted ? NO_INDICES : indices,
    count,
    degreesOfFreedomWithin,
    confidence,
  });
  const intervals = { ...usual.intervals, ...fitted?.intervals };
  const lowerBounds = { ...usual.lowerBounds, ...fitted?.lowerBounds };

  const shape = normality(values);
  const observed = observedOutside({ values, tolerance });
  const gates = judgeGates(
    {
      unresolvedSignals: input.unresolvedSignals,
      subgroups: input.subgroups,
      pieces: input.pieces ?? count,
      lots: input.lots,
      normality: shape,
      fit: fitted && { ...fitted.fit, count },
      gaugeShare: input.gaugeShare,
      gaugeBasis: input.gaugeBasis,
      lengthWords: input.lengthWords,
      lagOne: lagOneAutocorrelation(input.points ?? values),
      step: gaugeStep(shape.ok ? shape.value.step : null, input.resolution),
      sigma: sigmaWithin ?? sdOverall,
      tolerance,
    },
    requirements,
    input.words,
  );

  return {
    count,
    mean: centre,
    sdOverall,
    sigmaWithin,
    estimator: input.estimator,
    ...indices,
    intervals,
    lowerBounds,
    expectedOutside: fitted
      ? fitted.expectedOutside
      : hasSpread && sdOverall > 0
        ? expectedOutside({ mean: centre, sigma: sdOverall, tolerance })
        : { below: null, above: null },
    observedOutside: observed,
    observedIntervals: {
      below: intervalOf(observed.below, { of: count, confidence }),
      above: intervalOf(observed.above, { of: count, confidence }),
    },
    normality: shape.ok ? shape.value : null,
    model: modelled === null ? "normal" : (fitted?.fit.model ?? named(input.model)),
    modelStudy: fitted,
    gates: gates.map(({ gate, passed, reason }) => ({ gate, passed, reason })),
    confidence,
    claim: claim({
      indices,
      lowerBounds,
      confidence,
      gates,
      problem,
      sigmaWithin,
      model: fitted?.fit.model,
      words: input.words,
      lengthWords: input.lengthWords,
    }),
    problem,
  };
}

function problemOf(found: Computed<unknown> | null): Problem | null {
  return found === null || found.ok ? null : found.problem;
}

/** Null when the normal model is asked for, or chosen. */
function fittedModel(
  { model, values, naturalBound, kind, confidence, fitting = modelStudy }: StudyInput,
  { tolerance, significance }: { tolerance: Tolerance; significance: number },
): Computed<ModelStudy> | null {
  if (model === undefined || model === "normal") return null;
  const choice = { choice: model, kind: kind ?? null, naturalBound, significance };
  const study = fitting({ values, tolerance, confidence, ...choice });
  return study.ok && study.value.fit.model === "normal" ? null : study;
}

/** The model to name while none could be fitted. */
function named(model: ModelChoice | undefined): ModelName {
  return model === undefined || model === "auto" ? "normal" : model;
}

function tooFew(got: number): { ok: false; problem: Problem } {
  return { ok: false, problem: { code: "too-few-readings", needed: 2, got } };
}

/**
 * The step that the gauge resolves. Readings off any grid, or on one far finer than the gauge's stated step,
 * were computed (temperature, inches): then the stated step counts.
 */
export function gaugeStep(seen: number | null, stated: number | null): number | null {
  if (seen === null || (stated !== null && seen < stated / COMPUTED_GRID)) return stated;
  return seen;
}

const COMPUTED_GRID = 100;

function intervalOf(
  count: number | null,
  { of, confidence }: { of: number; confidence: number },
): Interval | null {
  return count === null || of === 0 ? null : clopperPearson({ count, of, confidence });
}
