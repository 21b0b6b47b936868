import { InvalidInput, requireFiniteNumbers } from "../checks";
import { type LimitsBasis, requireSigma, sigmaOfMean, spreadFactors } from "./limits-for-size";

/**
 * A location point in units of its own sigma, for the run rules.
 *
 *   z = (mean − centre) / (σ/√n), with √(σ²between + σ²/n) below the line where lots count as part of the process
 *
 * A pure number. `size` is that of the point's subgroup, 1 for a single reading; of a count its sample in usual ones,
 * such as 0.9.
 *
 * @throws InvalidInput when a number is not finite, or sigma or the size is not above 0
 */
export function standardiseLocation(
  { centre, sigma, betweenLots }: LimitsBasis,
  { mean, size }: { mean: number; size: number },
): number {
  requireSigma("standardiseLocation", sigma);
  if (!(size > 0)) throw new InvalidInput("standardiseLocation", "size", size, "above 0");
  const z =
    betweenLots === undefined
      ? ((mean - centre) * Math.sqrt(size)) / sigma
      : (mean - centre) / sigmaOfMean({ centre, sigma, betweenLots }, size);
  // A long history asks this for every point, so the numbers are looked at one by one only when needed.
  if (!Number.isFinite(z)) requireFiniteNumbers("standardiseLocation", { mean, centre, size, z });
  return z;
}

/**
 * A spread point (range, standard deviation or moving range) in units of its own sigma.
 *
 *   R: z = (R − d2σ)/(d3σ)     s: z = (s − c4σ)/(σ√(1−c4²))     moving range: as R for two readings
 *
 * A pure number, skewed: the rules that lean on normal zones do not apply to it. Null for a subgroup of
 * one on a chart of means, which has no spread.
 *
 * @throws InvalidInput when a number is not finite, sigma is not above 0, or the size does not fit
 */
export function standardiseSpread(
  { chart, sigma }: LimitsBasis,
  { spread, size }: { spread: number; size: number },
): number | null {
  requireSigma("standardiseSpread", sigma);
  const factors = spreadFactors(chart, size);
  if (factors === null) return null;
  const z = (spread - factors.mean * sigma) / (factors.sd * sigma);
  if (!Number.isFinite(z)) requireFiniteNumbers("standardiseSpread", { spread, z });
  return z;
}
