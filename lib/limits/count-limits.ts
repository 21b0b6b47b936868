import { attributeRate } from "../charts/attribute";
import { type Computed, computed } from "../computed";
import { isOfPieces } from "../plan/counts";
import type { CountPlan } from "../plan/feature-plan";
import type { SubgroupSummary } from "../subgroups/summarise";
import type { EstimatedLimits } from "./estimate-limits";

export type CountLimits = Omit<EstimatedLimits, "estimator"> & { estimator: "binomial" | "poisson" };

/**
 * Centre and sigma of counts, each found on as many pieces or units as the plan says.
 *
 *   p, np:  centre = n·p̄,  σ = √(n·p̄(1 − p̄))        c, u:  centre = n·ū,  σ = √(n·ū)
 *
 * A count is a single reading whose sigma follows from its mean; so run rules and limits at 3 sigma go the way
 * of all charts, a lower limit below 0 or an upper one above n pieces is never passed, and there is no second
 * chart of spread. `attributeLimits` has the exact probability limits beside them.
 *
 * Unit: counts. Degrees of freedom do not apply to a sigma that is no estimate of its own; they are those of
 * the mean's own samples, k − 1.
 *
 * Source: ASTM E2587 and ISO 7870-2 (from memory).
 *
 * @returns the problem "too-few-subgroups" below two, "no-variation" when nothing was found, or every piece
 * @throws InvalidInput when a count is no whole number from 0 to (p, np) the number of pieces
 */
export function countLimits(
  { chart, size }: CountPlan,
  counts: readonly SubgroupSummary[],
): Computed<CountLimits> {
  const rate = attributeRate(
    chart,
    counts.map(({ mean }) => ({ count: mean, size })),
  );
  if (!rate.ok) return rate;
  const centre = size * rate.value;
  return computed({
    chart: "i-mr",
    centre,
    sigma: Math.sqrt(isOfPieces(chart) ? centre * (1 - rate.value) : centre),
    estimator: isOfPieces(chart) ? "binomial" : "poisson",
    degreesOfFreedom: counts.length - 1,
    subgroupSize: 1,
  });
}
