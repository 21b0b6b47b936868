import { requireFiniteNumbers } from "../checks";
import { requirePositive } from "./checks";
import type { Distribution } from "./distribution";
import { normalCdf, normalDensity, normalQuantile, normalUpperQuantile, normalUpperTail } from "./normal";

/**
 * The normal distribution with mean and standard deviation filled in, for code that works with any
 * distribution. See ./normal for the standard one and its accuracy.
 *
 * @throws InvalidInput when the mean is not finite or the standard deviation not positive
 */
export function normalDistribution({
  mean,
  standardDeviation: sigma,
}: {
  mean: number;
  standardDeviation: number;
}): Distribution {
  requireFiniteNumbers("normalDistribution", { mean });
  requirePositive("normalDistribution", { standardDeviation: sigma });
  const z = (x: number) => (x - mean) / sigma;
  return {
    cdf: (x) => normalCdf(z(x)),
    upperTail: (x) => normalUpperTail(z(x)),
    density: (x) => normalDensity(z(x)) / sigma,
    logDensity: (x) => -0.5 * z(x) ** 2 - Math.log(sigma) - 0.5 * Math.log(2 * Math.PI),
    quantile: (p) => mean + sigma * normalQuantile(p),
    upperQuantile: (q) => mean + sigma * normalUpperQuantile(q),
  };
}
