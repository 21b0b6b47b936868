import { asEntered, type FigureWords, fixed, inDigits } from "../format/numbers";
import { figures as english } from "../words/en/figures";

/** "1 signal", "3 signals": for nouns that take an s. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}

/** A fraction as people write it: 0.95 is "95 %", 0.125 is "12.5 %". */
export function percent(fraction: number): string {
  return `${inDigits(100 * fraction, 3)} %`;
}

/** An index with the two decimals a drawing office quotes. */
export function indexWords(index: number): string {
  return fixed(index, 2);
}

/** A p-value: two digits, and no more precision than a test has. */
export function pWords(p: number, words: FigureWords = english): string {
  return p < 0.0001 ? words.pBelow(asEntered(0.0001)) : `p ${inDigits(p, 2)}`;
}

/** A measured number without a tail of digits that nobody measured. */
export function numberWords(value: number): string {
  return inDigits(value, 6);
}
