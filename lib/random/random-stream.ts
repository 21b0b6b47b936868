import { InvalidInput } from "../checks";

/** A stream of pseudo-random numbers that is the same on every machine for the same name. */
export type RandomStream = {
  /** Uniform on [0, 1), in steps of 2⁻³². */
  uniform(): number;
  /** Standard normal. */
  normal(): number;
};

/**
 * Opens the stream that belongs to a seed and a name.
 *
 * The seed is an argument of every figure that rests on chance, so that it can be had again. Whoever needs
 * several independent streams (the demo for each thing that varies, a simulation for each shift) names them;
 * one more stream then changes no number of the others.
 *
 * Uniform numbers: xoshiro128** of Blackman and Vigna (ACM Transactions on Mathematical Software 47,
 * 2021, from memory), its state filled by a 32-bit multiply-and-shift mixer from a hash of the name
 * (FNV-1a, from memory). Normal numbers: the polar method of Marsaglia and Bray (SIAM Review 6, 1964,
 * from memory), which needs only a square root and a logarithm.
 */
export function randomStream(seed: number, name: string): RandomStream {
  if (!Number.isInteger(seed) || seed < 0 || seed > 0xffffffff) {
    throw new InvalidInput("randomStream", "seed", seed, "a whole number from 0 to 4294967295");
  }
  const next = xoshiro(mixedState(seed, name));
  const uniform = () => next() / 0x100000000;
  let spare: number | null = null;

  function normal(): number {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const u = 2 * uniform() - 1;
      const v = 2 * uniform() - 1;
      const s = u * u + v * v;
      if (s <= 0 || s >= 1) continue;
      const scale = Math.sqrt((-2 * Math.log(s)) / s);
      spare = v * scale;
      return u * scale;
    }
  }

  return { uniform, normal };
}

/** The generator xoshiro128** from a state of four words, not all 0: whole numbers below 2³². */
export function xoshiro(state: Uint32Array): () => number {
  let [a = 0, b = 0, c = 0, d = 0] = state;
  if (state.length !== 4 || (a | b | c | d) === 0) {
    throw new InvalidInput("xoshiro", "state", Array.from(state), "four words that are not all 0");
  }
  return () => {
    const result = Math.imul(rotated(Math.imul(b, 5), 7), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = rotated(d, 11);
    return result;
  };
}

function rotated(word: number, by: number): number {
  return (word << by) | (word >>> (32 - by));
}

function mixedState(seed: number, name: string): Uint32Array {
  let hash = 0x811c9dc5 ^ seed;
  for (const letter of name) hash = Math.imul(hash ^ (letter.codePointAt(0) ?? 0), 0x01000193);

  return Uint32Array.from({ length: 4 }, () => {
    hash = (hash + 0x9e3779b9) | 0;
    let word = Math.imul(hash ^ (hash >>> 16), 0x21f0aaad);
    word = Math.imul(word ^ (word >>> 15), 0x735a2d97);
    return (word ^ (word >>> 15)) >>> 0;
  });
}
