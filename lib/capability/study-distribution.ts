import type { Distribution } from "../distributions/distribution";
import { normalDistribution } from "../distributions/normal-distribution";
import type { ModelName, Parameters } from "./models/model";
import { MODELS } from "./models/models";

/** What of a study says which curve stands for its readings. */
export type StudiedShape = {
  mean: number | null;
  sdOverall: number | null;
  modelStudy: { fit: { model: ModelName; parameters: Parameters } } | null;
};

/**
 * The distribution behind the indices of a study, over the readings themselves; null without any spread.
 *
 * A fitted model lies over the distance from the natural bound and is moved back there.
 */
export function studyDistribution(
  { mean, sdOverall, modelStudy }: StudiedShape,
  { naturalBound }: { naturalBound: number | null },
): Distribution | null {
  if (modelStudy !== null) {
    const { model, parameters } = modelStudy.fit;
    return moved(MODELS[model].distribution(parameters), naturalBound ?? 0);
  }
  return mean === null || sdOverall === null || sdOverall === 0
    ? null
    : normalDistribution({ mean, standardDeviation: sdOverall });
}

function moved(distribution: Distribution, origin: number): Distribution {
  if (origin === 0) return distribution;
  const { cdf, upperTail, density, logDensity, quantile, upperQuantile } = distribution;
  return {
    cdf: (x) => cdf(x - origin),
    upperTail: (x) => upperTail(x - origin),
    density: (x) => density(x - origin),
    logDensity: (x) => logDensity(x - origin),
    quantile: (p) => quantile(p) + origin,
    upperQuantile: (q) => upperQuantile(q) + origin,
  };
}
