import { attributeRate } from "../charts/attribute";
import { type Computed, computed } from "../computed";
import { isOfPieces, usualSample } from "../plan/counts";
import type { CountPlan } from "../plan/feature-plan";
import type { SubgroupSummary } from "../subgroups/summarise";
import type { EstimatedLimits } from "./estimate-limits";

export type CountLimits = Omit<EstimatedLimits, "estimator"> & { estimator: "binomial" | "poisson" };

/**
 * Centre and sigma of counts on the usual number N of pieces or units.
 *
 *   p, np:  p̄ = Σd/Σn,  centre = N·p̄,  σ = √(N·p̄(1 − p̄))        c, u:  ū = Σc/Σn,  centre = N·ū,  σ = √(N·ū)
 *
 * A count is a single reading whose sigma follows from its mean; so run rules and limits at 3 sigma go the way
 * of all charts, a lower limit below 0 or an upper one above n pieces is never passed, and there is no second
 * chart of spread. A count d that was found on n instead is charted as d·N/n, with the sigma σ/√(n/N): that is p̄ or ū
 * with its exact limits for n, times N. `attributeLimits` has the exact probability limits beside them.
 *
 * Unit: counts. Degrees of freedom do not apply to a sigma that is no estimate of its own; they are those of
 * the mean's own samples, k − 1.
 *
 * Source: ASTM E2587 and ISO 7870-2 (from memory).
 *
 * @param counts with the charted count as `mean` and n/N as `size`
 * @returns the problem "too-few-subgroups" below two, "no-variation" when nothing was found, or every piece
 * @throws InvalidInput when a count is no whole number from 0 to (p, np) the number of pieces
 */
export function countLimits(
  plan: CountPlan,
  counts: readonly Pick<SubgroupSummary, "mean" | "size">[],
): Computed<CountLimits> {
  const { chart } = plan;
  const usual = usualSample(plan);
  const ofPieces = isOfPieces(chart);
  const rate = attributeRate(
    chart,
    counts.map(({ mean, size }) => ({
      count: size === 1 ? mean : unrounded(mean * size),
      size: ofPieces ? unrounded(usual * size) : usual * size,
    })),
  );
  if (!rate.ok) return rate;
  const centre = usual * rate.value;
  return computed({
    chart: "i-mr",
    centre,
    sigma: Math.sqrt(ofPieces ? centre * (1 - rate.value) : centre),
    estimator: ofPieces ? "binomial" : "poisson",
    degreesOfFreedom: counts.length - 1,
    subgroupSize: 1,
  });
}

/** A whole number that lost its last bit when it was divided, and multiplied again. */
function unrounded(figure: number): number {
  const whole = Math.round(figure);
  return Math.abs(figure - whole) <= 1e-9 * Math.max(1, whole) ? whole : figure;
}
