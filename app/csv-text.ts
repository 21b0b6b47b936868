/**
 * Rows as a CSV file for a spreadsheet.
 *
 * A text that somebody else wrote may hold anything, and a spreadsheet runs cells that look like formulas. Texts that
 * begin with = + - @ or a control character get an apostrophe in front (OWASP, "CSV Injection", from memory); numbers
 * are numbers.
 */
export function csvText(rows: readonly (readonly (string | number)[])[]): string {
  // The mark at the start tells a spreadsheet that the file is UTF-8.
  return `\ufeff${rows.map(csvLine).join("\r\n")}\r\n`;
}

function csvLine(cells: readonly (string | number)[]): string {
  return cells
    .map((cell) => (typeof cell === "number" ? String(cell) : `"${harmless(cell).replaceAll('"', '""')}"`))
    .join(",");
}

function harmless(cell: string): string {
  return /^[=+\-@\t\r\n]/.test(cell) ? `'${cell}` : cell;
}
