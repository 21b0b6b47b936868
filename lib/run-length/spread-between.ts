import { InvalidInput } from "../checks";
import { regularizedGamma } from "../distributions/incomplete-gamma";
import { normalRangeTails } from "../distributions/normal-range";
import { spreadFactors } from "../limits/limits-for-size";
import type { BetweenProbability } from "./zone-chain";

/**
 * How a range or a standard deviation is distributed in control, standardised as the chart plots it:
 *
 *   R: z = (R/σ − d2)/d3,   s: z = (s/σ − c4)/√(1 − c4²),   (n − 1)s²/σ² chi-square with n − 1 degrees
 *
 * It is skewed: with n = 5, 3-sigma limits are passed once in 217 subgroups by R and 256 by s, not once in
 * 370. Moving ranges have a distribution too, but neighbours share a reading; see individuals-moving-range.
 *
 * @throws InvalidInput for another chart, or a size below 2 (or above 1000 for ranges)
 */
export function spreadBetween(chart: "xbar-r" | "xbar-s", size: number): BetweenProbability {
  const factors = spreadFactors(chart, size);
  if (factors === null) throw new InvalidInput("spreadBetween", "size", size, "at least 2");
  const tails = (z: number) => {
    const inSigma = factors.mean + z * factors.sd;
    if (inSigma <= 0) return { lower: 0, upper: 1 };
    if (inSigma === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
    if (chart === "xbar-r") return normalRangeTails(inSigma, size);
    return regularizedGamma((size - 1) / 2, ((size - 1) * inSigma * inSigma) / 2);
  };
  return (lower, upper) => {
    const from = tails(lower);
    const to = tails(upper);
    return from.lower > 0.5 ? from.upper - to.upper : to.lower - from.lower;
  };
}
