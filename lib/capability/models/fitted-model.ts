import { type Computed, computed } from "../../computed";
import type { Distribution } from "../../distributions/distribution";
import { normality } from "../normality";
import { gridStep } from "../resolution";
import { drawnFor, parametricBootstrap, REPLICATES } from "./bootstrap";
import { andersonDarlingOverGrid, andersonDarlingStatistic } from "./goodness";
import type { ModelName, Parameters } from "./model";
import { logLikelihood, MODELS } from "./models";

/** A model fitted to readings, and how well it stands for them. */
export type FittedModel = {
  model: ModelName;
  parameters: Parameters;
  distribution: Distribution;
  logLikelihood: number;
  A2: number;
  /** Probability of an A² as large when the readings do come from this family, parameters estimated. */
  p: number;
  /** The same with ties spread over the gauge's grid; null without ties. */
  spreadOverGrid: { A2: number; p: number } | null;
};

/** Seed of every simulation in a study: the same readings give the same figures, on any machine and day. */
export const STUDY_SEED = 20_514;

/**
 * Fits one model to readings by maximum likelihood and tests the fit by Anderson-Darling.
 *
 * The p-value accounts for the parameters having been estimated. Normal: D'Agostino and Stephens's approximation;
 * lognormal: the same on ln x. The others, and coarse lognormal readings, by parametric bootstrap with a fixed
 * seed,
 *
 *   p = (1 + number of replicates with A² at least as large) / (1 + replicates)
 *
 * since the folded normal's A² depends on its parameters and no table covers it.
 *
 * Source: M. A. Stephens in R. B. D'Agostino and M. A. Stephens, Goodness-of-Fit Techniques (1986), chapter 4
 * (from memory); B. Efron and R. J. Tibshirani (1993), as in ./bootstrap.
 *
 * @returns the problems of the model's fit: "too-few-readings", "not-positive", "no-variation"
 * @throws InvalidInput when a reading is not a finite number
 */
export function fitModel(
  name: ModelName,
  values: ArrayLike<number>,
  { seed = STUDY_SEED, replicates = REPLICATES } = {},
): Computed<FittedModel> {
  const model = MODELS[name];
  const fitted = model.fit(values);
  if (!fitted.ok) return fitted;

  const parameters = fitted.value;
  const distribution = model.distribution(parameters);
  const sorted = Float64Array.from(values).sort();
  const found = {
    model: name,
    parameters,
    distribution,
    logLikelihood: logLikelihood(model, parameters, values),
    A2: andersonDarlingStatistic(sorted, distribution),
  };
  const step = hasTies(sorted) ? gridStep(sorted) : null;
  const published = publishedTest(name, { values, step });
  if (published) return computed({ ...found, ...published });

  const pOf = simulatedP({ name, parameters, count: drawnFor(values.length).drawn, replicates, seed });
  const overGrid = step === null ? null : andersonDarlingOverGrid(sorted, { distribution, step });
  return computed({
    ...found,
    p: pOf(found.A2),
    spreadOverGrid: overGrid === null ? null : { A2: overGrid, p: pOf(overGrid) },
  });
}

/** The p-value where a published approximation gives it; null where it has to be simulated. */
function publishedTest(
  name: ModelName,
  { values, step }: { values: ArrayLike<number>; step: number | null },
): Pick<FittedModel, "p" | "spreadOverGrid"> | null {
  // Steps of equal width are not of equal width on ln x.
  if (name !== "normal" && (name !== "lognormal" || step !== null)) return null;
  const tested = normality(name === "normal" ? values : Float64Array.from(values, (x) => Math.log(x)));
  return tested.ok ? { p: tested.value.p, spreadOverGrid: tested.value.spreadOverGrid } : null;
}

/** The distribution of A² under the model, as a function from A² to p. */
function simulatedP({
  name,
  parameters,
  count,
  replicates,
  seed,
}: {
  name: ModelName;
  parameters: Parameters;
  count: number;
  replicates: number;
  seed: number;
}): (A2: number) => number {
  const model = MODELS[name];
  const seen: number[] = [];
  parametricBootstrap({ model, parameters, count, replicates, seed }, (replicate) => {
    seen.push(andersonDarlingStatistic(replicate.sorted, model.distribution(replicate.parameters)));
  });
  return (A2) => (1 + seen.filter((one) => one >= A2).length) / (1 + seen.length);
}

function hasTies(sorted: Float64Array): boolean {
  for (let i = 1; i < sorted.length; i++) if (sorted[i] === sorted[i - 1]) return true;
  return false;
}
