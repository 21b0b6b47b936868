import { InvalidInput, requireFiniteNumbers } from "../../checks";
import type { Distribution } from "../../distributions/distribution";
import { normalUpperTail } from "../../distributions/normal";
import type { Tolerance } from "../../plan/feature-plan";

/** What a normal process leaves outside three standard deviations on one side: 0.135 %. */
export const OUTSIDE_THREE_SIGMA = normalUpperTail(3);

/** The spread that holds 99.73 % of a process, and its middle, in the unit of the feature. */
export type Quantiles = { below: number; median: number; above: number };

/** Null where an index has no meaning: a side without a limit. */
export type PercentileIndices = {
  Pp: number | null;
  Ppl: number | null;
  Ppu: number | null;
  Ppk: number | null;
};

export function quantilesOf(distribution: Distribution): Quantiles {
  return {
    below: distribution.quantile(OUTSIDE_THREE_SIGMA),
    median: distribution.quantile(0.5),
    above: distribution.upperQuantile(OUTSIDE_THREE_SIGMA),
  };
}

/**
 * Indices of any distribution, by its quantiles in place of three standard deviations.
 *
 *   Pp  = (U − L) / (X₉₉.₈₆₅ − X₀.₁₃₅)
 *   Ppu = (U − X₅₀) / (X₉₉.₈₆₅ − X₅₀),   Ppl = (X₅₀ − L) / (X₅₀ − X₀.₁₃₅),   Ppk the smaller
 *
 * For a normal distribution these are the usual Pp and Ppk. Other quantiles may be given, as those of the
 * readings themselves: NIST prints such an index with the 0.5 and 99.5 % points under the name Cnpk.
 *
 * Source: ISO 22514-2 (from memory); NIST/SEMATECH e-Handbook 6.1.6 and 3.5.1.2.
 *
 * @throws InvalidInput when a number is not finite, the quantiles do not rise or the limits are swapped
 */
export function percentileIndices({
  quantiles,
  tolerance,
}: {
  quantiles: Quantiles;
  tolerance: Tolerance;
}): PercentileIndices {
  const where = "percentileIndices";
  const { below, median, above } = quantiles;
  const { lower, upper } = tolerance;
  requireFiniteNumbers(where, { below, median, above });
  if (lower !== null) requireFiniteNumbers(where, { "tolerance.lower": lower });
  if (upper !== null) requireFiniteNumbers(where, { "tolerance.upper": upper });
  if (!(below < median && median < above)) {
    throw new InvalidInput(where, "quantiles.median", median, `between ${below} and ${above}`);
  }
  if (lower !== null && upper !== null && lower >= upper) {
    throw new InvalidInput(where, "tolerance.lower", lower, `below the upper limit ${upper}`);
  }
  const Ppl = lower === null ? null : (median - lower) / (median - below);
  const Ppu = upper === null ? null : (upper - median) / (above - median);
  return {
    Pp: lower === null || upper === null ? null : (upper - lower) / (above - below),
    Ppl,
    Ppu,
    Ppk: Ppl === null ? Ppu : Ppu === null ? Ppl : Math.min(Ppl, Ppu),
  };
}
