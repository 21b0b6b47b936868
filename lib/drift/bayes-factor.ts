/**
 * Log Bayes factor of a shift drawn from N(0, ω²σ²) against none:
 *   −log(1 + g)/2 + z² g / (2 (1 + g)),   g = information × ω².
 */
export function logBayesFactor(z: number, g: number): number {
  return bayesFactorFrom(bayesFactorAtZero(g), z, g);
}

/** The same from its value at z = 0, which many scores with the same information have in common. */
export function bayesFactorFrom(atZero: number, z: number, g: number): number {
  return atZero + (0.5 * z * z * g) / (1 + g);
}

/** −log(1 + g)/2 */
export function bayesFactorAtZero(g: number): number {
  return -0.5 * Math.log1p(g);
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

/** Sums over features of log(1 − p + p e^l), for several shares p at once. */
export class MixtureSums {
  private readonly products: Float64Array;
  private readonly logs: Float64Array;

  constructor(private readonly shares: readonly number[]) {
    this.products = new Float64Array(shares.length).fill(1);
    this.logs = new Float64Array(shares.length);
  }

  /** Products stand for sums of logs until they grow out of range: one exponential a feature, and few logs. */
  add(l: number): void {
    const isHuge = l > 30;
    const odds = isHuge ? 0 : Math.exp(l) - 1;
    const { shares, products, logs } = this;
    for (let p = 0; p < shares.length; p++) {
      const share = shares[p]!;
      if (share === 1) logs[p]! += l;
      else if (isHuge) logs[p]! += logMixture(share, l);
      else {
        const product = products[p]! * (1 + share * odds);
        if (product > 1e-200 && product < 1e200) products[p] = product;
        else {
          logs[p]! += Math.log(product);
          products[p] = 1;
        }
      }
    }
  }

  /** Adds the sums to `out` from `at` on, and begins anew. */
  addTo(out: Float64Array, at: number): void {
    for (let p = 0; p < this.shares.length; p++) {
      out[at + p]! += this.logs[p]! + Math.log(this.products[p]!);
      this.logs[p] = 0;
      this.products[p] = 1;
    }
  }
}

/** The same where each feature counts for 1/repeated of itself only. */
export function addMixtures(
  shares: readonly number[],
  l: number,
  repeated: number,
  { out, at }: { out: Float64Array; at: number },
): void {
  const isHuge = l > 30;
  const odds = isHuge ? 0 : Math.exp(l) - 1;
  for (let p = 0; p < shares.length; p++) {
    const share = shares[p]!;
    if (share === 1) out[at + p]! += l / repeated;
    else out[at + p]! += (isHuge ? logMixture(share, l) : Math.log(1 + share * odds)) / repeated;
  }
}
