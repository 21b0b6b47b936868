import { readFile } from "node:fs/promises";
import { cellText } from "../../lib/intake/cells";
import { likelyEncoding } from "../../lib/intake/encoding";
import { sniffFile } from "../../lib/intake/sniff-file";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { rowsOfText, type TableRow } from "../../lib/measurement-systems/study-table";

/**
 * The rows of a small file, CSV or XLSX (its first sheet that holds anything), as text. For tables that a person made
 * by hand; measurement files come in through Intake.
 *
 * @throws UnreadableFile for a file of another kind or one that is damaged
 */
export async function readTable(file: { path: string; name: string }): Promise<TableRow[]> {
  const bytes = await readFile(file.path);
  const kind = sniffFile(bytes.subarray(0, 4096), file.name);
  if (kind.kind === "unsupported") throw new UnreadableFile("unsupported", null, kind.reason);
  if (kind.kind === "csv") {
    const encoding = likelyEncoding(bytes);
    return rowsOfText(new TextDecoder(encoding === "utf-16" ? "utf-16le" : encoding).decode(bytes));
  }
  const { readXlsx, XLSX_LIMITS } = await import("./xlsx");
  const rows: TableRow[] = [];
  await readXlsx(file.path, { limits: XLSX_LIMITS, sheet: null }, (line, cells) => {
    const texts = cells.map((cell) => cellText(cell, ".").trim());
    if (texts.some((text) => text !== "")) rows.push({ line, cells: texts });
  });
  return rows;
}
