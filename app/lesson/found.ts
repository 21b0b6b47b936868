import type { FlagRow } from "../../db/queries/drift";
import type { SourceEventRow } from "../../db/queries/sources";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { isOf } from "../../lib/drift/tool-code";
import type { PlantedFault } from "../../seed/truth";

/** What became of a planted fault, as the stored scan and its flags have it. */
export type Found =
  | {
      is: "found";
      flag: FlagRow;
      /** Planted features that the flag names, of those planted, and features named that were not planted. */
      agreeing: number;
      planted: number;
      besides: string[];
      /** The lot planted lies in the interval the scan gives. */
      isOnsetWithin: boolean;
    }
  /** Its lots lie before those the scan looks back on. */
  | { is: "past"; firstLot: string }
  /** Somebody logged an event as it began, and what changes with an event counts as intended; what changed is said. */
  | { is: "event"; event: SourceEventRow; change: StoredScan["atEvents"][number] | null }
  | { is: "missed"; smallestShift: number | null };

/** Looks for a planted fault in what was found; nothing here is known beforehand. */
export function lookFor(
  { source, since, until, moved }: PlantedFault,
  { scan, flags, events }: { scan: StoredScan; flags: readonly FlagRow[]; events: readonly SourceEventRow[] },
): Found {
  const flag = flags.find(({ source: named }) =>
    source === null
      ? (named.kind === "lot" && named.id === since) || (named.kind === "temperature" && isTemperature(moved))
      : named.kind === source.kind && named.id === source.code,
  );
  if (flag) return foundBy(flag, { since, moved });
  const inWindow = new Set(scan.lots.map(({ code }) => code));
  if (!inWindow.has(since) && (until === null || !inWindow.has(until))) {
    const number = moved[0]?.part ?? "";
    const own = scan.partLots.find(({ part }) => part === number || part.startsWith(`${number} `));
    return { is: "past", firstLot: own?.lots[0] ?? "" };
  }
  const began = scan.lots.find(({ code }) => code === since)?.at;
  if (source !== null && began !== undefined) {
    const event = events.find(
      (one) => isOf(one, { kind: source.kind, id: source.code }) && Math.abs(one.at - began) < A_DAY_MS,
    );
    const change = scan.atEvents.find((one) => event && one.at === event.at && isOf(event, one.source));
    if (event) return { is: "event", event, change: change ?? null };
  }
  const verdict = scan.sources.find(
    (one) => source !== null && one.source.kind === source.kind && one.source.id === source.code,
  );
  return { is: "missed", smallestShift: verdict?.smallestShift ?? null };
}

const A_DAY_MS = 86_400_000;

/** A fault whose shifts depend on the part temperature states none. */
function isTemperature(moved: PlantedFault["moved"]): boolean {
  return moved.every(({ shift }) => shift === null);
}

function foundBy(flag: FlagRow, { since, moved }: Pick<PlantedFault, "since" | "moved">): Found {
  const planted = new Set(moved.map(({ feature }) => feature));
  const named = flag.latest.features.map(({ feature }) => feature);
  const { from, to } = flag.latest.onset;
  return {
    is: "found",
    flag,
    agreeing: named.filter((feature) => planted.has(feature)).length,
    planted: planted.size,
    besides: named.filter((feature) => !planted.has(feature)),
    isOnsetWithin: from <= since && since <= to,
  };
}
