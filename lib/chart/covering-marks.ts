import { requireCount } from "../checks";
import { linearScale, type Span } from "./scale";

/**
 * Cells of a strip, columns by rows, from fine to coarse. A strip is some 1,150 by 64 pixels and a mark 8 by 8, so that a
 * mark is as wide as its cell in all of them: when something happened is seen whatever the history, how far off only
 * where there is room.
 */
const GRIDS = [
  { columns: 400, rows: 16 },
  { columns: 200, rows: 16 },
  { columns: 200, rows: 8 },
  { columns: 200, rows: 4 },
  { columns: 200, rows: 2 },
  { columns: 200, rows: 1 },
] as const;

/** The coarsest grid has so many cells, and no history needs more marks than that. */
export const LEAST_MARKS = 200;

/**
 * Which of many marked points of a strip to draw, so that each is drawn or lies in one cell with one that is: the
 * first of each cell, in the finest grid that takes at most `most` marks. All of them where they are that few.
 *
 * @returns positions, ascending
 * @throws InvalidInput when `most` is below 200, which the coarsest grid may take
 */
export function coveringMarks(
  marked: readonly number[],
  { values, span, most }: { values: ArrayLike<number>; span: Span; most: number },
): number[] {
  requireCount("coveringMarks", "most", most, LEAST_MARKS);
  if (marked.length <= most) return [...marked];
  const share = linearScale(span, { start: 0, end: 1 });
  let found: number[] = [];
  for (const { columns, rows } of GRIDS) {
    const taken = new Uint8Array(columns * rows);
    found = marked.filter((position) => {
      const column = Math.floor((position * columns) / values.length);
      const row = Math.min(rows - 1, Math.max(0, Math.floor(share(values[position]!) * rows)));
      const cell = column * rows + row;
      const isFirst = taken[cell] === 0;
      taken[cell] = 1;
      return isFirst;
    });
    if (found.length <= most) break;
  }
  return found;
}
