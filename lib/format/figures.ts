import { figures as english } from "../words/en/figures";
import { asEntered, type FigureWords, fixed } from "./numbers";

const SUPERSCRIPTS: Record<string, string> = {
  "-": "⁻",
  "0": "⁰",
  "1": "¹",
  "2": "²",
  "3": "³",
  "4": "⁴",
  "5": "⁵",
  "6": "⁶",
  "7": "⁷",
  "8": "⁸",
  "9": "⁹",
};

/** A figure with so many digits that count, tiny and huge ones as 1.23 × 10⁻⁹. */
export function significant(value: number, digits: number): string {
  if (value === 0) return "0";
  const power = Math.floor(Math.log10(Math.abs(value)));
  if (power < -5 || power > 8) {
    const exponent = [...String(power)].map((sign) => SUPERSCRIPTS[sign]).join("");
    return `${fixed(value / 10 ** power, digits - 1)} × 10${exponent}`;
  }
  return fixed(value, Math.max(0, digits - 1 - power));
}

const LEAST_PER_MILLION = 0.000001;

/**
 * A fraction outside as people weigh it: a percentage from 0.1 % on, below that a number per million, below a
 * millionth of a millionth nothing that anybody could count.
 */
export function fractionWords(fraction: number, words: FigureWords = english): string {
  if (fraction === 0) return "0";
  if (fraction >= 0.001) return `${significant(100 * fraction, 3)}\u00a0%`;
  if (fraction < LEAST_PER_MILLION / 1e6) return words.belowPerMillion(asEntered(LEAST_PER_MILLION));
  return words.perMillion(significant(1e6 * fraction, 2));
}

/** A sentence whose per cent signs stay with their figures. */
export function unbroken(sentence: string): string {
  return sentence.replace(/(\d) %/g, "$1\u00a0%");
}
