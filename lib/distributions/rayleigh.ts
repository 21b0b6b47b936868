import { requirePositive, requireProbability } from "./checks";
import type { Distribution } from "./distribution";

/**
 * The Rayleigh distribution: the distance from a point whose two coordinates miss it independently by
 * normal errors of standard deviation s and mean zero. The natural model of a centred position deviation.
 *
 *   P(X > x) = exp(−x²/2s²),  f(x) = (x/s²) exp(−x²/2s²),  x ≥ 0
 *
 * Source: ISO 22514-2 names it for position (from memory). Measured against 30-digit arithmetic: 1e-12
 * relative in tails down to 1e-12.
 *
 * @throws InvalidInput when the scale is not a positive finite number
 */
export function rayleigh({ scale }: { scale: number }): Distribution {
  requirePositive("rayleigh", { scale });
  const exponent = (x: number) => -0.5 * (x / scale) * (x / scale);
  return {
    cdf: (x) => (x <= 0 ? 0 : -Math.expm1(exponent(x))),
    upperTail: (x) => (x <= 0 ? 1 : Math.exp(exponent(x))),
    density: (x) => (x <= 0 ? 0 : (x / scale / scale) * Math.exp(exponent(x))),
    logDensity: (x) => (x <= 0 ? Number.NEGATIVE_INFINITY : Math.log(x) - 2 * Math.log(scale) + exponent(x)),
    quantile: (p) => {
      requireProbability("rayleigh", "p", p);
      return scale * Math.sqrt(-2 * Math.log1p(-p));
    },
    upperQuantile: (q) => {
      requireProbability("rayleigh", "q", q);
      return scale * Math.sqrt(-2 * Math.log(q));
    },
  };
}
