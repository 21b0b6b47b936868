import type { FeaturePlan, Tolerance } from "../plan/feature-plan";
import { measured, placesOf, placesStated } from "./numbers";

/** How the figures of a feature are written where it is judged. */
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

/** More than this no figure of these pages shows. */
const MOST_PLACES = 8;

/** `sigma` tells how many decimals count where no resolution is stated. */
export function shownFeature(
  { unit, resolution, plan }: { unit: string; resolution: number | null; plan: FeaturePlan },
  sigma: number | null,
): ShownFeature {
  const { lower, upper } = plan.tolerance;
  const stated = [lower, upper].filter((limit) => limit !== null);
  const told = resolution === null && sigma !== null && sigma > 0 ? 1 - Math.floor(Math.log10(sigma)) : 0;
  const places = Math.min(MOST_PLACES, Math.max(placesOf(resolution), told, ...stated.map(placesStated)));
  return {
    unit,
    places,
    shown: (value) => measured(value, { resolution: 10 ** -places }),
    tolerance: plan.tolerance,
    naturalBound: plan.naturalBound,
    isReduced: plan.reduction !== null,
  };
}
