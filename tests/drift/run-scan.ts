import { scanForDrift } from "../../lib/drift/drift-scan";
import type { MeasuredPart } from "../../lib/drift/measured-part";
import { ScanMemory } from "../../lib/drift/scan-memory";
import {
  emptySeries,
  type MeasurementSeries,
  NAME_COLUMNS,
  NUMBER_COLUMNS,
} from "../../lib/measurements/series";
import { judgeFlags, type SaidFlag, type Verdict } from "./judge-flags";
import type { Scenario } from "./scenario";

/**
 * Scans a scenario up to and including lot `last` (all of it when not given) and judges the flags; with the memory of
 * the scan before it, if there was one.
 */
export function scanAndJudge(
  scenario: Scenario,
  last: number = scenario.lots.length - 1,
  memory: ScanMemory = new ScanMemory(),
): Verdict {
  const parts = last === scenario.lots.length - 1 ? scenario.parts : upToLot(scenario.parts, last);
  const { flags } = scanForDrift(parts, { codeOf: scenario.codeOf, memory });
  const said = flags
    .map((flag): SaidFlag & { logEvidence: number } => ({
      source: flag.source,
      kind: flag.kind,
      onset: flag.onset.lot,
      onsetFrom: flag.onset.from,
      onsetTo: flag.onset.to,
      alternatives: flag.alternatives.map(({ source }) => source),
      logEvidence: flag.logEvidence,
    }))
    .sort((a, b) => b.logEvidence - a.logEvidence);
  return judgeFlags(scenario, said);
}

/** Lots have the ids 1, 2, 3 … in time. */
function upToLot(parts: readonly MeasuredPart[], last: number): MeasuredPart[] {
  return parts.map(({ part, features }) => ({
    part,
    features: features
      .map((feature) => ({ ...feature, series: firstOf(feature.series, last + 1) }))
      .filter(({ series }) => series.count > 0),
  }));
}

function firstOf(series: MeasurementSeries, lastLot: number): MeasurementSeries {
  const count = series.lot.findIndex((lot) => lot > lastLot);
  if (count === -1) return series;
  const cut = emptySeries(count);
  for (const column of [...NUMBER_COLUMNS, ...NAME_COLUMNS, "intake", "line"] as const) {
    cut[column].set(series[column].subarray(0, count));
  }
  return cut;
}
