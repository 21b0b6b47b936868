import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { requireCount } from "../checks";
import { c4, relativeSpreadOfSd } from "./c4";
import { LARGEST_SAMPLE, relativeRange } from "./relative-range";

export type ControlChartConstants = {
  n: number;
  d2: number;
  d3: number;
  c4: number;
  A2: number;
  A3: number;
  D3: number;
  D4: number;
  B3: number;
  B4: number;
  E2: number;
};

/** Mean range of two readings over σ. Exact: E|X₁ − X₂| = 2/√π. */
export const D2_OF_TWO = 2 / Math.sqrt(Math.PI);

/** Standard deviation of the range of two readings over σ. Exact: √(2 − 4/π). */
export const D3_OF_TWO = Math.sqrt(2 - 4 / Math.PI);

/**
 * Median of the range of two readings over σ, 0.9539: the 75 % point of a normal variable times √2,
 * because X₁ − X₂ has the variance 2σ².
 */
export const MEDIAN_MOVING_RANGE = Math.SQRT2 * normalQuantile(0.75, 0, 1);

const known = new Map<number, ControlChartConstants>();

/**
 * The control chart constants for subgroups of n readings from a normal process; pure numbers.
 *
 *   d2, d3 = mean and standard deviation of R/σ       c4 = mean of s/σ
 *   A2 = 3/(d2√n)    A3 = 3/(c4√n)    E2 = 3/d2
 *   D3, D4 = 1 ∓ 3·d3/d2    B3, B4 = 1 ∓ 3·√(1−c4²)/c4    (the lower ones at least 0)
 *
 * Computed for any n from 2 to 1000, not read from a table. E2 is that of ranges over n readings; an
 * individuals chart with moving ranges of two uses the E2 of n = 2, which is 2.6587. Printed tables
 * divide by a rounded d2 and then show 2.660.
 *
 * Source: ASTM E2587 and ISO 7870-2, factors for control limits (definitions from memory).
 *
 * @throws InvalidInput when n is not a whole number from 2 to 1000
 */
export function controlChartConstants(n: number): Readonly<ControlChartConstants> {
  const found = known.get(n);
  if (found) return found;
  requireCount("controlChartConstants", "n", n, 2, LARGEST_SAMPLE);
  const { d2, d3 } = relativeRange(n);
  const mean = c4(n);
  const range = (3 * d3) / d2;
  const sd = 3 * relativeSpreadOfSd(n);
  const constants = Object.freeze({
    n,
    d2,
    d3,
    c4: mean,
    A2: 3 / (d2 * Math.sqrt(n)),
    A3: 3 / (mean * Math.sqrt(n)),
    D3: Math.max(0, 1 - range),
    D4: 1 + range,
    B3: Math.max(0, 1 - sd),
    B4: 1 + sd,
    E2: 3 / d2,
  });
  known.set(n, constants);
  return constants;
}
