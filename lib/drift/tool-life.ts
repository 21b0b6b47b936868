import { median } from "../summary/moments";
import { risingOrder } from "./order";
import { CHANGES_PER_EDGE, type PieceTable } from "./piece-table";

/**
 * Where each row of a table stands in the life of the tool that cut a feature.
 *
 * `life` numbers the edges of a position in time over all parts, −1 where no edge is known; `age` is the share
 * of the longest life seen that was used up, 0 to 1. `edgeOf` gives the edge number as written.
 */
export type ToolLife = {
  life: Int32Array;
  age: Float64Array;
  edgeOf: (life: number) => number;
  /** Measured pieces of the longest life seen, by position. */
  longest: ReadonlyMap<string, number>;
};

/** Pieces that a position cut, in time: table, row, and mark of the edge. */
type Uses = { table: Int32Array; row: Int32Array; mark: Int32Array };

/**
 * Ages of tools by the clock of measured pieces, over all parts that share a tool.
 *
 * The start of the first edge was not seen; it is dated back so that it has lived as long as the others usually
 * do (their median). The last edge still runs and says nothing about a usual life.
 *
 * @returns for each table, for each of its tool columns
 */
export function toolLives(tables: readonly PieceTable[]): ToolLife[][] {
  const lives = tables.map((table) =>
    table.tools.map(() => ({
      life: new Int32Array(table.pieces).fill(-1),
      age: new Float64Array(table.pieces),
      edges: new Map<number, number>(),
      longest: new Map<string, number>(),
    })),
  );
  for (const [code, uses] of usesOfTools(tables)) {
    const { life, age, labels, longest } = aged(uses.mark);
    const places = tables.map(({ pieces }) => new Int32Array(pieces));
    for (let i = 0; i < uses.row.length; i++) places[uses.table[i]!]![uses.row[i]!] = i;
    for (const [t, table] of tables.entries()) {
      for (const [c, column] of table.tools.entries()) {
        const isOwn = column.codes.map((one) => one === code);
        if (!isOwn.includes(true)) continue;
        const into = lives[t]![c]!;
        const isIn = new Uint8Array(labels.length);
        for (let row = 0; row < table.pieces; row++) {
          if (column.of[row]! < 0 || !isOwn[column.of[row]!] || column.mark[row]! < 0) continue;
          const place = places[t]![row]!;
          into.life[row] = life[place]!;
          into.age[row] = age[place]!;
          isIn[life[place]!] = 1;
        }
        if (isIn.includes(1)) into.longest.set(code, longest);
        for (const [number, label] of labels.entries()) if (isIn[number] === 1) into.edges.set(number, label);
      }
    }
  }
  return lives.map((columns) =>
    columns.map(({ edges, ...rest }) => ({ ...rest, edgeOf: (of) => edges.get(of) ?? of })),
  );
}

/** A piece whose features share the tool counts once. */
function usesOfTools(tables: readonly PieceTable[]): Map<string, Uses> {
  const byTool = new Map<string, { table: number; marks: Int32Array }[]>();
  for (const [table, one] of tables.entries()) {
    for (const [code, marks] of marksByTool(one)) {
      byTool.set(code, [...(byTool.get(code) ?? []), { table, marks }]);
    }
  }
  return new Map(Array.from(byTool, ([code, found]) => [code, inTime(tables, found)]));
}

function inTime(tables: readonly PieceTable[], found: readonly { table: number; marks: Int32Array }[]): Uses {
  if (found.length === 1) return inTimeOn(tables, found[0]!);
  const most = found.reduce((sum, { marks }) => sum + marks.length, 0);
  const at = new Float64Array(most);
  const [table, row, mark] = [new Int32Array(most), new Int32Array(most), new Int32Array(most)];
  let count = 0;
  for (const { table: t, marks } of found) {
    const { takenAt } = tables[t]!;
    for (let r = 0; r < marks.length; r++) {
      if (marks[r]! < 0) continue;
      at[count] = takenAt[r]!;
      table[count] = t;
      row[count] = r;
      mark[count++] = marks[r]!;
    }
  }
  const order = risingOrder(at.subarray(0, count));
  return {
    table: order.map((place) => table[place]!),
    row: order.map((place) => row[place]!),
    mark: order.map((place) => mark[place]!),
  };
}

/** On one table alone, whose rows in time are known. */
function inTimeOn(
  tables: readonly PieceTable[],
  { table, marks }: { table: number; marks: Int32Array },
): Uses {
  const row = tables[table]!.inTime.filter((place) => marks[place]! >= 0);
  return { table: new Int32Array(row.length).fill(table), row, mark: row.map((place) => marks[place]!) };
}

/** By position, the mark of the edge that cut each row, −1 where it cut none. */
function marksByTool({ tools, pieces }: PieceTable): Map<string, Int32Array> {
  const found = new Map<string, Int32Array>();
  for (const { codes, of, mark } of tools) {
    const byLevel = codes.map((code) => {
      const marks = found.get(code) ?? new Int32Array(pieces).fill(-1);
      found.set(code, marks);
      return marks;
    });
    for (let row = 0; row < pieces; row++) {
      if (of[row]! < 0 || mark[row]! < 0) continue;
      const marks = byLevel[of[row]!]!;
      if (marks[row]! < 0) marks[row] = mark[row]!;
    }
  }
  return found;
}

function aged(marks: Int32Array): {
  life: Int32Array;
  age: Float64Array;
  labels: number[];
  longest: number;
} {
  const life = new Int32Array(marks.length);
  const age = new Float64Array(marks.length);
  const labels: number[] = [];
  const lengths: number[] = [];
  for (let i = 0; i < marks.length; i++) {
    const mark = marks[i]!;
    if (i === 0 || mark !== marks[i - 1]) {
      labels.push(Math.floor(mark / CHANGES_PER_EDGE));
      lengths.push(0);
    }
    life[i] = labels.length - 1;
    age[i] = lengths[life[i]!]!++;
  }
  const full = lengths.slice(1, -1);
  const back = full.length === 0 ? 0 : Math.max(0, Math.floor(median(full)) - lengths[0]!);
  let longest = 1;
  for (let i = 0; i < age.length; i++) {
    if (life[i] === 0) age[i]! += back;
    longest = Math.max(longest, age[i]!);
  }
  for (let i = 0; i < age.length; i++) age[i]! /= longest;
  return { life, age, labels, longest };
}
