import type { Field } from "./field";
import type { DecimalMark } from "./mapping";
import { decimalFault } from "./numbers";

/*
 * Figures that a row states beside its value, and what keeps one from being taken: a sentence, or null. `figure` is what
 * was read of the field, NaN when it holds no number.
 */

export type FigureFault = (figure: number, field: Field, decimal: DecimalMark) => string | null;

const COLDEST_PART = -50;
const HOTTEST_PART = 150;
/** More pieces or units than this were never looked at: another column is meant. */
const MOST_INSPECTED = 1_000_000_000;

export function isPartTemperature(figure: number): boolean {
  return figure >= COLDEST_PART && figure <= HOTTEST_PART;
}

export const temperatureFault: FigureFault = (figure, field, decimal) => {
  if (isPartTemperature(figure)) return null;
  return Number.isNaN(figure)
    ? decimalFault(field.text(), decimal)
    : `A part temperature of ${field.text()} °C is outside ${COLDEST_PART} to ${HOTTEST_PART} °C. Is it in another unit, or another column?`;
};

export const inspectedFault: FigureFault = (figure, field, decimal) => {
  if (figure > 0 && figure <= MOST_INSPECTED) return null;
  return Number.isNaN(figure)
    ? decimalFault(field.text(), decimal)
    : `The number inspected is ${field.text()}: it is above 0, at most ${MOST_INSPECTED}. Leave it empty where it is the plan's own size.`;
};
