import type { DecimalMark } from "./mapping";

/** A change of unit by an exact factor: times · 10^shift / over. */
export type Scale = { times: number; over: number; shift: number };

/** Powers of ten up to 10^22 are exact in double precision: 5^22 is below 2^53. */
const EXACT_POWERS = Float64Array.from({ length: 23 }, (_, exponent) => Number(`1e${exponent}`));
const LARGEST_POWER = EXACT_POWERS.length - 1;

const ZERO = 48;
const NINE = 57;

/**
 * The decimal number in bytes [start, end), times the scale, or NaN when it is not one.
 *
 * A number is an optional sign, digits with at most one decimal mark, and an optional power of ten. Thousands
 * separators, hexadecimal, formulas, words for infinity and the other decimal mark are not numbers; see
 * `decimalFault` for the sentence. A result beyond the largest double is NaN too.
 *
 * The result is the double nearest to the decimal as written: digits below 2^53 and a power of ten up to 10^22
 * are both exact, so one multiplication or division rounds once (Clinger, "How to read floating point numbers
 * accurately", 1990; from memory). Anything longer goes through `Number`, which is exact too. A scale keeps
 * this: 25.4 enters as 254 · 10^-1. Only a division by 254 of more than some 13 digits rounds twice.
 */
export function readDecimal(
  bytes: Uint8Array,
  start: number,
  end: number,
  mark: DecimalMark,
  scale: Scale | null = null,
): number {
  let at = start;
  const sign = bytes[at];
  const negative = sign === 45;
  if (at < end && (negative || sign === 43)) at++;

  let digits = 0;
  let mantissa = 0;
  let exponent = 0;
  for (; at < end; at++, digits++) {
    const byte = bytes[at] as number;
    if (byte < ZERO || byte > NINE) break;
    mantissa = mantissa * 10 + (byte - ZERO);
  }
  if (at < end && bytes[at] === (mark === "." ? 46 : 44)) {
    for (at++; at < end; at++, digits++, exponent--) {
      const byte = bytes[at] as number;
      if (byte < ZERO || byte > NINE) break;
      mantissa = mantissa * 10 + (byte - ZERO);
    }
  }
  if (digits === 0) return Number.NaN;
  if (at < end) {
    const power = readPower(bytes, at, end);
    if (Number.isNaN(power)) return Number.NaN;
    exponent += power;
  }

  let size = scaled(mantissa, exponent, scale);
  if (Number.isNaN(size)) size = scaledLong(digitsOf(bytes, start, end), exponent, scale);
  return size === Number.POSITIVE_INFINITY ? Number.NaN : negative ? -size : size;
}

/** The exponent written as e5, E-3 …; NaN when it is something else. */
function readPower(bytes: Uint8Array, start: number, end: number): number {
  let at = start;
  if (bytes[at] !== 101 && bytes[at] !== 69) return Number.NaN;
  at++;
  const negative = bytes[at] === 45;
  if (at < end && (negative || bytes[at] === 43)) at++;
  if (at === end) return Number.NaN;
  let power = 0;
  for (; at < end; at++) {
    const byte = bytes[at] as number;
    if (byte < ZERO || byte > NINE) return Number.NaN;
    power = Math.min(power * 10 + (byte - ZERO), 100_000);
  }
  return negative ? -power : power;
}

/** mantissa · 10^exponent · scale by one rounding, or NaN when that takes more than exact doubles. */
function scaled(mantissa: number, exponent: number, scale: Scale | null): number {
  const whole = scale === null ? mantissa : mantissa * scale.times;
  const over = scale === null ? 1 : scale.over;
  const power = scale === null ? exponent : exponent + scale.shift;
  if (whole > Number.MAX_SAFE_INTEGER || power > LARGEST_POWER || power < -LARGEST_POWER) return Number.NaN;
  if (power >= 0) {
    const product = whole * (EXACT_POWERS[power] as number);
    if (over === 1) return product;
    return product > Number.MAX_SAFE_INTEGER ? Number.NaN : product / over;
  }
  const divisor = over * (EXACT_POWERS[-power] as number);
  return over === 1 || divisor <= Number.MAX_SAFE_INTEGER ? whole / divisor : Number.NaN;
}

function scaledLong(digits: string, exponent: number, scale: Scale | null): number {
  if (scale === null) return Number(`${digits}e${exponent}`);
  const whole = scale.times === 1 ? digits : BigInt(digits) * BigInt(scale.times);
  return Number(`${whole}e${exponent + scale.shift}`) / scale.over;
}

/** The digits before the power of ten, without sign and decimal mark. */
function digitsOf(bytes: Uint8Array, start: number, end: number): string {
  let digits = "";
  for (let at = start; at < end; at++) {
    const byte = bytes[at] as number;
    if (byte === 101 || byte === 69) break;
    if (byte >= ZERO && byte <= NINE) digits += String.fromCharCode(byte);
  }
  return digits;
}

/**
 * The largest number a measurement or a limit may be. Nothing that is measured comes near it in any unit, and the
 * fourth powers of ten million such numbers can still be summed.
 */
export const LARGEST_MEASUREMENT = 1e50;

/** Whether a number that was read may be a measurement or a limit; false for NaN too. */
export function isMeasurable(value: number): boolean {
  return Math.abs(value) <= LARGEST_MEASUREMENT;
}

/** Why `readDecimal` does not take this text, and what to do, as a sentence. */
export function decimalFault(text: string, mark: DecimalMark): string {
  const shown = quoted(text);
  const other = mark === "." ? "," : ".";
  if (text === "") return "The cell is empty: a number was expected.";
  if (text.startsWith("=")) {
    return `${shown} is a formula without a stored result. Let the spreadsheet calculate, then save it again.`;
  }
  if (text.startsWith("#"))
    return `${shown} is an error value of a spreadsheet, not a number. Correct the cell.`;
  if (/^[+-]?\d+([.,]\d+)*$/.test(text) && text.includes(other)) return otherMarkFault(text, mark);
  if (/^[+-]?\d{1,3}([\s\u00a0\u202f'’]\d{3})+/.test(text)) {
    return `${shown} holds separators between thousands. Write the digits without them.`;
  }
  if (/^[+-]?0x/i.test(text)) return `${shown} is hexadecimal. Write it as a decimal number.`;
  if (/^[+-]?(inf|nan|∞)/i.test(text))
    return `${shown} is not a finite number. Leave the row out if nothing was measured.`;
  if (/^\u2212/.test(text)) return `${shown} begins with a typographic minus. Write a hyphen-minus (-).`;
  if (/^[+-]?[\d.,]+\s*[^\d\s.,eE+-]/.test(text)) {
    return `${shown} holds text after the number. Keep the number alone; a unit belongs in its own column.`;
  }
  if (
    /^[+-]?[\d.,]+([eE][+-]?\d+)?$/.test(text) &&
    Math.abs(Number(text.replace(mark, "."))) > LARGEST_MEASUREMENT
  )
    return `${shown} is larger than anything that can be measured. Correct the cell.`;
  return `${shown} is not a number.`;
}

/** The sentence for a number that holds the other decimal mark, alone or beside the one of the mapping. */
function otherMarkFault(text: string, mark: DecimalMark): string {
  const shown = quoted(text);
  const other = mark === "." ? "," : ".";
  const held = `${shown} holds ${quoted(other)}, but the decimal mark of this mapping is ${quoted(mark)}.`;
  const isOtherLast = text.lastIndexOf(other) > text.lastIndexOf(mark);
  if (text.includes(mark) && isOtherLast) {
    return `${held} Change the decimal mark, and write the digits without separators between thousands.`;
  }
  const isThousands = new RegExp(`^[+-]?\\d{1,3}(\\${other}\\d{3})+(\\${mark}\\d*)?$`).test(text);
  if (!isThousands) return `${held} Change the decimal mark if it is one.`;
  const meant = `write it as ${text.replaceAll(other, "")} if ${quoted(other)} separates thousands`;
  return `${held} Change the decimal mark if it is one, or ${meant}.`;
}

/** A value as it is shown inside a sentence, cut when it is long. */
export function quoted(text: string): string {
  const cut = text.length > 60 ? `${text.slice(0, 60)}…` : text;
  return `“${cut}”`;
}
