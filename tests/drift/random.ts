/** Random numbers from a seed, the same on every machine. */
export class Random {
  private state: number;
  private spare: number | null = null;

  constructor(seed: number) {
    this.state = seed >>> 0;
    // Nearby seeds start alike; a few steps part them.
    for (let i = 0; i < 8; i++) this.uniform();
  }

  /** In [0, 1). A 32-bit counter with a mixing step (from memory: the family of splittable generators). */
  uniform(low = 0, high = 1): number {
    this.state = (this.state + 0x9e3779b9) >>> 0;
    let mixed = this.state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return low + ((high - low) * ((mixed ^ (mixed >>> 16)) >>> 0)) / 2 ** 32;
  }

  /** Polar method of Marsaglia (from memory). */
  normal(mean = 0, sd = 1): number {
    if (this.spare !== null) {
      const kept = this.spare;
      this.spare = null;
      return mean + sd * kept;
    }
    for (;;) {
      const u = this.uniform(-1, 1);
      const v = this.uniform(-1, 1);
      const square = u * u + v * v;
      if (square === 0 || square >= 1) continue;
      const factor = Math.sqrt((-2 * Math.log(square)) / square);
      this.spare = v * factor;
      return mean + sd * u * factor;
    }
  }

  /** 0, 1 … count − 1. */
  index(count: number): number {
    return Math.min(count - 1, Math.floor(this.uniform(0, count)));
  }

  whole(low: number, high: number): number {
    return low + this.index(high - low + 1);
  }

  pick<T>(among: readonly T[]): T {
    return among[this.index(among.length)] as T;
  }

  sign(): number {
    return this.uniform() < 0.5 ? -1 : 1;
  }

  /** `count` different ones of 0 … size − 1, in random order. */
  some(size: number, count: number): number[] {
    const all = Array.from({ length: size }, (_, i) => i);
    for (let i = size - 1; i > 0; i--) {
      const j = this.index(i + 1);
      [all[i], all[j]] = [all[j] as number, all[i] as number];
    }
    return all.slice(0, count);
  }

  /** Normal with unit variance, each correlated by phi with the one before. */
  chain(length: number, phi: number): Float64Array {
    const out = new Float64Array(length);
    const fresh = Math.sqrt(1 - phi * phi);
    for (let t = 0; t < length; t++)
      out[t] = t === 0 ? this.normal() : phi * out[t - 1]! + fresh * this.normal();
    return out;
  }
}
