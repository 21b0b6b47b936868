import { InvalidInput } from "../checks";

/*
 * Many tests at once: of twenty true hypotheses one is rejected at 5 % by chance. Each function returns p-values in the
 * order given that may be compared with the level meant for all of them together.
 */

/**
 * Smallest share of false finds among all finds at which a test would be one of them.
 *
 *   q₍ᵢ₎ = min over j ≥ i of m·p₍ⱼ₎/j, at most 1
 *
 * For a scan over many sources, where a few false finds among many right ones are bearable.
 *
 * Source: Y. Benjamini and Y. Hochberg, J. Royal Statistical Society B 57 (1995) 289-300 (from memory).
 *
 * @throws InvalidInput when a p-value is not from 0 to 1
 */
export function benjaminiHochberg(ps: ArrayLike<number>): number[] {
  const { order, count } = ranked("benjaminiHochberg", ps);
  const adjusted = new Array<number>(count);
  let least = 1;
  for (let rank = count; rank >= 1; rank--) {
    const at = order[rank - 1]!;
    least = Math.min(least, (ps[at]! * count) / rank);
    adjusted[at] = least;
  }
  return adjusted;
}

/**
 * Chance of any false find at all, step by step from the smallest p.
 *
 *   p'₍ᵢ₎ = max over j ≤ i of (m − j + 1)·p₍ⱼ₎, at most 1
 *
 * Source: S. Holm, Scandinavian J. Statistics 6 (1979) 65-70 (from memory).
 *
 * @throws InvalidInput when a p-value is not from 0 to 1
 */
export function holm(ps: ArrayLike<number>): number[] {
  const { order, count } = ranked("holm", ps);
  const adjusted = new Array<number>(count);
  let most = 0;
  for (let rank = 1; rank <= count; rank++) {
    const at = order[rank - 1]!;
    most = Math.max(most, Math.min(1, (count - rank + 1) * ps[at]!));
    adjusted[at] = most;
  }
  return adjusted;
}

/**
 * The same in one step, min(1, m·p): the plainest, and never sharper than Holm's.
 *
 * @throws InvalidInput when a p-value is not from 0 to 1
 */
export function bonferroni(ps: ArrayLike<number>): number[] {
  ranked("bonferroni", ps);
  return Array.from(ps, (p) => Math.min(1, p * ps.length));
}

function ranked(where: string, ps: ArrayLike<number>): { order: number[]; count: number } {
  for (let i = 0; i < ps.length; i++) {
    if (!(ps[i]! >= 0 && ps[i]! <= 1)) {
      throw new InvalidInput(where, `ps[${i}]`, ps[i], "a probability from 0 to 1");
    }
  }
  const order = Array.from({ length: ps.length }, (_, i) => i).sort((a, b) => ps[a]! - ps[b]!);
  return { order, count: ps.length };
}
