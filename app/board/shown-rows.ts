import type { FlagRow } from "../../db/queries/drift";
import { shownState } from "../../lib/alarms/alarm-state";
import { nameOf } from "../../lib/drift/sentence";
import { partName } from "../../lib/format/names";
import { fixedAtLeast } from "../../lib/format/numbers";
import { agoWords, exactMomentIn, momentIn } from "../../lib/format/times";
import type { Words } from "../../lib/words/words";
import { drawStrip } from "../fittings/strip-drawing";
import { sourcesOf } from "./board-filter";
import type { ShownRow, Suspect } from "./board-rows";
import type { PlacedFlags } from "./placed-flags";
import type { PlacedRow } from "./placed-rows";

/** Rows of the board as a browser shows them: in words, figures and drawings, in the language of the page. */
export function shownRows(
  rows: readonly PlacedRow[],
  { flags, now, zone, words }: { flags: PlacedFlags; now: number; zone: string; words: Words },
): ShownRow[] {
  const { board, drift, times, trade } = words;
  const suspectOf = (flag: FlagRow, since: string): Suspect => ({
    id: flag.id,
    name: nameOf(flag.source, drift),
    since,
  });
  return rows.map((row) => {
    const { feature, standing, alarm, placing } = row;
    const at = placing.since ?? standing?.lastAt ?? null;
    const origins = sourcesOf(row).map(({ kind, code }) => ({ kind: trade.sources[kind], code }));
    if (row.latestLot !== null) origins.push({ kind: trade.sources.lot, code: row.latestLot });
    return {
      id: feature.id,
      name: feature.name,
      part: partName(feature.part),
      isKey: feature.keyCharacteristic,
      alarm: alarm && alarm.withdrawnAt === null ? { id: alarm.id, state: shownState(alarm) } : null,
      strip: drawStrip({ feature, standing }, words),
      reasons: [placing.reason, ...placing.also],
      suspects: flags.of(feature).map((flag) => suspectOf(flag, board.sinceLot(flag.latest.onset.lot))),
      answered: flags.answeredFor(row).map((flag) => {
        const { latest, answer, endedAt } = flag;
        const moment = momentIn(endedAt, zone, times);
        return suspectOf(flag, board.answered(latest.onset.lot, trade.events[answer.event], moment));
      }),
      origins,
      ppkAtLeast: standing?.ppkAtLeast == null ? null : fixedAtLeast(standing.ppkAtLeast, 2),
      isSince: placing.since !== null,
      at:
        at === null ? null : { ms: at, exact: exactMomentIn(at, zone, times), ago: agoWords(at, now, times) },
    };
  });
}
