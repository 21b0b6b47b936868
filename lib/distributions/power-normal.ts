import { requireFiniteNumbers } from "../checks";
import { requirePositive } from "./checks";
import type { Distribution } from "./distribution";
import { normalCdf, normalQuantile, normalUpperQuantile, normalUpperTail } from "./normal";

/**
 * The distribution of positive readings whose power by Box and Cox is normal.
 *
 *   y = ((x/g)^λ − 1) / λ,  ln(x/g) at λ = 0;   P(X ≤ x) = Φ((y − μ) / σ) / K
 *
 * A power has an edge at −1/λ that no positive reading reaches: below it for λ > 0, above it for λ < 0. The normal
 * curve is cut there and what is left of it, K, is made whole. For readings far from zero the edge lies hundreds of σ
 * away and K is 1.
 *
 * `geometricMean` g has the unit of the readings; `powerMean` μ and `powerDeviation` σ have none.
 *
 * Source: J. Freeman and R. Modarres, Statistics and Probability Letters 76 (2006) 764-772 (from memory).
 *
 * @throws InvalidInput when λ or μ is not finite, or g or σ not positive
 */
export function powerNormal({
  lambda,
  geometricMean,
  powerMean,
  powerDeviation,
}: {
  lambda: number;
  geometricMean: number;
  powerMean: number;
  powerDeviation: number;
}): Distribution {
  requireFiniteNumbers("powerNormal", { lambda, powerMean });
  requirePositive("powerNormal", { geometricMean, powerDeviation });
  const power = (x: number) => {
    const log = Math.log(x / geometricMean);
    return lambda === 0 ? log : Math.expm1(lambda * log) / lambda;
  };
  const z = (x: number) => (power(x) - powerMean) / powerDeviation;
  const reading = (standard: number) => {
    const y = powerMean + powerDeviation * standard;
    if (lambda === 0) return geometricMean * Math.exp(y);
    // Rounding may put a far quantile a hair beyond the edge; it belongs on it.
    return geometricMean * Math.exp(Math.log1p(Math.max(-1, lambda * y)) / lambda);
  };

  const edge = lambda === 0 ? null : (-1 / lambda - powerMean) / powerDeviation;
  const cutBelow = edge !== null && lambda > 0 ? normalCdf(edge) : 0;
  const cutAbove = edge !== null && lambda < 0 ? normalUpperTail(edge) : 0;
  const kept = 1 - cutBelow - cutAbove;
  const logDensity = (x: number) =>
    x <= 0
      ? Number.NEGATIVE_INFINITY
      : -0.5 * z(x) ** 2 -
        0.5 * Math.log(2 * Math.PI) -
        Math.log(powerDeviation * kept * x) +
        lambda * Math.log(x / geometricMean);
  return {
    cdf: (x) => (x <= 0 ? 0 : (normalCdf(z(x)) - cutBelow) / kept),
    upperTail: (x) => (x <= 0 ? 1 : (normalUpperTail(z(x)) - cutAbove) / kept),
    density: (x) => Math.exp(logDensity(x)),
    logDensity,
    quantile: (p) => reading(normalQuantile(cutBelow + p * kept)),
    upperQuantile: (q) => reading(normalUpperQuantile(cutAbove + q * kept)),
  };
}
