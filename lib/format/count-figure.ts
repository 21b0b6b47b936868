import { countFigures } from "../plan/counts";
import type { CountPlan } from "../plan/feature-plan";
import { fixed } from "./numbers";

/** A charted count, its limit or its sigma as the trade tells it: per piece or unit on p and u charts, else the number. */
export function countFigure(value: number, counts: CountPlan): string {
  const { per, places } = countFigures(counts);
  return fixed(value / per, places);
}
