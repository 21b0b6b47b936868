/**
 * A CSV file for a spreadsheet, with the mark that tells it to read UTF-8. Numbers stand bare, with a point.
 *
 * Texts may hold anything, and a spreadsheet runs cells that look like formulas: texts that begin with = + - @ or a
 * control character get an apostrophe in front (OWASP, "CSV Injection", from memory).
 */
export function csvText(rows: readonly (readonly (string | number | null)[])[]): string {
  return `\ufeff${rows.map((cells) => cells.map(csvCell).join(",")).join("\r\n")}\r\n`;
}

function csvCell(cell: string | number | null): string {
  if (cell === null) return "";
  if (typeof cell === "number") return String(cell);
  return `"${harmless(cell).replaceAll('"', '""')}"`;
}

/** A text that no spreadsheet takes for a formula. */
export function harmless(text: string): string {
  return /^[=+\-@\t\r\n]/.test(text) ? `'${text}` : text;
}
