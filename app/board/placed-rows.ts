import type { BoardRow } from "../../db/queries/board";
import { BANDS, type Band, type BoardFacts, bandOf, type Placing, placeOnBoard } from "../../lib/board/bands";
import { indexAsked } from "../../lib/plan/index-asked";
import type { Words } from "../../lib/words/words";

export type PlacedRow = BoardRow & { placing: Placing };

/** The rows of each band in the order of the board and of the wall. */
export function placeRows(rows: readonly BoardRow[], now: number): Record<Band, BoardRow[]> {
  const bands: Record<Band, BoardRow[]> = { act: [], watch: [], quiet: [] };
  for (const row of rows) bands[bandOf(factsOf(row, now))].push(row);
  for (const band of BANDS) bands[band].sort(mostUrgentFirst);
  return bands;
}

/** Rows that are shown, with why they stand where they do. */
export function withReasons(rows: readonly BoardRow[], now: number, words: Words): PlacedRow[] {
  return rows.map((row) => ({ ...row, placing: placeOnBoard(factsOf(row, now), words) }));
}

function factsOf({ feature, standing, alarm }: BoardRow, now: number): BoardFacts {
  return { standing, alarm, tolerance: feature.plan.tolerance, asked: indexAsked(feature), now };
}

/** Those with an alarm, then key characteristics, then the lowest bound of Ppk, then the latest. */
function mostUrgentFirst(a: BoardRow, b: BoardRow): number {
  return (
    Number(a.alarm === null) - Number(b.alarm === null) ||
    Number(b.feature.keyCharacteristic) - Number(a.feature.keyCharacteristic) ||
    boundOf(a) - boundOf(b) ||
    (b.standing?.lastAt ?? 0) - (a.standing?.lastAt ?? 0)
  );
}

function boundOf({ standing }: BoardRow): number {
  return standing?.ppkAtLeast ?? Number.MAX_VALUE;
}

/** When the latest measurement was taken; 0 while there is none. */
export function latestOf(rows: readonly BoardRow[]): number {
  return rows.reduce((latest, { standing }) => Math.max(latest, standing?.lastAt ?? 0), 0);
}
