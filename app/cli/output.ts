/** Prints one JSON document. Numbers keep full double precision; one that is not finite becomes null. */
export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value)}\n`);
}

/**
 * Prints a table for reading: a heading, then one line a row, columns aligned on the right.
 *
 * @param rows cells as they are to be shown; rounding is the caller's
 */
export function printTable(heading: readonly string[], rows: readonly (readonly string[])[]): void {
  const lines = [heading, ...rows];
  const widths = heading.map((_, column) => Math.max(...lines.map((line) => line[column]?.length ?? 0)));
  for (const line of lines) {
    const cells = line.map((cell, column) => cell.padStart(widths[column] ?? 0));
    process.stdout.write(`${cells.join("  ").trimEnd()}\n`);
  }
}
