/** A row of a tidy measurement file; what is null or left out is an empty cell. */
export type TidyRow = {
  piece?: string;
  taken_at?: string | null;
  part?: string;
  feature: string;
  nominal?: number | null;
  lower_tolerance?: number | null;
  upper_tolerance?: number | null;
  unit?: string;
  value: number;
  lot?: string | number;
  subgroup?: string | number;
};

/** Rows as the text of a tidy CSV file, with the columns that any of them uses. */
export function tidyFile(
  rows: readonly TidyRow[],
  { separator = ",", decimal = "." }: { separator?: string; decimal?: string } = {},
): string {
  const columns = columnsOf(rows);
  const lines = tableOf(rows).map((cells) =>
    cells.map((cell) => (typeof cell === "number" ? String(cell).replace(".", decimal) : (cell ?? ""))),
  );
  return [columns, ...lines].map((cells) => `${cells.join(separator)}\n`).join("");
}

export function columnsOf(rows: readonly TidyRow[]): (keyof TidyRow)[] {
  return [...new Set(rows.flatMap((row) => Object.keys(row)))] as (keyof TidyRow)[];
}

/** The cells of each row in the order of `columnsOf`. */
export function tableOf(rows: readonly TidyRow[]): (string | number | null)[][] {
  const columns = columnsOf(rows);
  return rows.map((row) => columns.map((column) => row[column] ?? null));
}

/** A minute after the other from a Monday morning on. */
export function minute(count: number): string {
  return new Date(Date.UTC(2026, 0, 5, 6, count)).toISOString();
}
