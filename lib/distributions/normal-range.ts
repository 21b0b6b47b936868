import { requireCount } from "../checks";
import { normalDensity, normalUpperTail } from "./normal";

/**
 * The range of n standard normal readings, W = R/σ: both tails.
 *
 *   P(W ≤ w) = n ∫ φ(x) [Q(x) − Q(x + w)]ⁿ⁻¹ dx
 *   P(W > w) = n ∫ φ(x) Q(x)ⁿ⁻¹ [1 − (1 − r)ⁿ⁻¹] dx,   r = Q(x + w)/Q(x)
 *
 * x is the smallest reading and Q the upper tail. The second bracket is taken through log1p and expm1, so
 * that a tail of 10⁻¹² keeps its digits. Both integrands are smooth and fall off like a normal curve, for
 * which the trapezoidal rule is exact to the last digits. A pure number; 1 and 0 the other way below w = 0.
 *
 * Source: H. O. Hartley, Biometrika 32 (1942) 334-348 (from memory).
 *
 * @throws InvalidInput when n is not a whole number from 2 to 1000
 */
export function normalRangeTails(w: number, n: number): { lower: number; upper: number } {
  requireCount("normalRangeTails", "n", n, 2, 1000);
  if (w <= 0) return { lower: 0, upper: 1 };
  let lower = 0;
  let upper = 0;
  for (let i = 0; i <= STEPS; i++) {
    const x = FROM + i * STEP;
    const above = normalUpperTail(x);
    const share = normalUpperTail(x + w) / above;
    const density = normalDensity(x) * above ** (n - 1);
    lower += density * (1 - share) ** (n - 1);
    upper -= density * Math.expm1((n - 1) * Math.log1p(-share));
  }
  const scale = n * STEP;
  return { lower: Math.min(1, scale * lower), upper: Math.min(1, scale * upper) };
}

/** The smallest of up to a thousand readings lies outside less than once in 10¹⁸. */
const FROM = -9.5;
const TO = 9;
const STEP = 0.05;
const STEPS = Math.round((TO - FROM) / STEP);
