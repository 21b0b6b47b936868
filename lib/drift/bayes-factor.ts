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

/** Beyond it e^l no longer leaves anything of 1 − p beside p e^l, whatever share p is tried. */
const BEYOND_ALL_DOUBT = 42;

/** Sums over features of log(1 − p + p e^l), for several shares p at once. */
export class MixtureSums {
  private readonly shares: Float64Array;
  private readonly logShares: Float64Array;
  private readonly products: Float64Array;
  private readonly logs: Float64Array;

  constructor(shares: readonly number[]) {
    this.shares = Float64Array.from(shares);
    this.logShares = this.shares.map(Math.log);
    this.products = new Float64Array(shares.length).fill(1);
    this.logs = new Float64Array(shares.length);
  }

  /** Products stand for sums of logs until they grow out of range: one exponential a feature, and few logs. */
  add(l: number): void {
    const { shares, products, logs } = this;
    if (l > 30) {
      this.addHuge(l, 1);
      return;
    }
    const odds = Math.exp(l) - 1;
    for (let p = 0; p < shares.length; p++) {
      if (shares[p] === 1) logs[p]! += l;
      else {
        const product = products[p]! * (1 + shares[p]! * odds);
        if (product > 1e-200 && product < 1e200) products[p] = product;
        else {
          logs[p]! += Math.log(product);
          products[p] = 1;
        }
      }
    }
  }

  /** A feature that counts for 1/repeated of itself only. */
  addShared(l: number, repeated: number): void {
    const { shares, logs } = this;
    if (l > 30) {
      this.addHuge(l, repeated);
      return;
    }
    const odds = Math.exp(l) - 1;
    for (let p = 0; p < shares.length; p++) {
      logs[p]! += (shares[p] === 1 ? l : Math.log(1 + shares[p]! * odds)) / repeated;
    }
  }

  private addHuge(l: number, repeated: number): void {
    const { shares, logShares, logs } = this;
    for (let p = 0; p < shares.length; p++) {
      logs[p]! += (l > BEYOND_ALL_DOUBT ? l + logShares[p]! : logMixture(shares[p]!, l)) / repeated;
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
