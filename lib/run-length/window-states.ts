/**
 * The memory of "at least k of the last m points, the latest among them" as a machine with few states.
 *
 * Which of the last m − 1 points lay in the zone is a word of m − 1 bits, newest lowest: 2^(m−1) words. Most
 * of them are alike in what they can still become. With k of m and j further points to come, at best j of
 * those lie in the zone, so the word matters only through what it still counts then, and only where that
 * reaches k at all:
 *
 *   needⱼ = k − (bits of the word younger than m − j),   forgotten where needⱼ > j
 *
 * Two words with the same needs have the same future. Eight in a row so has 8 states instead of 128: how
 * many in a row so far.
 *
 * Source: the states of C. W. Champ and W. H. Woodall, Technometrics 29 (1987) 393-399 (from memory), which
 * leave out points that can no longer take part in a signal; the form above is our own.
 */
export type WindowStates = {
  /** For each state, which one follows a point outside, and inside the zone; `SIGNAL` when it completes. */
  outside: number[];
  inside: number[];
};

export const SIGNAL = -1;

/** The states that can be reached from nothing seen, state 0; null when there are more than `most`. */
export function windowStates({
  count,
  of,
  most,
}: {
  count: number;
  of: number;
  most: number;
}): WindowStates | null {
  const numbers = new Map<string, number>([[needs(0, count, of), 0]]);
  const words = [0];
  const states: WindowStates = { outside: [], inside: [] };
  const kept = of > 1 ? 2 ** (of - 1) - 1 : 0;

  function numberOf(word: number): number {
    const key = needs(word, count, of);
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, words.length);
    words.push(word);
    return words.length - 1;
  }

  for (let state = 0; state < words.length; state++) {
    if (words.length > most) return null;
    const word = words[state]!;
    states.outside.push(numberOf((word << 1) & kept));
    states.inside.push(bitsOf(word) + 1 >= count ? SIGNAL : numberOf(((word << 1) | 1) & kept));
  }
  return states;
}

function needs(word: number, count: number, of: number): string {
  let key = "";
  for (let j = 1; j < of; j++) {
    const need = count - bitsOf(word & (2 ** (of - j) - 1));
    key += need > j ? "-" : String.fromCharCode(48 + need);
  }
  return key;
}

function bitsOf(word: number): number {
  let bits = 0;
  for (let rest = word; rest !== 0; rest &= rest - 1) bits++;
  return bits;
}
