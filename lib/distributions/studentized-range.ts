import gammaln from "@stdlib/math-base-special-gammaln";
import { requireCount, requireFiniteNumbers } from "../checks";
import { gaussLegendre } from "../constants/gauss-legendre";
import { requirePositive, requireProbability } from "./checks";
import { normalCdf, normalDensity } from "./normal";

/*
 * The range of k standard normal means over an independent estimate S of their standard deviation: what
 * all pairwise differences of k groups are judged by.
 *
 *   P(Q > q) = ∫ f(s) · T(q·s) ds,  T(w) = k ∫ φ(u) [Φ(u)^(k−1) − (Φ(u) − Φ(u − w))^(k−1)] du
 *
 * f is the density of S = √(χ²_ν/ν). u is the largest of the k: the bracket is the probability that the others
 * lie below it but not all within w of it. The bracket is taken as Φ^(k−1) times 1 − (1 − r)^(k−1) with
 * r = Φ(u − w)/Φ(u), through log1p and expm1, so nothing cancels in the tail.
 *
 * The inner integrand is smooth and falls off like a normal curve: the trapezoidal rule
 * from −9 to 14 with steps of 0.15 is exact to 1e-13, also relative to a tail as small as 1e-12. Outside, sixteen-point panels follow both f and the fall of T, which is over at w = 12 or so.
 */

const INNER_STEP = 0.15;
const INNER_FROM = -9;
const INNER_POINTS = 154;
const RULE = gaussLegendre({ from: -1, to: 1, panels: 1 });
const FALL_EDGES = [0.5, 1, 2, 3, 4.5, 6, 8, 11];
const DENSITY_PANELS = 6;
const NEGLIGIBLE = 1e-22;

const INNER = Array.from({ length: INNER_POINTS }, (_, i) => {
  const u = INNER_FROM + i * INNER_STEP;
  return { u, weight: INNER_STEP * normalDensity(u), below: normalCdf(u) };
});

/** `groups` means are compared; `degreesOfFreedom` of the estimate, `Infinity` when sigma is known. */
export type StudentizedRange = { groups: number; degreesOfFreedom: number };

/**
 * P(Q > q) for the studentized range.
 *
 * Accuracy 1e-9 and better, relative, down to tails of 1e-12.
 *
 * Source: J. W. Tukey, The Problem of Multiple Comparisons (1953, from memory); the integral by own quadrature.
 *
 * @throws InvalidInput when q is not finite, groups is not a whole number of at least 2, or the degrees of
 *   freedom are not positive
 */
export function studentizedRangeUpperTail(q: number, { groups, degreesOfFreedom }: StudentizedRange): number {
  const where = "studentizedRangeUpperTail";
  requireFiniteNumbers(where, { q });
  requireCount(where, "groups", groups, 2);
  if (q <= 0) return 1;
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return rangeUpperTail(q, groups);
  requirePositive(where, { degreesOfFreedom });

  const v = degreesOfFreedom;
  const logFront = Math.LN2 + (v / 2) * Math.log(v / 2) - gammaln(v / 2);
  const edges = panelEdges(q, v);
  let total = 0;
  for (let k = 1; k < edges.length; k++) {
    const half = (edges[k]! - edges[k - 1]!) / 2;
    const middle = (edges[k]! + edges[k - 1]!) / 2;
    for (let i = 0; i < RULE.points.length; i++) {
      const s = middle + half * RULE.points[i]!;
      const weight = half * RULE.weights[i]! * Math.exp(logFront + (v - 1) * Math.log(s) - (v / 2) * s * s);
      if (weight > NEGLIGIBLE) total += weight * rangeUpperTail(q * s, groups);
    }
  }
  return Math.min(1, total);
}

/**
 * The q with P(Q > q) = `probability`: the yardstick of honestly significant differences.
 *
 * False position on the logarithm of the tail, to 1e-12 relative.
 *
 * @throws InvalidInput unless 0 < probability < 1, and as `studentizedRangeUpperTail` does
 */
export function studentizedRangeUpperQuantile(probability: number, range: StudentizedRange): number {
  requireProbability("studentizedRangeUpperQuantile", "probability", probability);
  const wanted = Math.log(probability);
  const excess = (x: number) => Math.log(studentizedRangeUpperTail(Math.exp(x), range)) - wanted;
  // In ln q the logarithm of the tail is smooth and falling.
  let low = Math.log(3);
  while (excess(low) < 0) low -= 1;
  let high = low + 0.5;
  while (excess(high) > 0) high += 0.5;

  let [a, fa, b, fb] = [low, excess(low), high, excess(high)];
  for (let k = 0; k < 100; k++) {
    const x = b - (fb * (b - a)) / (fb - fa);
    const fx = excess(x);
    if (fx === 0 || Math.abs(x - b) < 1e-13) return Math.exp(x);
    if (fx * fb < 0) [a, fa] = [b, fb];
    else fa /= 2;
    [b, fb] = [x, fx];
  }
  return Math.exp(b);
}

/** T(w): the upper tail of the range of k standard normal values. */
function rangeUpperTail(w: number, groups: number): number {
  let sum = 0;
  for (const { u, weight, below } of INNER) {
    const ratio = normalCdf(u - w) / below;
    const outside = ratio >= 1 ? 1 : -Math.expm1((groups - 1) * Math.log1p(-ratio));
    sum += weight * below ** (groups - 1) * outside;
  }
  return groups * sum;
}

function panelEdges(q: number, v: number): number[] {
  const spread = 1 / Math.sqrt(2 * v);
  const low = Math.max(0, 1 - 12 * spread);
  const high = 1 + 12 * spread;
  const edges = [low, high];
  for (let k = 1; k < DENSITY_PANELS; k++) edges.push(low + ((high - low) * k) / DENSITY_PANELS);
  for (const w of FALL_EDGES) edges.push(w / q);
  // sᵛ⁻¹ has a branch point at 0 unless ν is whole.
  if (v < 12 && !Number.isInteger(v)) for (let k = 1; k < 16; k++) edges.push(high / 4 ** k);
  return [...new Set(edges.filter((edge) => edge >= low && edge <= high))].sort((x, y) => x - y);
}
