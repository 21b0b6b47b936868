/**
 * Log Bayes factor of a shift drawn from N(0, ω²σ²) against none:
 *   −log(1 + g)/2 + z² g / (2 (1 + g)),   g = information × ω².
 */
export function logBayesFactor(z: number, g: number): number {
  return -0.5 * Math.log1p(g) + (0.5 * z * z * g) / (1 + g);
}

/**
 * A t-value with ν degrees of freedom as a normal score of the same tail:
 *   z = (8ν + 1)/(8ν + 3) · √( ν log(1 + t²/ν) )
 *
 * Source: D. L. Wallace, Annals of Mathematical Statistics 30 (1959) 1121-1130 (from memory).
 */
export function normalScore(t: number, freedom: number): number {
  const shrunk = (8 * freedom + 1) / (8 * freedom + 3);
  return Math.sign(t) * shrunk * Math.sqrt(freedom * Math.log1p((t * t) / freedom));
}

/** log(e^a + e^b + …) without overflow; −∞ for none. */
export function logSumExp(terms: ArrayLike<number>): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < terms.length; i++) most = Math.max(most, terms[i]!);
  if (!Number.isFinite(most)) return most;
  let sum = 0;
  for (let i = 0; i < terms.length; i++) sum += Math.exp(terms[i]! - most);
  return most + Math.log(sum);
}

/** log(1 − p + p e^l), also where e^l overflows. */
export function logMixture(p: number, l: number): number {
  if (p === 1) return l;
  return l > 30 ? l + Math.log(p + (1 - p) * Math.exp(-l)) : Math.log1p(p * Math.expm1(l));
}
