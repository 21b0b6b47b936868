import type { CodeOf, MeasuredPart, SourceEvent } from "./measured-part";
import { pieceTables } from "./piece-table";
import { type RawScan, scanTables } from "./scan";
import { WINDOW_LOTS } from "./settings";

/** Scans the last 60 lots of each part for sources that moved, without words. */
export function scanParts(
  parts: readonly MeasuredPart[],
  { codeOf, events = [] }: { codeOf: CodeOf; events?: readonly SourceEvent[] },
): RawScan {
  return scanTables(parts.flatMap((part) => pieceTables(part, { codeOf, events, windowLots: WINDOW_LOTS })));
}
