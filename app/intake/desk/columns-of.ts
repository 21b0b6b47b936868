import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";

/** The start of a file as a mapping's choices need it. */
export type FileStart = { header: readonly string[]; rows: readonly (readonly string[])[] };

/** The columns to choose from; one that was chosen stays among them when the file has it no longer. */
export function columnChoices({ header }: FileStart, chosen: string | null): string[] {
  const columns = [...new Set(header.filter((column) => column !== ""))];
  return chosen === null || columns.includes(chosen) ? columns : [...columns, chosen];
}

/** "such as 62.008": what stands in a column, for the person who chooses it. */
export function sampleOf({ header, rows }: FileStart, column: string, said: Words["desk"]["editor"]): string {
  const index = header.indexOf(column);
  if (index === -1) return said.notHere;
  const text = rows.map((row) => (row[index] ?? "").trim()).find((found) => found !== "");
  return text === undefined ? said.empty : fill(said.suchAs, { text });
}
