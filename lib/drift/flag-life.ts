import type { DriftFlag, DriftScan } from "./drift-scan";
import { type ScannedSource, type SourceEvent, sourceKey } from "./measured-part";

/** open · closed by a person · faded, for the evidence is gone · answered by a source event. */
export const FLAG_STATES = ["open", "closed", "faded", "answered"] as const;
export type FlagState = (typeof FLAG_STATES)[number];

/** What is kept of a source that was named before, its latest flag only. */
export type KeptFlag = {
  id: number;
  source: ScannedSource;
  openedAt: number;
  latest: DriftFlag;
  latestAt: number;
  faintScans: number;
  state: FlagState;
};

/** What becomes of the flags after a scan: rows to open, to go on with and to end. */
export type FlagChanges = {
  open: DriftFlag[];
  goOn: { id: number; flag: DriftFlag }[];
  faint: { id: number; faintScans: number }[];
  fade: { id: number }[];
};

/** Scans in a row with too little evidence after which a flag goes by itself. Common practice, no source. */
export const FAINT_SCANS = 3;

/**
 * A flag stays open until a person closes it, its source has an event (`answered`), or three scans in a row, each of
 * new measurements, have less evidence for its source than log(number of sources).
 *
 * A change that a person has closed stays closed while the same change is found, that is, one of the same source that
 * began within the lots the scan allows for; a later one opens anew.
 *
 * @param before the latest flag of each source
 */
export function flagChanges(
  scan: Pick<DriftScan, "flags" | "sources" | "scanned" | "lots">,
  before: readonly KeptFlag[],
): FlagChanges {
  const named = new Map(scan.flags.map((flag) => [sourceKey(flag.source), flag]));
  const changes: FlagChanges = { open: [], goOn: [], faint: [], fade: [] };
  const known = new Set<string>();
  for (const kept of before) {
    const key = sourceKey(kept.source);
    const flag = named.get(key);
    if (flag !== undefined && goesOn(kept, flag, scan)) {
      known.add(key);
      changes.goOn.push({ id: kept.id, flag });
    } else if (kept.state === "open" && flag === undefined) {
      const faintScans = isFaint(kept, scan) ? kept.faintScans + 1 : 0;
      if (faintScans >= FAINT_SCANS) changes.fade.push({ id: kept.id });
      else changes.faint.push({ id: kept.id, faintScans });
    }
  }
  for (const [key, flag] of named) if (!known.has(key)) changes.open.push(flag);
  return changes;
}

/** The event that answered a flag: the first thing done to its source after it had moved; null while there is none. */
export function answerTo(
  { source, latest }: Pick<KeptFlag, "source" | "latest">,
  events: readonly SourceEvent[],
): SourceEvent | null {
  // New edges are logged for every tool as it goes: they are part of its wear, not an answer to it.
  const own = events.filter(
    ({ kind, source: code, at, event }) =>
      kind === source.kind &&
      code === source.id &&
      at > latest.onset.at &&
      !(kind === "tool" && event === "changed"),
  );
  return own.reduce<SourceEvent | null>(
    (first, one) => (first === null || one.at < first.at ? one : first),
    null,
  );
}

/** An open flag takes in whatever its source does; one that was closed only the change it was closed for. */
function goesOn({ state, latest }: KeptFlag, flag: DriftFlag, { lots }: Pick<DriftScan, "lots">): boolean {
  if (state === "open") return true;
  return state === "closed" && earliestOnset(flag, lots) <= latest.onset.at;
}

/** Begin of the earliest lot since which a flag may hold. */
export function earliestOnset({ onset }: DriftFlag, lots: DriftScan["lots"]): number {
  return lots.find(({ code }) => code === onset.from)?.at ?? onset.at;
}

function isFaint(
  { source }: KeptFlag,
  { sources, scanned }: Pick<DriftScan, "sources" | "scanned">,
): boolean {
  const verdict = sources.find((one) => sourceKey(one.source) === sourceKey(source));
  return verdict === undefined || verdict.logEvidence < Math.log(Math.max(1, scanned));
}
