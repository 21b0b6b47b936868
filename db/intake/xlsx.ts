import type { Readable } from "node:stream";
import ExcelJS from "exceljs";
import type { Cell } from "../../lib/intake/cells";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { ZIP_LIMITS, type ZipLimits } from "../../lib/intake/zip-directory";
import { workbookParts } from "./workbook-parts";

export type XlsxLimits = ZipLimits & { rows: number };
export const XLSX_LIMITS: XlsxLimits = { ...ZIP_LIMITS, rows: 1_048_576 };

/** The usual limits, with another size of all parts unpacked where one is given. */
export function xlsxLimits(mostUnpackedBytes: number | undefined): XlsxLimits {
  return mostUnpackedBytes === undefined ? XLSX_LIMITS : { ...XLSX_LIMITS, totalSize: mostUnpackedBytes };
}

export type XlsxOptions = {
  limits: XlsxLimits;
  /** The sheet to read; null takes the first visible one that holds anything. */
  sheet: string | null;
};

export type SheetRead = { sheet: string; rows: number };

/** Rows in file order with the sheet's own numbers; empty ones are left out. Awaited, so it may store them. */
export type OnSheetRow = (line: number, cells: Cell[]) => void | Promise<void>;

/** What the library knows about a sheet beyond its declared types. */
type NamedSheet = { name?: string; state?: string };

/**
 * Reads one sheet of a workbook row by row, in memory that does not grow with the number of rows.
 *
 * The only place that knows the spreadsheet library. Shared texts are held in memory, which the limits bound.
 *
 * @throws UnreadableFile for an archive beyond the limits, a damaged or protected workbook, too many rows, or when
 *   there is no such sheet or nothing in any; whatever `onRow` throws passes through
 */
export async function readXlsx(path: string, options: XlsxOptions, onRow: OnSheetRow): Promise<SheetRead> {
  const parts = await workbookParts(path, options.limits);
  // The library does not hear of a fault in the stream it reads from, and would wait for ever.
  const fault = new Promise<never>((_, reject) => parts.once("error", reject));
  try {
    return await Promise.race([readSheet(parts, options, onRow), fault]);
  } finally {
    parts.destroy();
  }
}

async function readSheet(
  parts: Readable,
  { limits, sheet: wanted }: XlsxOptions,
  onRow: OnSheetRow,
): Promise<SheetRead> {
  const workbook = new ExcelJS.stream.xlsx.WorkbookReader(parts, {
    worksheets: "emit",
    sharedStrings: "cache",
    styles: "cache",
    hyperlinks: "ignore",
    entries: "ignore",
  });
  const seen: string[] = [];
  let receiving = false;
  try {
    for await (const sheet of workbook) {
      const { name = `Sheet${seen.length + 1}`, state } = sheet as NamedSheet;
      seen.push(name);
      if (wanted === null ? state === "hidden" || state === "veryHidden" : name !== wanted) continue;
      let rows = 0;
      let line = 0;
      for await (const row of sheet) {
        if (parts.destroyed) break;
        line = Number.isNaN(row.number) ? line + 1 : row.number;
        const cells = cellsOf(row);
        if (cells.length === 0) continue;
        if (++rows > limits.rows) throw tooManyRows(line, limits.rows);
        receiving = true;
        await onRow(line, cells);
        receiving = false;
      }
      if (rows > 0 || wanted !== null) return { sheet: name, rows };
    }
  } catch (problem) {
    if (receiving || problem instanceof UnreadableFile) throw problem;
    const what = problem instanceof Error ? problem.message : String(problem);
    throw new UnreadableFile(
      "archive",
      null,
      `The workbook cannot be read (${what}). Save it again, or export CSV.`,
    );
  }
  const sheets = seen.map((name) => `“${name}”`).join(", ");
  const message =
    wanted === null
      ? "No sheet of the workbook holds anything."
      : `The workbook has no sheet “${wanted}”; it has ${sheets}.`;
  throw new UnreadableFile("empty", null, message);
}

/** The cells up to the last one that holds anything. */
function cellsOf(row: ExcelJS.Row): Cell[] {
  const values = row.values as ExcelJS.CellValue[];
  const cells: Cell[] = [];
  for (let column = 1; column < values.length; column++) cells.push(cellOf(values[column]));
  while (cells.length > 0 && (cells.at(-1) === null || cells.at(-1) === "")) cells.pop();
  return cells;
}

function cellOf(value: ExcelJS.CellValue | undefined): Cell {
  if (value === null || value === undefined) return null;
  if (typeof value === "number") return Number.isNaN(value) ? { error: "#VALUE!" } : value;
  if (typeof value !== "object" || value instanceof Date) return value;
  if ("richText" in value) return value.richText.map(({ text }) => text).join("");
  if ("error" in value) return { error: String(value.error) };
  if ("formula" in value || "sharedFormula" in value) {
    const formula = "formula" in value ? value.formula : value.sharedFormula;
    const { result } = value;
    // The library turns a stored error into NaN.
    const usable =
      result === undefined || (typeof result === "number" && Number.isNaN(result)) ? null : result;
    return { formula, result: usable };
  }
  if ("text" in value) return String(value.text);
  return null;
}

function tooManyRows(line: number, most: number): UnreadableFile {
  return new UnreadableFile(
    "too-many-rows",
    line,
    `the sheet has more than ${most.toLocaleString("en-US")} rows. Export the measurements as CSV.`,
  );
}
