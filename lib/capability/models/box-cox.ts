import { InvalidInput, requireFinite } from "../../checks";
import { type Computed, computed, problem } from "../../computed";
import { chiSquareQuantile } from "../../distributions/chi-square";
import type { Tolerance } from "../../plan/feature-plan";
import { mean, sampleStandardDeviation } from "../../summary/moments";
import type { Interval } from "../intervals";
import { notPositive } from "./not-positive";

/** Beyond these powers readings no longer tell one from another. */
const WIDEST = 12;

export type BoxCox = {
  lambda: number;
  /** Powers that the likelihood ratio does not reject at the confidence; cut at ±12. */
  interval: Interval;
  /** −(n/2) ln σ̂² + (λ − 1) Σ ln x, with n below in σ̂². */
  logLikelihood: number;
  /** Mean and standard deviation (n − 1) of the transformed readings. */
  mean: number;
  standardDeviation: number;
};

/**
 * x as a power nearer to normal: (xλ − 1)/λ, and ln x at λ = 0.
 *
 * @throws InvalidInput unless x > 0
 */
export function boxCoxTransform(x: number, lambda: number): number {
  if (!(x > 0)) throw new InvalidInput("boxCoxTransform", "x", x, "positive");
  const log = Math.log(x);
  return lambda === 0 ? log : Math.expm1(lambda * log) / lambda;
}

/**
 * The power that brings readings nearest to a normal distribution, with those that would do nearly as well.
 *
 *   ℓ(λ) = −(n/2) ln σ̂²(λ) + (λ − 1) Σ ln x   is largest at λ
 *   interval: all λ' with 2[ℓ(λ) − ℓ(λ')] at most the chi-square quantile of one degree of freedom
 *
 * Readings are first divided by their geometric mean: it changes no λ and keeps powers from overflowing. The
 * likelihood has one maximum; its derivative is found where a bracket changes sign.
 *
 * Source: G. E. P. Box and D. R. Cox, J. Royal Statistical Society B 26 (1964) 211-252 (from memory);
 * NIST/SEMATECH e-Handbook 6.5.2.
 *
 * @returns the problems "too-few-readings" below three, "not-positive", "no-variation"
 * @throws InvalidInput when a reading is not finite or the confidence is not between 0 and 1
 */
export function boxCox(values: ArrayLike<number>, { confidence }: { confidence: number }): Computed<BoxCox> {
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput("boxCox", "confidence", confidence, "a probability between 0 and 1");
  }
  const likeliest = likeliestPower(values);
  if (!likeliest.ok) return likeliest;
  const n = values.length;
  const { lambda, centred, meanLog } = likeliest.value;
  const best = profile(centred, lambda);
  const allowed = chiSquareQuantile(confidence, 1) / 2;
  const shortfall = (x: number) => profile(centred, x) - best + allowed;
  const lower = shortfall(-WIDEST) > 0 ? -WIDEST : root(shortfall, { low: -WIDEST, high: lambda });
  const upper = shortfall(WIDEST) > 0 ? WIDEST : root(shortfall, { low: WIDEST, high: lambda });

  const transformed = Float64Array.from(values, (x) => boxCoxTransform(x, lambda));
  return computed({
    lambda,
    interval: [lower, upper],
    // Dividing by the geometric mean g multiplies σ̂ by g^λ: put back, so that ℓ is that of the readings.
    logLikelihood: best - n * meanLog,
    mean: mean(transformed),
    standardDeviation: sampleStandardDeviation(transformed),
  });
}

/**
 * The power with the highest likelihood, without its interval: a bootstrap asks for it a thousand times.
 *
 * `centred` are the logarithms of the readings over their geometric mean exp(`meanLog`).
 *
 * @returns the problems of `boxCox`
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

/** Tolerance limits as powers; a limit at or below zero has no image, and no reading can reach it. */
export function boxCoxTolerance({ lower, upper }: Tolerance, lambda: number): Tolerance {
  const image = (limit: number | null) =>
    limit === null || limit <= 0 ? null : boxCoxTransform(limit, lambda);
  return { lower: image(lower), upper: image(upper) };
}

/** ℓ(λ) of readings whose geometric mean is 1, given as logarithms. */
function profile(logs: Float64Array, lambda: number): number {
  return -(logs.length / 2) * Math.log(spread(logs, lambda).variance);
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
