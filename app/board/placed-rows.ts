import type { BoardRow } from "../../db/queries/board";
import { BANDS, type Band, type Placing, placeOnBoard } from "../../lib/board/bands";
import type { Words } from "../../lib/words/words";

export type PlacedRow = BoardRow & { placing: Placing };

/** Every row in its band and in its place there, for the board and for the wall. */
export function placeRows(
  rows: readonly BoardRow[],
  now: number,
  words: Words,
): { placed: PlacedRow[]; bands: Map<Band, PlacedRow[]> } {
  const placed = rows.map((row) => ({ ...row, placing: placingOf(row, now, words) }));
  return { placed, bands: new Map(BANDS.map((band) => [band, rowsOf(placed, band)])) };
}

function placingOf({ feature, standing, alarm }: BoardRow, now: number, words: Words): Placing {
  const { plan, keyCharacteristic } = feature;
  return placeOnBoard({ standing, alarm, tolerance: plan.tolerance, keyCharacteristic, now }, words);
}

/** Key characteristics first, then the lowest bound of Ppk, then the latest. */
function rowsOf(placed: readonly PlacedRow[], band: Band): PlacedRow[] {
  return placed
    .filter(({ placing }) => placing.band === band)
    .sort(
      (a, b) =>
        Number(a.alarm === null) - Number(b.alarm === null) ||
        Number(b.feature.keyCharacteristic) - Number(a.feature.keyCharacteristic) ||
        boundOf(a) - boundOf(b) ||
        (b.standing?.lastAt ?? 0) - (a.standing?.lastAt ?? 0),
    );
}

function boundOf({ standing }: PlacedRow): number {
  return standing?.ppkAtLeast ?? Number.MAX_VALUE;
}
