import type { DriftFlag } from "../drift/drift-scan";
import { firstTowards } from "../drift/flag-words";
import type { Band } from "./bands";

/**
 * A drift that may meet a tolerance limit within this many lots needs a person now; one further away is watched.
 * Common practice, no source: a week or two, in which a repair can still be planned.
 */
export const LOTS_AHEAD = 20;

/** A lot that was different is worth a look as long as it is among the latest of its part. */
const LATEST_LOTS = 3;

/**
 * In which band of the board a source that moved stands. A source that stepped or scatters is off now; one that drifts
 * or wears counts by how early it may meet the first tolerance limit (the 5 % quantile), a tool's edge when that is
 * within its usual life. Material that was different is over unless it was just now.
 */
export function bandOfFlag(
  flag: Pick<DriftFlag, "source" | "kind" | "forecast" | "onset">,
  { latestLots }: { latestLots: readonly string[] },
): Band {
  if (flag.source.kind === "lot") return latestLots.includes(flag.onset.lot) ? "watch" : "quiet";
  if (flag.source.kind === "temperature") return "watch";
  if (flag.kind !== "trend") return "act";
  const first = firstTowards(flag, "tolerance");
  if (first === null) return "watch";
  const isSoon = first.lots === null ? (first.shareOfLife?.low ?? 0) <= 1 : first.lots.low <= LOTS_AHEAD;
  return isSoon ? "act" : "watch";
}

/** The last few lots of each part. */
export function latestLotsOf(partLots: readonly { lots: readonly string[] }[]): string[] {
  return partLots.flatMap(({ lots }) => lots.slice(-LATEST_LOTS));
}
