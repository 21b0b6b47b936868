import { InvalidInput } from "../checks";
import type { TemperatureReduction } from "../plan/feature-plan";
import { MM_PER_INCH } from "../units/length";

/** Reference temperature of dimensional measurement, ISO 1. */
export const REFERENCE_TEMPERATURE = 20;

/**
 * A size as it would be at 20 °C.
 *
 *   x₂₀ = x − α · L · (T − 20 °C)
 *
 * L is the length that expands, in mm, and α the expansion coefficient of the part per kelvin; the result
 * is in the unit of x. The gauge is taken to be at 20 °C or to correct itself.
 *
 * Source: ISO 1 (reference temperature); linear expansion.
 *
 * @returns x unchanged when the part temperature is not stated (NaN)
 */
export function reducedTo20({
  value,
  partTemp,
  reduction,
  unit,
}: {
  value: number;
  partTemp: number;
  reduction: TemperatureReduction;
  unit: "mm" | "in";
}): number {
  if (!(reduction.length > 0)) throw new InvalidInput("reducedTo20", "length", reduction.length, "positive");
  if (Number.isNaN(partTemp)) return value;
  const growth = reduction.expansion * reduction.length * (partTemp - REFERENCE_TEMPERATURE);
  return value - (unit === "in" ? growth / MM_PER_INCH : growth);
}
