import { median } from "../summary/moments";
import { thresholdFor } from "./scan";
import type { TableScan } from "./scan-table";
import type { WeighedSource } from "./weigh-sources";

/**
 * The smallest step of a single feature that this scan would have flagged on a source, in sigma; many features
 * moving together are seen earlier.
 *
 *   √( 2 (threshold + log onsets) / I )      with the information I of the onset that is seen best
 *
 * @param sources number of sources scanned, m
 * @returns null where no step of it could be estimated at all
 */
export function smallestShift(
  { source, candidates }: WeighedSource,
  { scans, sources }: { scans: readonly TableScan[]; sources: number },
): number | null {
  const best = scans.map(({ tests }) => new Float64Array(tests.features));
  let onsets = 0;
  for (const { kind, places, variant } of candidates) {
    if (kind !== "step" && source.kind !== "temperature") continue;
    if (variant === "since") continue;
    onsets++;
    for (const { table, k } of places) {
      const { tests, hypotheses } = scans[table]!;
      const own = best[table]!;
      for (const f of hypotheses.carriers[hypotheses.all[k]!.carrier]!.scope) {
        const information = tests.information[k * tests.features + f]!;
        if (information > own[f]!) own[f] = information;
      }
    }
  }
  const known = best.flatMap((own) => Array.from(own).filter((information) => information > 0));
  if (known.length === 0) return null;
  const information = median(known);
  return Math.sqrt((2 * (thresholdFor(source, sources) + Math.log(onsets))) / information);
}
