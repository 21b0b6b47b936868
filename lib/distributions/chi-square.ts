import gammaln from "@stdlib/math-base-special-gammaln";
import libraryQuantile from "@stdlib/stats-base-dists-chisquare-quantile";
import { requirePositive, requireProbability } from "./checks";
import { regularizedGamma } from "./incomplete-gamma";
import { solveQuantile } from "./solve-quantile";

/** P(X ≤ x) for chi-square with any positive degrees of freedom. */
export function chiSquareCdf(x: number, degreesOfFreedom: number): number {
  requirePositive("chiSquareCdf", { degreesOfFreedom });
  return regularizedGamma(degreesOfFreedom / 2, x / 2).lower;
}

/** P(X > x), accurate far out. */
export function chiSquareUpperTail(x: number, degreesOfFreedom: number): number {
  requirePositive("chiSquareUpperTail", { degreesOfFreedom });
  return regularizedGamma(degreesOfFreedom / 2, x / 2).upper;
}

/**
 * The x with P(X ≤ x) = p.
 *
 * The library's quantile is exact to 1e-14 up to some 600 degrees of freedom; beyond, its incomplete gamma
 * function fails near the mean (see incomplete-gamma.ts) and x is off by up to 1e-5 relative. Newton's
 * steps on our own distribution function put that right.
 *
 * @throws InvalidInput unless 0 < p < 1 and the degrees of freedom are positive
 */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
  requireProbability("chiSquareQuantile", "p", p);
  requirePositive("chiSquareQuantile", { degreesOfFreedom });
  let x = libraryQuantile(p, degreesOfFreedom);
  if (degreesOfFreedom <= 500) return x;
  // Wide distributions are near normal here: three steps from 1e-5 reach the last digits.
  for (let k = 0; k < 4; k++) {
    const { lower, upper } = regularizedGamma(degreesOfFreedom / 2, x / 2);
    const excess = p <= 0.5 ? lower - p : 1 - p - upper;
    const step = excess / density(x, degreesOfFreedom);
    x -= step;
    if (Math.abs(step) < 1e-14 * x) break;
  }
  return x;
}

/** Density by Stirling's form of the gamma function; used above 500 degrees of freedom only. */
function density(x: number, degreesOfFreedom: number): number {
  const a = degreesOfFreedom / 2;
  const ratio = x / degreesOfFreedom;
  return (Math.exp(a * (Math.log(ratio) - ratio + 1) - 1 / (12 * a)) * Math.sqrt(a / (2 * Math.PI))) / x;
}

/**
 * The density, (x/2)^(ν/2 − 1) e^(−x/2) / 2Γ(ν/2).
 *
 * @throws InvalidInput unless the degrees of freedom are positive
 */
export function chiSquareDensity(x: number, degreesOfFreedom: number): number {
  requirePositive("chiSquareDensity", { degreesOfFreedom });
  if (x < 0) return 0;
  if (degreesOfFreedom > 500) return density(x, degreesOfFreedom);
  const a = degreesOfFreedom / 2;
  return 0.5 * Math.exp((a - 1) * Math.log(x / 2) - x / 2 - gammaln(a));
}

/**
 * The x with P(X > x) = q, exact for tiny q where 1 − q would lose its digits.
 *
 * @throws InvalidInput unless 0 < q < 1 and the degrees of freedom are positive
 */
export function chiSquareUpperQuantile(q: number, degreesOfFreedom: number): number {
  requireProbability("chiSquareUpperQuantile", "q", q);
  requirePositive("chiSquareUpperQuantile", { degreesOfFreedom });
  return solveQuantile(
    {
      cdf: (x) => chiSquareCdf(x, degreesOfFreedom),
      upperTail: (x) => chiSquareUpperTail(x, degreesOfFreedom),
      density: (x) => chiSquareDensity(x, degreesOfFreedom),
    },
    { tail: "upper", probability: q, start: degreesOfFreedom, isPositive: true },
  );
}
