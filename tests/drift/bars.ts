import type { Fault } from "./layouts";

/** What a scan has to reach before it is trusted with a shop. */
export const MOST_FALSE_FLAGS = 0.01;
export const LEAST_FAULT_FREE_SCANS = 200;
export const LEAST_RIGHT_FIRST = 0.98;

/** Severities of the columns of `LEAST_DETECTED`. */
export const BAR_SEVERITIES: readonly number[] = [1, 1.5, 2, 3];

/**
 * Share of faults to be found, from the method's first trial: another implementation on seven shops of its own, so
 * each figure is a multiple of 1/7 with a standard error of up to 0.19.
 */
export const LEAST_DETECTED: Record<Fault, readonly number[]> = {
  fixture_step: [0.71, 0.86, 1, 1],
  fixture_drift: [0.71, 0.86, 0.86, 0.86],
  fixture_spread: [0.57, 0.71, 1, 1],
  tool_wear: [1, 1, 1, 1],
  tool_wear_rate: [1, 1, 1, 1],
  tool_offset: [0.86, 1, 1, 1],
  gauge_step: [1, 1, 1, 1],
  gauge_drift: [1, 1, 1, 1],
  temperature: [1, 1, 1, 1],
  operator_step: [0.71, 0.86, 0.86, 0.86],
  lot_shift: [0.29, 0.29, 0.57, 0.71],
};

/** A cell below its bar: by so many more faults would it have been reached. */
export type BelowBar = { fault: Fault; severity: number; found: number; of: number; bar: number };

/** Compares shares rounded to two places, as they are printed. */
export function belowBar(fault: Fault, severity: number, found: number, of: number): BelowBar | null {
  const at = BAR_SEVERITIES.indexOf(severity);
  if (at === -1 || of === 0) return null;
  const bar = LEAST_DETECTED[fault][at]!;
  return Math.round((100 * found) / of) >= Math.round(100 * bar) ? null : { fault, severity, found, of, bar };
}
