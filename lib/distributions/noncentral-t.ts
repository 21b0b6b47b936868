import gammaln from "@stdlib/math-base-special-gammaln";
import { InvalidInput, requireFiniteNumbers } from "../checks";
import { requirePositive, requireProbability } from "./checks";
import { gaussLegendre } from "./gauss-legendre";
import { normalCdf, normalUpperTail } from "./normal";

const RULE = gaussLegendre(16);

/** Widths of the step of Φ at which panels end; beyond ±9 it is 0 or 1 to the last digit that counts. */
const STEP_EDGES = [-9, -6, -4, -2, 0, 2, 4, 6, 9];

export type NoncentralT = { degreesOfFreedom: number; noncentrality: number };

/**
 * P(T ≤ t) and P(T > t) for the noncentral t: T = (Z + δ) / S with S² a mean square of ν degrees of
 * freedom. (x̄ − L)·√n / s of a normal process follows it with δ = √n (μ − L)/σ, so it carries the exact
 * bounds of one-sided capability indices.
 *
 *   P(T ≤ t) = ∫ Φ(t·s − δ) f(s) ds,  f the density of S = √(χ²_ν / ν)
 *
 * by Gauss-Legendre quadrature on panels that follow both the density (narrow round 1 for large ν) and
 * the step of Φ (round s = δ/t, width 1/|t|). Each tail is integrated by itself. Accuracy 1e-9 and better
 * for ν ≥ 1; the series in common use fail above δ = 37, which Cpk 1.33 with 100 pieces exceeds.
 *
 * @throws InvalidInput when an argument is not finite or ν < 1
 */
export function noncentralTTails(
  t: number,
  { degreesOfFreedom, noncentrality }: NoncentralT,
): { lower: number; upper: number } {
  const where = "noncentralTTails";
  requireFiniteNumbers(where, { t, noncentrality });
  requirePositive(where, { degreesOfFreedom });
  if (degreesOfFreedom < 1) throw new InvalidInput(where, "degreesOfFreedom", degreesOfFreedom, "at least 1");

  const edges = panelEdges(t, { degreesOfFreedom, noncentrality });
  const logFront =
    Math.LN2 + (degreesOfFreedom / 2) * Math.log(degreesOfFreedom / 2) - gammaln(degreesOfFreedom / 2);
  // At s = 1 the exponent is logFront − ν/2, a difference of numbers as large as ν·ln ν: for many degrees
  // of freedom Stirling's series says it without the cancellation.
  const atOne = degreesOfFreedom > 40 ? stirlingFront(degreesOfFreedom) : logFront - degreesOfFreedom / 2;

  let lower = 0;
  let upper = 0;
  for (let k = 1; k < edges.length; k++) {
    const half = (edges[k]! - edges[k - 1]!) / 2;
    const middle = (edges[k]! + edges[k - 1]!) / 2;
    for (let i = 0; i < RULE.nodes.length; i++) {
      const s = middle + half * RULE.nodes[i]!;
      const logDensity =
        atOne + (degreesOfFreedom - 1) * Math.log(s) - (degreesOfFreedom / 2) * (s - 1) * (s + 1);
      const weight = half * RULE.weights[i]! * Math.exp(logDensity);
      const z = t * s - noncentrality;
      lower += weight * normalCdf(z);
      upper += weight * normalUpperTail(z);
    }
  }
  return { lower, upper };
}

/** ln of the density at s = 1 for many degrees of freedom: ½ln(ν/π) − 1/(6ν) + 1/(45ν³) − …. */
function stirlingFront(v: number): number {
  return 0.5 * Math.log(v / Math.PI) - (1 / 6 - (1 / 45 - 8 / (315 * v * v)) / (v * v)) / v;
}

function panelEdges(t: number, { degreesOfFreedom, noncentrality }: NoncentralT): number[] {
  const spread = 1 / Math.sqrt(2 * degreesOfFreedom);
  const low = Math.max(0, 1 - 12 * spread);
  const high = 1 + 12 * spread;
  const edges = [low, high];
  for (let k = 1; k < 16; k++) edges.push(low + ((high - low) * k) / 16);
  if (t !== 0) {
    for (const step of STEP_EDGES) edges.push((noncentrality + step) / t);
  }
  const inside = edges.filter((edge) => edge >= low && edge <= high);
  return [...new Set(inside)].sort((a, b) => a - b);
}

/**
 * The noncentrality δ under which a T as large as t (or larger) has probability 1 − confidence: the lower
 * confidence bound of δ. For the upper bound give the complement of the confidence.
 *
 * P(T ≤ t) falls as δ grows, so the root is bracketed by steps from δ = t and found by bisection sped up
 * with false position (Illinois).
 *
 * @throws InvalidInput unless 0 < confidence < 1
 */
export function noncentralityBound({
  t,
  degreesOfFreedom,
  confidence,
}: {
  t: number;
  degreesOfFreedom: number;
  confidence: number;
}): number {
  requireProbability("noncentralityBound", "confidence", confidence);
  const excess = (noncentrality: number) =>
    noncentralTTails(t, { degreesOfFreedom, noncentrality }).lower - confidence;

  // The standard deviation of T is about √(1 + t²/2ν); a few of them reach across any usual confidence.
  const reach = Math.sqrt(1 + (t * t) / (2 * degreesOfFreedom));
  let low = t - reach;
  let high = t + reach;
  while (excess(low) < 0) low -= 2 * reach;
  while (excess(high) > 0) high += 2 * reach;
  return root(excess, low, high);
}

/** The zero of a falling function between `low` and `high`, by the Illinois variant of false position. */
function root(f: (x: number) => number, low: number, high: number): number {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  for (let k = 0; k < 200; k++) {
    const x = b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (Math.abs(x - b) < 1e-13 * Math.max(1, Math.abs(x)) || fx === 0) return x;
    if (fx * fb < 0) {
      a = b;
      fa = fb;
    } else {
      fa /= 2;
    }
    b = x;
    fb = fx;
  }
  return b;
}
