import type { PieceTable } from "./piece-table";

/** Lots of all parts in time. `indexOf[table][lot]` is where a table's lot stands. */
export type LotAxis = { codes: string[]; at: number[]; indexOf: number[][] };

export function lotAxis(tables: readonly PieceTable[]): LotAxis {
  const firstAt = new Map<string, number>();
  for (const { lotCodes, lotAt } of tables) {
    for (const [lot, code] of lotCodes.entries()) {
      firstAt.set(code, Math.min(lotAt[lot]!, firstAt.get(code) ?? Number.POSITIVE_INFINITY));
    }
  }
  const inTime = [...firstAt].sort(([a, at], [b, bt]) => at - bt || (a < b ? -1 : 1));
  const index = new Map(inTime.map(([code], place) => [code, place]));
  return {
    codes: inTime.map(([code]) => code),
    at: inTime.map(([, at]) => at),
    indexOf: tables.map(({ lotCodes }) => lotCodes.map((code) => index.get(code)!)),
  };
}
