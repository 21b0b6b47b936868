import { MM_PER_INCH } from "../units/length";

/** One millimetre in a feature's unit. What is no length, or states no unit, is taken as it is. */
export function millimetreIn(unit: string): number {
  return unit === "in" ? 1 / MM_PER_INCH : 1;
}
