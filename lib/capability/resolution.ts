import { requireFinite } from "../checks";

/** Digits behind the decimal point up to which readings are taken to lie on a grid. */
const MOST_DECIMALS = 9;

/**
 * The step of the grid on which readings lie: 0.002 for readings such as 10.014 and 10.018.
 *
 * The largest step of which all differences are whole multiples, found in whole numbers: readings are
 * scaled by the power of ten that makes all of them whole, then the greatest common divisor of their
 * differences is taken. Few readings may by chance lie on a coarser grid than their gauge has.
 *
 * @returns null when the readings are all alike, or lie on no decimal grid of up to nine digits (computed
 *   or temperature-reduced values)
 * @throws InvalidInput when a reading is not a finite number
 */
export function gridStep(values: ArrayLike<number>): number | null {
  requireFinite("gridStep", "values", values);
  let decimals = 0;
  let scale = 1;
  for (let i = 0; i < values.length; i++) {
    while (!isWhole(values[i]! * scale)) {
      decimals++;
      if (decimals > MOST_DECIMALS) return null;
      scale = 10 ** decimals;
    }
  }
  const first = values.length === 0 ? 0 : Math.round(values[0]! * scale);
  let divisor = 0;
  for (let i = 1; i < values.length && divisor !== 1; i++) {
    divisor = greatestCommonDivisor(divisor, Math.abs(Math.round(values[i]! * scale) - first));
  }
  return divisor === 0 ? null : divisor / scale;
}

/** Whole up to the rounding of a decimal fraction in a double; beyond 2⁵⁰ nothing can be told. */
function isWhole(scaled: number): boolean {
  const size = Math.abs(scaled);
  return size < 2 ** 50 && Math.abs(scaled - Math.round(scaled)) <= Math.max(size, 1) * 2 ** -50;
}

function greatestCommonDivisor(a: number, b: number): number {
  let [larger, smaller] = [a, b];
  while (smaller > 0) [larger, smaller] = [smaller, larger % smaller];
  return larger;
}
