import type { Computed } from "../../computed";
import type { Distribution } from "../../distributions/distribution";
import type { RandomStream } from "../../random/random-stream";

export const MODEL_NAMES = [
  "normal",
  "lognormal",
  "weibull",
  "rayleigh",
  "folded-normal",
  "box-cox",
] as const;
export type ModelName = (typeof MODEL_NAMES)[number];

/** A named model, or the one that the feature's kind and then the fit suggest. */
export const MODEL_CHOICES = [...MODEL_NAMES, "auto"] as const;
export type ModelChoice = (typeof MODEL_CHOICES)[number];

/** The parameters of a model by their names in lib/distributions. */
export type Parameters = Readonly<Record<string, number>>;

/** One family of distributions that readings may follow. */
export type Model = {
  name: ModelName;
  /** Maximum likelihood; the shortage when the readings cannot come from it. */
  fit(values: ArrayLike<number>): Computed<Parameters>;
  distribution(parameters: Parameters): Distribution;
  /** One reading of it, from a seeded stream. */
  draw(parameters: Parameters, stream: RandomStream): number;
};
