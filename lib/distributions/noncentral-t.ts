import gammaln from "@stdlib/math-base-special-gammaln";
import { InvalidInput, requireFiniteNumbers } from "../checks";
import { relativeVarianceOfChi } from "../constants/c4";
import { gaussLegendre } from "../constants/gauss-legendre";
import { requirePositive, requireProbability } from "./checks";
import { normalCdf, normalDensity, normalQuantile, normalUpperTail } from "./normal";

/** Sixteen points on [−1, 1], stretched over each panel. */
const RULE = gaussLegendre({ from: -1, to: 1, panels: 1 });

/** Widths of the step of Φ at which panels end; beyond ±8 it is 0 or 1 to the last digit that counts. */
const STEP_EDGES = [-8, -4, 0, 4, 8];

/** A density this small adds nothing to a tail of 1e-12. */
const NEGLIGIBLE = 1e-24;

/** How far, in widths of the step of Φ, it may lie from where the panels expect it. */
const STEP_FITS = 0.5;

/** Panels over ±12 standard deviations of the density, before those of the step. */
const DENSITY_PANELS = 6;

/** Degrees of freedom from which sᵛ⁻¹ is smooth enough at 0 for sixteen points. */
const SMOOTH_FROM = 12;

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
 * for ν ≥ 1 in tails down to 1e-12; the series in common use fail above δ = 37, which Cpk 1.33 with 100 pieces exceeds.
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

  const { s, weight } = nodesOf(t, { degreesOfFreedom, noncentrality });
  let lower = 0;
  let upper = 0;
  for (let i = 0; i < s.length; i++) {
    const z = t * s[i]! - noncentrality;
    lower += weight[i]! * normalCdf(z);
    upper += weight[i]! * normalUpperTail(z);
  }
  return { lower, upper };
}

/** Where the integrand is taken, and the weight f(s) ds there. */
type Nodes = { s: Float64Array; weight: Float64Array };

function nodesOf(t: number, { degreesOfFreedom, noncentrality }: NoncentralT): Nodes {
  const edges = panelEdges(t, { degreesOfFreedom, noncentrality });
  const logFront =
    Math.LN2 + (degreesOfFreedom / 2) * Math.log(degreesOfFreedom / 2) - gammaln(degreesOfFreedom / 2);
  // At s = 1 the exponent is logFront − ν/2, a difference of numbers as large as ν·ln ν: for many degrees
  // of freedom Stirling's series says it without the cancellation.
  const atOne = degreesOfFreedom > 40 ? stirlingFront(degreesOfFreedom) : logFront - degreesOfFreedom / 2;

  const most = (edges.length - 1) * RULE.points.length;
  const s = new Float64Array(most);
  const weight = new Float64Array(most);
  let count = 0;
  for (let k = 1; k < edges.length; k++) {
    const half = (edges[k]! - edges[k - 1]!) / 2;
    const middle = (edges[k]! + edges[k - 1]!) / 2;
    for (let i = 0; i < RULE.points.length; i++) {
      const at = middle + half * RULE.points[i]!;
      const logDensity =
        atOne + (degreesOfFreedom - 1) * Math.log(at) - (degreesOfFreedom / 2) * (at - 1) * (at + 1);
      const share = half * RULE.weights[i]! * Math.exp(logDensity);
      if (!(share > NEGLIGIBLE)) continue;
      s[count] = at;
      weight[count] = share;
      count++;
    }
  }
  return { s: s.subarray(0, count), weight: weight.subarray(0, count) };
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
  for (let k = 1; k < DENSITY_PANELS; k++) edges.push(low + ((high - low) * k) / DENSITY_PANELS);
  if (t !== 0) {
    for (const step of STEP_EDGES) edges.push((noncentrality + step) / t);
  }
  // sᵛ⁻¹ has a branch point at 0 unless ν is whole: panels that shrink towards it keep the rule exact.
  if (degreesOfFreedom < SMOOTH_FROM && !Number.isInteger(degreesOfFreedom)) {
    for (let k = 1; k < 16; k++) edges.push(high / 4 ** k);
  }
  const inside = edges.filter((edge) => edge >= low && edge <= high);
  return [...new Set(inside)].sort((a, b) => a - b);
}

/**
 * The noncentrality δ under which a T as large as t (or larger) has probability 1 − confidence: the lower
 * confidence bound of δ. For the upper bound give the complement of the confidence.
 *
 * P(T ≤ t) falls as δ grows. On the scale of normal quantiles it is all but straight in δ: one or two of Newton's steps
 * from `nearBound` finish the search.
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
  const where = "noncentralityBound";
  requireProbability(where, "confidence", confidence);
  requireFiniteNumbers(where, { t });
  requirePositive(where, { degreesOfFreedom });
  if (degreesOfFreedom < 1) throw new InvalidInput(where, "degreesOfFreedom", degreesOfFreedom, "at least 1");
  const excess = excessQuantile({ t, degreesOfFreedom, confidence });
  const { start, spread } = nearBound({ t, degreesOfFreedom, confidence });
  return (
    byNewton(excess, { start, spread }) ??
    byBracket((noncentrality) => excess(noncentrality).value, { start, reach: spread / 16 })
  );
}

/**
 * δ by its first three moments. T ≤ t says that Y = Z − tS is at most −δ, so −δ is a quantile of Y, here by the expansion
 * of Cornish and Fisher up to the square of the skewness; `spread` is the standard deviation of Y. S has the mean
 * c = 1/√(1 + r), the variance m = r/(1 + r) and the third moment c(1/ν − 2m), r its relative variance.
 *
 * Off by 1e-7 of the spread for ν = 3000, by 1e-3 for ν = 10: a file of 300 features with 3000 readings each had its
 * bounds by one of Newton's steps instead of two or three, 0.07 of 1.8 s of processor time.
 *
 * Source: E. A. Cornish and R. A. Fisher, Revue de l'Institut International de Statistique 5 (1937) 307-320 (from memory).
 */
function nearBound({
  t,
  degreesOfFreedom,
  confidence,
}: {
  t: number;
  degreesOfFreedom: number;
  confidence: number;
}): {
  start: number;
  spread: number;
} {
  const relative = relativeVarianceOfChi(degreesOfFreedom);
  const mean = 1 / Math.sqrt(1 + relative);
  const variance = relative / (1 + relative);
  const third = mean * (1 / degreesOfFreedom - 2 * variance);
  const spread = Math.sqrt(1 + t * t * variance);
  const skewness = (-third * t ** 3) / spread ** 3;
  const w = normalQuantile(confidence);
  const quantile = w + (skewness / 6) * (w * w - 1) - (skewness ** 2 / 36) * (2 * w ** 3 - 5 * w);
  return { start: t * mean - quantile * spread, spread };
}

/** A function's value and slope at a point. */
type Tangent = { value: number; slope: number };

/**
 * By how much the normal quantile of P(T ≤ t) exceeds that of the confidence, as a function of δ. The smaller
 * tail is the one that is integrated, so that it keeps its digits.
 */
function excessQuantile({
  t,
  degreesOfFreedom,
  confidence,
}: {
  t: number;
  degreesOfFreedom: number;
  confidence: number;
}): (noncentrality: number) => Tangent {
  const side = confidence > 0.5 ? -1 : 1;
  const wanted = normalQuantile(side === 1 ? confidence : 1 - confidence);
  let panelsFor = Number.NaN;
  let nodes: Nodes;
  return (noncentrality) => {
    // Panels fit the step of Φ as well when it lies a fraction of its width beside them.
    if (!(Math.abs(noncentrality - panelsFor) <= STEP_FITS)) {
      nodes = nodesOf(t, { degreesOfFreedom, noncentrality });
      panelsFor = noncentrality;
    }
    const { s, weight } = nodes;
    let tail = 0;
    let density = 0;
    for (let i = 0; i < s.length; i++) {
      const z = side * (t * s[i]! - noncentrality);
      if (z > 9) tail += weight[i]!;
      else if (z > -12) {
        tail += weight[i]! * normalCdf(z);
        density += weight[i]! * normalDensity(z);
      }
    }
    const quantile = normalQuantile(Math.min(Math.max(tail, 1e-300), 1 - 1e-16));
    return { value: side * (quantile - wanted), slope: -density / normalDensity(quantile) };
  };
}

/**
 * The zero of a falling function that is nearly straight over the length `spread`, from a start near it.
 * Null when the steps do not close in on it, as they may not for one or two degrees of freedom.
 */
function byNewton(
  f: (x: number) => Tangent,
  { start, spread }: { start: number; spread: number },
): number | null {
  let x = start;
  let before = 16 * spread;
  for (let k = 0; k < 8; k++) {
    const { value, slope } = f(x);
    const step = -value / slope;
    // Also where the slope is 0 or the step not a number.
    if (!(Math.abs(step) <= before / 2)) return null;
    x += step;
    // What is left is of the order of the step's square, in units of the spread.
    if (step * step < 1e-13 * spread * spread) return x;
    before = Math.abs(step);
  }
  return null;
}

/** The zero of any falling function, from a start somewhere about it. */
function byBracket(f: (x: number) => number, { start, reach }: { start: number; reach: number }): number {
  let step = reach;
  let low = start - step;
  let high = start + step;
  while (f(low) < 0) {
    high = low;
    step *= 3;
    low -= step;
  }
  while (f(high) > 0) {
    low = high;
    step *= 3;
    high += step;
  }
  return root(f, low, high);
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
    if (Math.abs(x - b) < 1e-12 * Math.max(1, Math.abs(x)) || fx === 0) return x;
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
