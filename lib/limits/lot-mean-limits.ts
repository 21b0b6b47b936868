import type { Computed } from "../computed";
import { computed, problem } from "../computed";
import type { SubgroupSummary } from "../subgroups/summarise";
import { betweenLots } from "./between-lot";
import { type EstimatedLimits, estimateLimits } from "./estimate-limits";

export type LotMeanLimits = Omit<EstimatedLimits, "estimator"> & {
  estimator: "between-lots";
  /** Sigma of the lots' own means, above 0. */
  betweenLots: number;
};

/**
 * Limits that take lot-to-lot variation as part of the process, where each subgroup is one lot.
 *
 *   centre = mean of lot means,   location: centre ± 3√(σ²between + σ²within/n),   spread: as ever from σ within
 *
 * σ²between from the moving range of successive lot means, as `betweenLots` offers it; with lots of one size
 * the location limits are then mean ± 3 MR̄/d2. For the decision to take them see there.
 *
 * Source: W. H. Woodall and E. V. Thomas, IIE Transactions 27 (1995) 757-764 (from memory).
 *
 * @returns the problems of `estimateLimits` and `betweenLots`; "no-variation" also when successive lot means
 *   differ by no more than the readings within explain, so that there is nothing to add
 * @throws InvalidInput as they do
 */
export function lotMeanLimits(
  chart: "xbar-r" | "xbar-s",
  subgroups: readonly SubgroupSummary[],
): Computed<LotMeanLimits> {
  const within = estimateLimits({ chart, subgroups });
  if (!within.ok) return within;
  const found = betweenLots({ lots: subgroups, within: within.value });
  if (!found.ok) return found;
  const { offered } = found.value;
  if (offered.between === 0) return problem({ code: "no-variation" });
  return computed({
    ...within.value,
    centre: offered.centre,
    estimator: "between-lots",
    betweenLots: offered.between,
  });
}
