import { logSumExp } from "./bayes-factor";
import type { LotAxis } from "./lot-axis";
import type { ScannedSource } from "./measured-part";
import type { TableScan } from "./scan-table";
import type { Candidate } from "./weigh-sources";

/** Indexes on the axis of lots. */
export type Onset = {
  likeliest: number;
  from: number;
  to: number;
  posterior: { lot: number; weight: number }[];
};

const HELD = 0.9;

/**
 * When it began: the evidence over onsets, normalised, is their posterior. The smallest set of lots holding 90 %
 * gives the interval, stretched back to the lot after the source was last used before: a fixture on the shelf
 * may have been knocked there.
 *
 * Without the prior and the pooling this is the maximum likelihood estimate of a step's onset of Samuel, Pignatiello
 * and Calvin, Quality Engineering 10 (1998).
 */
export function onsetOf(
  candidates: readonly Candidate[],
  { scans, axis }: { scans: readonly TableScan[]; axis: LotAxis },
): Onset {
  const sorted = [...candidates].sort((a, b) => b.tempered - a.tempered);
  const total = logSumExp(sorted.map(({ tempered }) => tempered));
  const posterior = sorted.map(({ onset, tempered }) => ({ lot: onset, weight: Math.exp(tempered - total) }));
  let held = 0;
  let count = 0;
  while (count < posterior.length && held < HELD) held += posterior[count++]!.weight;
  const set = posterior.slice(0, count).map(({ lot }) => lot);
  const from = Math.min(...set);
  return {
    likeliest: posterior[0]!.lot,
    from: lastUseBefore(sorted[0]!.source, from, { scans, axis }),
    to: Math.max(...set),
    posterior,
  };
}

function lastUseBefore(
  source: ScannedSource,
  from: number,
  { scans, axis }: { scans: readonly TableScan[]; axis: LotAxis },
): number {
  if (source.kind !== "fixture") return from;
  let last = -1;
  for (const [t, { prepared }] of scans.entries()) {
    const { levels, lotOf } = prepared.table;
    for (let i = 0; i < lotOf.length; i++) {
      const level = levels.fixture.of[i]!;
      if (level < 0 || levels.fixture.codes[level] !== source.id) continue;
      const lot = axis.indexOf[t]![lotOf[i]!]!;
      if (lot < from) last = Math.max(last, lot);
    }
  }
  return last === -1 ? from : last + 1;
}
