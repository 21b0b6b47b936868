import { median } from "../summary/moments";
import type { Hypothesis } from "./hypotheses";
import { type ScannedSource, sourceKey } from "./measured-part";
import { thresholdFor } from "./scan";
import type { TableScan } from "./scan-table";
import type { Candidate, WeighedSource } from "./weigh-sources";

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
  let onsets = 0;
  for (const { kind, variant } of candidates) if (isCounted(source, kind, variant)) onsets++;
  const key = sourceKey(source);
  const best = scans.map((scan) => bestOf(scan).get(key) ?? NOTHING);
  const informed = best.flatMap((own) => Array.from(own).filter((information) => information > 0));
  if (informed.length === 0) return null;
  const information = median(informed);
  return Math.sqrt((2 * (thresholdFor(source, sources) + Math.log(onsets))) / information);
}

function isCounted(
  { kind: of }: ScannedSource,
  kind: Candidate["kind"],
  variant: Hypothesis["variant"],
): boolean {
  return (kind === "step" || of === "temperature") && variant !== "since";
}

const NOTHING = new Float64Array(0);

/** By source and feature, the information of the onset that is seen best: it holds as long as the scan of the table. */
const known = new WeakMap<TableScan, Map<string, Float64Array>>();

function bestOf(scan: TableScan): Map<string, Float64Array> {
  const found = known.get(scan);
  if (found !== undefined) return found;
  const best = new Map<string, Float64Array>();
  const { tests, hypotheses, evidence } = scan;
  let last: ScannedSource | null = null;
  let own: Float64Array = NOTHING;
  for (const [k, { source, type, variant, carrier }] of hypotheses.all.entries()) {
    if (evidence.features[k] === 0 || !isCounted(source, type, variant)) continue;
    // Hypotheses of a source come one after another, with the very same source.
    if (source !== last) {
      last = source;
      own = best.get(sourceKey(source)) ?? new Float64Array(tests.features);
      best.set(sourceKey(source), own);
    }
    for (const f of hypotheses.carriers[carrier]!.scope) {
      const information = tests.information[k * tests.features + f]!;
      if (information > own[f]!) own[f] = information;
    }
  }
  known.set(scan, best);
  return best;
}
