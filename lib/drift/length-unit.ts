/** Exact by definition (international yard and pound agreement, 1959; from memory). */
const MM_PER_INCH = 25.4;

/** One millimetre in a feature's unit. What is no length, or states no unit, is taken as it is. */
export function millimetreIn(unit: string): number {
  return unit === "in" ? 1 / MM_PER_INCH : 1;
}
