import type { FeatureHistory } from "../../../db/queries/history";
import { fixed, placesOf, withUnit } from "../../../lib/format/numbers";
import { isPerUnit } from "../../../lib/plan/counts";

/** How a chart with a memory writes its figures: in the feature's unit with a decimal more, or in sigma. */
export type MemoryFigures = {
  places: number;
  bare: (value: number, extra?: number) => string;
  withUnit: (value: number, extra?: number) => string;
};

export function memoryFigures(
  { resolution, unit, plan: { counts } }: FeatureHistory["feature"],
  { isZ }: { isZ: boolean },
): MemoryFigures {
  // Counts on another sample than usual stand as what they would be on the usual one, which is no whole number.
  const isShare = counts ? isPerUnit(counts.chart) : false;
  const places = isZ ? 2 : isShare ? 3 : placesOf(resolution) + 1;
  const bare = (value: number, extra = 0) => fixed(value, places + extra);
  return {
    places,
    bare,
    withUnit: (value, extra = 0) => (isZ ? bare(value, extra) : withUnit(bare(value, extra), unit)),
  };
}
