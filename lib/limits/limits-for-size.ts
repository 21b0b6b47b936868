import { InvalidInput, requireCount, requireFiniteNumbers } from "../checks";
import { c4, relativeSpreadOfSd } from "../constants/c4";
import { D2_OF_TWO, D3_OF_TWO } from "../constants/control-chart-constants";
import { relativeRange } from "../constants/relative-range";
import { CHART_KINDS, type ChartKind } from "../plan/feature-plan";

/** One pair of control limits with its centre line, in the unit of the readings. */
export type ControlLimits = { lower: number; centre: number; upper: number };

/** What limits are drawn from; as in a frozen limits version, which tells of `betweenLots`. */
export type LimitsBasis = {
  chart: ChartKind;
  centre: number;
  sigma: number;
  betweenLots?: number | undefined;
};

/** Of the mean of `size` readings: √(σ²between + σ²/n), the first only where lots count as part of the process. */
export function sigmaOfMean({ sigma, betweenLots = 0 }: Omit<LimitsBasis, "chart">, size: number): number {
  return betweenLots === 0 ? sigma / Math.sqrt(size) : Math.hypot(betweenLots, sigma / Math.sqrt(size));
}

type SpreadFactors = { mean: number; sd: number };

/** Kept per subgroup size: a long history asks for every point. */
const factorsOfSd = new Map<number, SpreadFactors>();

/**
 * Mean and standard deviation of a spread point in units of sigma; null where a subgroup has no spread.
 *
 * xbar-r: the range, d2 and d3. xbar-s: the standard deviation, c4 and √(1 − c4²). i-mr: the moving
 * range of two neighbours, whatever the subgroup size of one.
 *
 * @throws InvalidInput for an unknown chart, a size that is not a whole number from 1 on (to 1000 for
 *   ranges), or a size other than 1 on a chart of single readings
 */
export function spreadFactors(chart: ChartKind, size: number): SpreadFactors | null {
  requireCount("spreadFactors", "size", size, 1);
  switch (chart) {
    case "i-mr":
      requireCount("spreadFactors", "size", size, 1, 1);
      return { mean: D2_OF_TWO, sd: D3_OF_TWO };
    case "xbar-r": {
      if (size === 1) return null;
      const { d2, d3 } = relativeRange(size);
      return { mean: d2, sd: d3 };
    }
    case "xbar-s":
      return size === 1 ? null : sdFactors(size);
    default:
      throw new InvalidInput("spreadFactors", "chart", chart, `one of ${CHART_KINDS.join(", ")}`);
  }
}

function sdFactors(size: number): SpreadFactors {
  const found = factorsOfSd.get(size);
  if (found) return found;
  const factors = { mean: c4(size), sd: c4(size) * relativeSpreadOfSd(size) };
  factorsOfSd.set(size, factors);
  return factors;
}

/**
 * The limits of both charts for a subgroup of `size` readings; of a count, for its sample in usual ones, such as 0.9.
 *
 *   location: centre ± 3σ/√n, or centre ± 3√(σ²between + σ²/n) where lots count as part of the process
 *   spread:   R: (d2 ± 3·d3)σ,   s: (c4 ± 3·√(1−c4²))σ,   moving range: (2/√π ± 3·√(2−4/π))σ
 *
 * Lower spread limits stop at 0. `spread` is null for a subgroup of one on a chart of means and for a count, which have
 * no spread to plot. Results are in the unit of the readings, at full precision.
 *
 * Source: ASTM E2587 and ISO 7870-2, limits from given μ and σ (from memory).
 *
 * @throws InvalidInput when centre or sigma is not finite, sigma or the size is not above 0, or the size does not
 *   fit the chart
 */
export function limitsForSize(
  { chart, centre, sigma, betweenLots }: LimitsBasis,
  size: number,
): { location: ControlLimits; spread: ControlLimits | null } {
  requireFiniteNumbers("limitsForSize", { centre });
  requireSigma("limitsForSize", sigma);
  if (!(size > 0)) throw new InvalidInput("limitsForSize", "size", size, "above 0");
  // Another size than 1 on a chart of single readings is that of a count's sample, and counts have no spread.
  const factors = chart === "i-mr" && size !== 1 ? null : spreadFactors(chart, size);
  const reach =
    betweenLots === undefined
      ? (3 * sigma) / Math.sqrt(size)
      : 3 * sigmaOfMean({ centre, sigma, betweenLots }, size);
  return {
    location: { lower: centre - reach, centre, upper: centre + reach },
    spread: factors && {
      lower: Math.max(0, factors.mean - 3 * factors.sd) * sigma,
      centre: factors.mean * sigma,
      upper: (factors.mean + 3 * factors.sd) * sigma,
    },
  };
}

export function requireSigma(where: string, sigma: number): void {
  if (!Number.isFinite(sigma) || sigma <= 0) throw new InvalidInput(where, "sigma", sigma, "above 0");
}
