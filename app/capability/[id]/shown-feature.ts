import type { FeatureRow } from "../../../db/queries/features";
import { measured, placesOf, placesWritten } from "../../../lib/format/numbers";
import type { Tolerance } from "../../../lib/plan/feature-plan";

/** How the figures of a feature are written on its capability page. */
export type ShownFeature = {
  unit: string;
  /** Decimals that show every step of its gauge and everything the drawing states. */
  places: number;
  /** A reading or a limit without its unit. */
  shown: (value: number) => string;
  tolerance: Tolerance;
  naturalBound: number | null;
  isReduced: boolean;
};

export function shownFeature({ unit, resolution, plan }: FeatureRow): ShownFeature {
  const { lower, upper } = plan.tolerance;
  const stated = [lower, upper].filter((limit) => limit !== null);
  const places = Math.max(placesOf(resolution), ...stated.map(placesWritten));
  return {
    unit,
    places,
    shown: (value) => measured(value, { resolution: 10 ** -places }),
    tolerance: plan.tolerance,
    naturalBound: plan.naturalBound,
    isReduced: plan.reduction !== null,
  };
}
