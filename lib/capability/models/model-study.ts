import type { Computed } from "../../computed";
import type { FeatureKind, Tolerance } from "../../plan/feature-plan";
import type { Interval } from "../intervals";
import type { PerSide } from "../outside";
import { drawnFor, parametricBootstrap, percentileBounds, REPLICATES } from "./bootstrap";
import { candidatesFor, chooseModel, fits } from "./choose-model";
import { type FittedModel, fitModel, STUDY_SEED } from "./fitted-model";
import type { ModelChoice, ModelName, Parameters } from "./model";
import { MODELS } from "./models";
import { type PercentileIndices, percentileIndices, type Quantiles, quantilesOf } from "./percentile-indices";

export const PERCENTILE_INDEX_NAMES = ["Pp", "Ppl", "Ppu", "Ppk"] as const;
export type PercentileIndexName = (typeof PERCENTILE_INDEX_NAMES)[number];

/** A capability study by the percentiles of a fitted distribution. */
export type ModelStudy = {
  fit: FittedModel;
  /** The models that were tried, in the order of preference; the one that was named, or those of the kind. */
  tried: { model: ModelName; A2: number; p: number }[];
  /** Whether the Anderson-Darling test leaves the model standing. */
  isSettled: boolean;
  /** In the feature's unit. */
  quantiles: Quantiles;
  indices: PercentileIndices;
  intervals: Record<PercentileIndexName, Interval | null>;
  lowerBounds: Record<PercentileIndexName, number | null>;
  expectedOutside: PerSide<number>;
};

/** A model's study as plain data, for a thread, a file or a store: the functions of its distribution left out. */
export type PlainModelStudy = Omit<ModelStudy, "fit"> & { fit: Omit<FittedModel, "distribution"> };

export function plainModelStudy({ fit: { distribution: _, ...fit }, ...rest }: ModelStudy): PlainModelStudy {
  return { ...rest, fit };
}

/** The same with the distribution that its parameters say. */
export function revivedModelStudy({ fit, ...rest }: PlainModelStudy): ModelStudy {
  return { ...rest, fit: { ...fit, distribution: MODELS[fit.model].distribution(fit.parameters) } };
}

export type ModelStudyInput = {
  values: ArrayLike<number>;
  tolerance: Tolerance;
  naturalBound: number | null;
  choice: ModelChoice;
  kind: FeatureKind | null;
  confidence: number;
  significance: number;
};

/**
 * Fits a model, or chooses one, and judges the tolerance by it.
 *
 * Models from zero are fitted to the distance from the natural bound, which is zero for form and position. The
 * tolerance is the one that an index is taken against, without a limit that physics sets. Intervals by parametric
 * bootstrap with a fixed seed: the same readings give the same figures.
 *
 * Source: ISO 22514-2 (from memory) and the functions it is made of.
 *
 * @returns the problems of `fitModel` and `chooseModel`
 * @throws InvalidInput when a reading or limit is not finite, or the confidence is not between 0 and 1
 */
export function modelStudy({
  values,
  tolerance,
  naturalBound,
  choice,
  kind,
  confidence,
  significance,
}: ModelStudyInput): Computed<ModelStudy> {
  const origin = naturalBound ?? 0;
  const shifted = origin === 0 ? values : Float64Array.from(values, (x) => x - origin);
  const found = choose(shifted, { choice, kind, naturalBound, significance });
  if (!found.ok) return found;

  const { fit, tried, isSettled } = found.value;
  const { lower, upper } = tolerance;
  const judged = {
    lower: lower === null ? null : lower - origin,
    upper: upper === null ? null : upper - origin,
  };
  const quantiles = quantilesOf(fit.distribution);
  return {
    ok: true,
    value: {
      fit,
      tried: tried.map(({ model, A2, p }) => ({ model, A2, p })),
      isSettled,
      quantiles: {
        below: quantiles.below + origin,
        median: quantiles.median + origin,
        above: quantiles.above + origin,
      },
      indices: percentileIndices({ quantiles, tolerance: judged }),
      ...bootstrapIndexBounds({ fit, count: values.length, tolerance: judged, confidence }),
      expectedOutside: {
        below: judged.lower === null ? null : fit.distribution.cdf(judged.lower),
        above: judged.upper === null ? null : fit.distribution.upperTail(judged.upper),
      },
    },
  };
}

function choose(
  values: ArrayLike<number>,
  {
    choice,
    kind,
    naturalBound,
    significance,
  }: {
    choice: ModelChoice;
    kind: FeatureKind | null;
    naturalBound: number | null;
    significance: number;
  },
): Computed<{ fit: FittedModel; tried: FittedModel[]; isSettled: boolean }> {
  if (choice === "auto") {
    const made = chooseModel(values, { candidates: candidatesFor(kind, naturalBound), significance });
    if (!made.ok) return made;
    return { ok: true, value: { fit: made.value.chosen, ...made.value } };
  }
  const fitted = fitModel(choice, values);
  if (!fitted.ok) return fitted;
  const fit = fitted.value;
  return { ok: true, value: { fit, tried: [fit], isSettled: fits(fit, significance) } };
}

/**
 * How far the percentile indices of a fitted model may lie from the true ones, by parametric bootstrap.
 *
 * An index is null, and so are its bounds, on a side without a limit.
 *
 * @throws InvalidInput unless count ≥ 2 and 0 < confidence < 1
 */
export function bootstrapIndexBounds({
  fit,
  count,
  tolerance,
  confidence,
  seed = STUDY_SEED,
  replicates = REPLICATES,
}: {
  fit: FittedModel;
  count: number;
  tolerance: Tolerance;
  confidence: number;
  seed?: number;
  replicates?: number;
}): Pick<ModelStudy, "intervals" | "lowerBounds"> {
  const model = MODELS[fit.model];
  const seen: Record<PercentileIndexName, number[]> = { Pp: [], Ppl: [], Ppu: [], Ppk: [] };
  const indicesOf = (parameters: Parameters) =>
    percentileIndices({ quantiles: quantilesOf(model.distribution(parameters)), tolerance });
  const found = indicesOf(fit.parameters);
  const { drawn, shrink } = drawnFor(count);
  const task = { model, parameters: fit.parameters, count: drawn, replicates, seed };
  parametricBootstrap(task, ({ parameters }) => {
    const indices = indicesOf(parameters);
    for (const name of PERCENTILE_INDEX_NAMES) {
      const index = indices[name];
      const centre = found[name];
      if (index !== null && centre !== null) seen[name].push(centre + shrink * (index - centre));
    }
  });
  const bounds = (name: PercentileIndexName) =>
    seen[name].length === 0 ? null : percentileBounds(seen[name], confidence);
  return {
    intervals: {
      Pp: bounds("Pp")?.interval ?? null,
      Ppl: bounds("Ppl")?.interval ?? null,
      Ppu: bounds("Ppu")?.interval ?? null,
      Ppk: bounds("Ppk")?.interval ?? null,
    },
    lowerBounds: {
      Pp: bounds("Pp")?.lowerBound ?? null,
      Ppl: bounds("Ppl")?.lowerBound ?? null,
      Ppu: bounds("Ppu")?.lowerBound ?? null,
      Ppk: bounds("Ppk")?.lowerBound ?? null,
    },
  };
}
