import type { Refusal } from "../../lib/intake/batch";

/**
 * Refused rows as a CSV file for a spreadsheet.
 *
 * A row that was refused may hold anything, and a spreadsheet runs cells that look like formulas. Cells that
 * begin with = + - @ or a control character get an apostrophe in front (OWASP, "CSV Injection", from memory);
 * the page says so beside the download.
 */
export function refusalsCsv(refusals: readonly Refusal[]): string {
  const rows = refusals.map(({ line, field, reason, raw }) => [String(line), field, reason, raw]);
  // The mark at the start tells a spreadsheet that the file is UTF-8.
  return `\ufeff${[["line", "field", "reason", "row as it stood"], ...rows].map(csvLine).join("\r\n")}\r\n`;
}

function csvLine(cells: readonly string[]): string {
  return cells.map((cell) => `"${harmless(cell).replaceAll('"', '""')}"`).join(",");
}

function harmless(cell: string): string {
  return /^[=+\-@\t\r\n]/.test(cell) ? `'${cell}` : cell;
}
