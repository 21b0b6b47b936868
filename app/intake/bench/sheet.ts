import {
  type BenchCell,
  type BenchCellWords,
  type BenchFeature,
  mayStateInspected,
  readBenchCell,
  readInspectedCell,
} from "../../../lib/intake/bench-cell";

/** Sources a sheet states once for all of its pieces. */
export const SHEET_SOURCES = ["lot", "fixture", "tool", "machine", "gauge", "operator"] as const;
export type SheetSource = (typeof SHEET_SOURCES)[number];

/** `number` counts from 1 and tells rows apart that nothing is typed in yet. */
export type SheetRow = { number: number; piece: string; inspected: string; values: string[] };

/** What a person has typed so far; kept in the browser until it is stored. */
export type Sheet = {
  /** Made with the sheet, so that the same sheet sent twice is stored once. */
  draft: string;
  sources: Record<SheetSource, string>;
  /** A wall time of the plant; empty for the moment of storing. */
  at: string;
  rows: SheetRow[];
};

const FIRST_ROWS = 5;

export function emptySheet(features: number, draft: string): Sheet {
  const sources = Object.fromEntries(SHEET_SOURCES.map((source) => [source, ""])) as Sheet["sources"];
  return {
    draft,
    sources,
    at: "",
    rows: Array.from({ length: FIRST_ROWS }, (_, i) => emptyRow(features, i + 1)),
  };
}

export function emptyRow(features: number, number: number): SheetRow {
  return { number, piece: "", inspected: "", values: Array<string>(features).fill("") };
}

/** A sheet as it was kept, fitted to the features the part has today; null when it is none. */
export function keptSheet(text: string | null, features: number): Sheet | null {
  if (text === null) return null;
  try {
    const kept = JSON.parse(text) as Sheet;
    const rows = kept.rows.map(({ piece, inspected, values }, row) => ({
      number: row + 1,
      piece: String(piece),
      // Sheets kept by an older version have none.
      inspected: String(inspected ?? ""),
      values: Array.from({ length: features }, (_, i) => String(values[i] ?? "")),
    }));
    if (rows.length === 0 || typeof kept.draft !== "string") return null;
    return { ...emptySheet(features, kept.draft), sources: kept.sources, at: String(kept.at ?? ""), rows };
  } catch {
    return null;
  }
}

export function isBlank({ rows }: Sheet): boolean {
  return rows.every(({ piece, inspected, values }) =>
    [piece, inspected, ...values].every((text) => text.trim() === ""),
  );
}

export type Place = { row: number; column: number };
export type Remark = Place & { piece: string; feature: string; cell: BenchCell & { words: string } };

/** A column of the grid: the piece, a feature, or on how many pieces the counts of a row were found. */
export type GridColumn =
  | { kind: "piece" }
  | { kind: "inspected" }
  | { kind: "value"; at: number; feature: BenchFeature };

/** The columns in their order. What was inspected stands before the first count that may say it, out of the way of others. */
export function gridColumns(features: readonly BenchFeature[]): GridColumn[] {
  const columns = features.map((feature, at): GridColumn => ({ kind: "value", at, feature }));
  const first = features.findIndex(mayStateInspected);
  if (first !== -1) columns.splice(first, 0, { kind: "inspected" });
  return [{ kind: "piece" }, ...columns];
}

/** What there is to say about the sheet's cells, row by row. Columns are those of the grid. */
export function remarksOn(
  { rows }: Sheet,
  features: readonly BenchFeature[],
  words: BenchCellWords & { inspected: string },
): Remark[] {
  const columns = gridColumns(features);
  return rows.flatMap(({ piece, inspected, values }, row) =>
    columns.flatMap((of, column) => {
      if (of.kind === "piece") return [];
      const cell =
        of.kind === "value"
          ? readBenchCell(values[of.at] ?? "", of.feature, words, inspected)
          : readInspectedCell(inspected, words);
      if (!("words" in cell)) return [];
      return [{ row, column, piece, feature: of.kind === "value" ? of.feature.name : words.inspected, cell }];
    }),
  );
}

/** Where a key leads from a cell; null when it stays. Column 0 is the piece, features follow. */
export function placeAfter(
  key: string,
  { row, column }: Place,
  { rows, columns, goesDown }: { rows: number; columns: number; goesDown: boolean },
): Place | null {
  switch (key) {
    case "ArrowUp":
      return row > 0 ? { row: row - 1, column } : null;
    case "ArrowDown":
      return row < rows ? { row: row + 1, column } : null;
    case "Enter":
      if (goesDown) return { row: row + 1, column };
      return column + 1 < columns ? { row, column: column + 1 } : { row: row + 1, column: 0 };
    default:
      return null;
  }
}
