import { requireFinite } from "../../checks";
import { type Computed, computed, problem } from "../../computed";
import { mean } from "../../summary/moments";
import { notPositive } from "./not-positive";

/** Beyond these powers readings no longer tell one from another. */
const WIDEST = 12;

/**
 * The power λ that brings readings nearest to a normal distribution: (xλ − 1)/λ, and ln x at λ = 0.
 *
 *   ℓ(λ) = −(n/2) ln σ̂²(λ) + (λ − 1) Σ ln x   is largest at λ
 *
 * Readings are first divided by their geometric mean: it changes no λ and keeps powers from overflowing. The
 * likelihood has one maximum; its derivative is found where a bracket changes sign. Powers are cut at ±12.
 *
 * `centred` are the logarithms of the readings over their geometric mean exp(`meanLog`).
 *
 * Source: G. E. P. Box and D. R. Cox, J. Royal Statistical Society B 26 (1964) 211-252 (from memory);
 * NIST/SEMATECH e-Handbook 6.5.2.
 *
 * @returns the problems "too-few-readings" below three, "not-positive", "no-variation"
 * @throws InvalidInput when a reading is not finite
 */
export function likeliestPower(
  values: ArrayLike<number>,
): Computed<{ lambda: number; centred: Float64Array; meanLog: number }> {
  requireFinite("likeliestPower", "values", values);
  const n = values.length;
  if (n < 3) return problem({ code: "too-few-readings", needed: 3, got: n });
  const refused = notPositive(values);
  if (refused) return problem(refused);

  const logs = Float64Array.from(values, (x) => Math.log(x));
  const meanLog = mean(logs);
  const centred = logs.map((log) => log - meanLog);
  if (centred.every((log) => log === centred[0])) return problem({ code: "no-variation" });

  const slope = (lambda: number) => profileSlope(centred, lambda);
  const lambda =
    slope(-WIDEST) <= 0 ? -WIDEST : slope(WIDEST) >= 0 ? WIDEST : root(slope, { high: -WIDEST, low: WIDEST });
  return computed({ lambda, centred, meanLog });
}

/** dℓ/dλ, positive below the maximum. */
function profileSlope(logs: Float64Array, lambda: number): number {
  const { variance, covariance } = spread(logs, lambda);
  return (-logs.length * covariance) / variance;
}

/** Variance of the powers y, and their covariance with dy/dλ, both with n below. */
function spread(logs: Float64Array, lambda: number): { variance: number; covariance: number } {
  const powers = logs.map((log) => (lambda === 0 ? log : Math.expm1(lambda * log) / lambda));
  const slopes = logs.map((log) => {
    const t = lambda * log;
    // y' = (ln x·x^λ − y)/λ; near λ = 0 its series, since the difference has no digits there.
    if (Math.abs(t) < 1e-2) return log * log * (1 / 2 + t * (1 / 3 + t * (1 / 8 + t * (1 / 30 + t / 144))));
    return (log * Math.exp(t) - Math.expm1(t) / lambda) / lambda;
  });
  const centre = mean(powers);
  const middle = mean(slopes);
  let variance = 0;
  let covariance = 0;
  for (let i = 0; i < powers.length; i++) {
    variance += (powers[i]! - centre) ** 2;
    covariance += (powers[i]! - centre) * (slopes[i]! - middle);
  }
  return { variance: variance / powers.length, covariance: covariance / powers.length };
}

/** The zero between an end where f is negative (`low`) and one where it is positive: false position, Illinois. */
function root(f: (x: number) => number, { low, high }: { low: number; high: number }): number {
  let [a, fa] = [low, f(low)];
  let [b, fb] = [high, f(high)];
  for (let k = 0; k < 200; k++) {
    const x = fb === fa ? (a + b) / 2 : b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (fx === 0 || Math.abs(x - b) <= 1e-13) return x;
    if (fx * fb < 0) [a, fa] = [b, fb];
    else fa /= 2;
    [b, fb] = [x, fx];
  }
  return b;
}
