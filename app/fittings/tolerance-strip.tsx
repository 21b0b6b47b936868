import { useCommonWords } from "#common-words";
import { DrawnStrip } from "./drawn-strip";
import { drawStrip, type StripFeature, type StripStanding } from "./strip-drawing";

/** A feature's latest subgroup means on a bar whose tolerance is equally wide for every feature; see `drawStrip`. */
export function ToleranceStrip(facts: { feature: StripFeature; standing: StripStanding | null }) {
  return <DrawnStrip drawing={drawStrip(facts, useCommonWords())} />;
}
