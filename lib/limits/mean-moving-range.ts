import { D2_OF_TWO, D3_OF_TWO } from "../constants/control-chart-constants";
import { mean } from "../summary/moments";
import { equivalentDegreesOfFreedom } from "./equivalent-degrees-of-freedom";
import type { SigmaEstimate } from "./estimators";
import { movingRanges } from "./moving-ranges";

/**
 * Cov(|X₁ − X₂|, |X₂ − X₃|)/σ² of independent normal readings: neighbouring ranges share a reading.
 * For two normal variables of variance 2 and correlation ±1/2, E|UV| = (4/π)(√3/2 + π/12), from which
 * the product of the means, 4/π, is taken off.
 */
const NEIGHBOUR_COVARIANCE = (4 / Math.PI) * (Math.sqrt(3) / 2 + Math.PI / 12 - 1);

/**
 * Sigma of single readings from the mean moving range.
 *
 *   σ̂ = MR̄ / d2(2),   d2(2) = 2/√π        Var(MR̄)/σ² = [k·d3² + 2(k−1)·cov] / k²   for k ranges
 *
 * Neighbouring readings share short-term variation, so MR̄ sees the process between disturbances; the
 * standard deviation of all readings would take in the very shifts that the chart must reveal.
 *
 * Unit of the readings, at least two of them in time order. Degrees of freedom as Patnaik's
 * approximation, with the overlap of neighbouring ranges counted: about 0.6 per range.
 *
 * Source: NIST/SEMATECH e-Handbook, 6.3.2.2 (from memory). It prints d2 as 1.128; ours is exact, so our
 * limits lie 0.034 % of 3σ̂ nearer the centre line.
 */
export function sigmaFromMeanMovingRange(values: ArrayLike<number>): SigmaEstimate {
  const ranges = movingRanges(values);
  const k = ranges.length;
  const variance = (k * D3_OF_TWO ** 2 + 2 * (k - 1) * NEIGHBOUR_COVARIANCE) / k ** 2;
  return {
    sigma: mean(ranges) / D2_OF_TWO,
    degreesOfFreedom: equivalentDegreesOfFreedom(variance / D2_OF_TWO ** 2),
  };
}
