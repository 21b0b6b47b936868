import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import { MEDIAN_MOVING_RANGE } from "../constants/control-chart-constants";
import { gaussLegendre } from "../constants/gauss-legendre";
import { median } from "../summary/moments";
import { equivalentDegreesOfFreedom } from "./equivalent-degrees-of-freedom";
import type { SigmaEstimate } from "./estimators";
import { movingRanges } from "./moving-ranges";

/** Density of |X₁ − X₂|/σ at its median: that of a normal variable of variance 2, folded. */
const DENSITY_AT_MEDIAN = Math.exp(-(MEDIAN_MOVING_RANGE ** 2) / 4) / Math.sqrt(Math.PI);

/**
 * P(both of two neighbouring moving ranges lie below their median), 0.2766; it would be 1/4 if they had
 * no reading in common. With q the 75 % point of the normal distribution and the correlation 1/2:
 * ∫ φ(u) [Φ((2q−u)/√3) − Φ((−2q−u)/√3)] du over |u| < q.
 */
const BOTH_BELOW_MEDIAN = bothBelowMedian();

function bothBelowMedian(): number {
  const q = MEDIAN_MOVING_RANGE / Math.SQRT2;
  const { points, weights } = gaussLegendre({ from: -q, to: q, panels: 1 });
  const spread = Math.sqrt(3);
  return points.reduce((sum, u, i) => {
    const density = Math.exp((-u * u) / 2) / Math.sqrt(2 * Math.PI);
    return sum + weights[i]! * density * (normalCdf(2 * q - u, 0, spread) - normalCdf(-2 * q - u, 0, spread));
  }, 0);
}

/**
 * Sigma of single readings from the median moving range.
 *
 *   σ̂ = median(MR) / 0.9539
 *
 * For a baseline that holds a few outliers: each spoils two ranges, which move a median hardly at all.
 * The price is scatter, about twice the variance of the estimate from the mean.
 *
 * Unit of the readings, at least two of them in time order. Degrees of freedom by matching the variance
 * that the median has in long series, [1/4 + 2(P − 1/4)] / (f²k) for k ranges, with f their density at
 * the median and P the chance that two neighbours lie below it; below some twenty ranges it is a rough
 * guide.
 *
 * Source: the factor is the median of |X₁ − X₂| over σ; the estimate itself is common practice, no source.
 */
export function sigmaFromMedianMovingRange(values: ArrayLike<number>): SigmaEstimate {
  const ranges = movingRanges(values);
  const variance = (1 / 4 + 2 * (BOTH_BELOW_MEDIAN - 1 / 4)) / (DENSITY_AT_MEDIAN ** 2 * ranges.length);
  return {
    sigma: median(ranges) / MEDIAN_MOVING_RANGE,
    degreesOfFreedom: equivalentDegreesOfFreedom(variance / MEDIAN_MOVING_RANGE ** 2),
  };
}
