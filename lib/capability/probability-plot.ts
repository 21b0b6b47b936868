import { requireCount, requireFinite } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { betaQuantile } from "../distributions/beta";
import type { Distribution } from "../distributions/distribution";
import { normalCdf, normalQuantile, normalUpperTail } from "../distributions/normal";
import { normalDistribution } from "../distributions/normal-distribution";
import { mean, sampleStandardDeviation } from "../summary/moments";

/** One reading in the order of size: where it lies, where a normal process has it, and how far it may stray. */
export type PlottedReading = {
  /** 1 for the smallest. */
  rank: number;
  value: number;
  /** The median of the rank's reading in a standard normal sample: its place on the normal scale. */
  z: number;
  /** Between these it lies with the band's confidence, in the unit of the readings. */
  low: number;
  high: number;
};

export type ProbabilityPlot = {
  count: number;
  /** Where the model has each place of the normal scale: a straight line for the normal one. Ascending. */
  line: { z: number; value: number }[];
  confidence: number;
  points: PlottedReading[];
};

/** Quantiles of the model that readings are held against, each tail by itself; in the unit of the readings. */
export type PlottedModel = Pick<Distribution, "quantile" | "upperQuantile">;

/** Places on the line: enough that a curve looks round. */
const LINE_PLACES = 61;

/** How far the line goes on beyond the outermost reading, on the normal scale. */
const LINE_BEYOND = 0.35;

const FEWEST = 3;

/** More points than this lie on each other on a screen. */
export const MOST_PLOTTED = 400;

/**
 * Readings against a normal scale: on a straight line if the process is normal.
 *
 *   zᵢ = Φ⁻¹(mᵢ),  m₁ = 1 − 0.5^(1/n),  mₙ = 0.5^(1/n),  mᵢ = (i − 0.3175) / (n + 0.365) between
 *
 * The band about the line holds one reading of that rank with the given confidence, each by itself:
 *
 *   x̄ + s·Φ⁻¹(Beta quantile(p; i, n − i + 1)),  p = (1 − c)/2 and (1 + c)/2
 *
 * for the i-th smallest of n is Beta distributed on the scale of probability. That x̄ and s come from the
 * same readings makes it a little wide. With 400 points some lie outside by chance: it guides the eye, the
 * Anderson-Darling test judges.
 *
 * With another `model` the scale stays the normal one, and line and band are its quantiles: readings that follow the
 * model lie along a curve.
 *
 * A long series is thinned to at most `most` points: the first and last quarter of them are the outermost
 * readings, one by one, and the rest are spread evenly over the ranks between.
 *
 * Source: positions, J. J. Filliben, Technometrics 17 (1975) 111-117, as in NIST/SEMATECH e-Handbook
 * 1.3.3.21; order statistics, H. A. David and H. N. Nagaraja, Order Statistics (2003), 2.1 (from memory).
 *
 * @returns the problem "too-few-readings" below three, "no-variation" when all are alike
 * @throws InvalidInput when a reading is not finite, or `most` is below 8
 */
export function probabilityPlot({
  values,
  confidence,
  most = MOST_PLOTTED,
  model,
}: {
  values: ArrayLike<number>;
  confidence: number;
  most?: number;
  /** The normal one with mean and standard deviation of the readings when absent. */
  model?: PlottedModel | undefined;
}): Computed<ProbabilityPlot> {
  requireFinite("probabilityPlot", "values", values);
  requireCount("probabilityPlot", "most", most, 8);
  const count = values.length;
  if (count < FEWEST) return problem({ code: "too-few-readings", needed: FEWEST, got: count });
  const centre = mean(values);
  const sigma = sampleStandardDeviation(values);
  if (sigma === 0) return problem({ code: "no-variation" });

  const { quantile, upperQuantile } = model ?? normalDistribution({ mean: centre, standardDeviation: sigma });
  const sorted = Float64Array.from(values).sort();
  const tail = (1 - confidence) / 2;
  const points = ranksToPlot(count, most).map((rank): PlottedReading => {
    // The upper half by its upper tail, the i-th largest: no digits are lost near one.
    const at = (p: number) =>
      2 * rank <= count
        ? quantile(betaQuantile(p, { alpha: rank, beta: count - rank + 1 }))
        : upperQuantile(betaQuantile(1 - p, { alpha: count - rank + 1, beta: rank }));
    return {
      rank,
      value: sorted[rank - 1]!,
      z: normalQuantile(medianPosition(rank, count)),
      low: at(tail),
      high: at(1 - tail),
    };
  });
  const reach = Math.max(...points.map(({ z }) => Math.abs(z))) + LINE_BEYOND;
  const line = Array.from({ length: LINE_PLACES }, (_, i) => {
    const z = reach * ((2 * i) / (LINE_PLACES - 1) - 1);
    return { z, value: z <= 0 ? quantile(normalCdf(z)) : upperQuantile(normalUpperTail(z)) };
  });
  return computed({ count, line, confidence, points });
}

/** Median of the rank-th smallest of `count` uniform readings: Filliben's approximation, exact at both ends. */
export function medianPosition(rank: number, count: number): number {
  requireCount("medianPosition", "count", count, 1);
  requireCount("medianPosition", "rank", rank, 1, count);
  if (rank === count) return 0.5 ** (1 / count);
  if (rank === 1) return 1 - 0.5 ** (1 / count);
  return (rank - 0.3175) / (count + 0.365);
}

/** Ascending, without repetition: both tails whole, the middle thinned. */
export function ranksToPlot(count: number, most: number): number[] {
  if (count <= most) return Array.from({ length: count }, (_, i) => i + 1);
  const tail = Math.floor(most / 4);
  const between = most - 2 * tail;
  const first = tail + 1;
  const last = count - tail;
  const ranks: number[] = [];
  for (let rank = 1; rank <= tail; rank++) ranks.push(rank);
  for (let i = 0; i < between; i++) ranks.push(first + Math.round((i * (last - first)) / (between - 1)));
  for (let rank = last + 1; rank <= count; rank++) ranks.push(rank);
  return ranks;
}
