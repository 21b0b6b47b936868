import { createReadStream } from "node:fs";
import { open } from "node:fs/promises";
import { CsvReader, type FieldRow, fieldText } from "../../lib/intake/csv";
import { likelyEncoding } from "../../lib/intake/encoding";
import { detectSeparator } from "../../lib/intake/separator";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { readableFile } from "./given-file";
import { Refused } from "./refusal";

/** One row of the wanted columns: its line in the file, and each cell's text without spaces around it. */
export type Cells = { line: number; cells: readonly string[] };

/** Enough to tell the separator and the encoding by. */
const FIRST_BYTES = 65_536;

/**
 * Reads some columns of a CSV file with a header, in the order of the file.
 *
 * In a file of one column an empty line is an empty cell, except after the last row, since nothing else can
 * stand for one there; in a wider file empty lines are left out.
 *
 * @param file as it was named on the command line
 * @param columns names in the header; an optional one that is missing gives empty cells
 * @throws Refused that names the file, the line and the column
 */
export async function readCsvColumns(
  file: string,
  columns: readonly { name: string; optional?: boolean }[],
): Promise<Cells[]> {
  try {
    return await read(file, columns);
  } catch (error) {
    if (error instanceof UnreadableFile) throw new Refused({ file, reason: error.message });
    throw error;
  }
}

async function read(file: string, columns: readonly { name: string; optional?: boolean }[]) {
  const path = await readableFile(file);
  const first = await firstBytes(path);
  const encoding = likelyEncoding(first);
  const separator = detectSeparator(
    new TextDecoder(encoding === "utf-16" ? "utf-16le" : encoding).decode(first),
  );

  const rows: Cells[] = [];
  let places: number[] | undefined;
  let width = 0;
  let expectedLine = 0;
  const reader = new CsvReader({ separator, encoding }, (row) => {
    if (row.problem !== null) throw new Refused({ file, line: row.line, reason: row.problem });
    if (places === undefined) {
      width = row.count;
      places = placesOf(file, row, columns);
    } else {
      for (let line = expectedLine; width === 1 && line < row.line; line++) {
        rows.push({ line, cells: columns.map(() => "") });
      }
      rows.push({ line: row.line, cells: cellsOf(file, row, places, columns) });
    }
    expectedLine = row.line + 1;
  });
  for await (const chunk of createReadStream(path)) reader.push(chunk as Uint8Array);
  reader.end();
  if (places === undefined) throw new Refused({ file, reason: "the file is empty; a header was expected." });
  return rows;
}

function placesOf(
  file: string,
  header: FieldRow,
  columns: readonly { name: string; optional?: boolean }[],
): number[] {
  const names = Array.from({ length: header.count }, (_, i) => fieldText(header, i).trim());
  return columns.map(({ name, optional }) => {
    const place = names.indexOf(name);
    if (place !== names.lastIndexOf(name)) {
      throw new Refused({ file, line: header.line, field: name, reason: "two columns have this name." });
    }
    if (place === -1 && !optional) {
      const reason = `there is no such column. The header has: ${names.join(", ")}.`;
      throw new Refused({ file, line: header.line, field: name, reason });
    }
    return place;
  });
}

function cellsOf(
  file: string,
  row: FieldRow,
  places: readonly number[],
  columns: readonly { name: string }[],
): string[] {
  return places.map((place, i) => {
    if (place === -1) return "";
    if (place < row.count) return fieldText(row, place).trim();
    const reason = `the row ends after ${row.count} of at least ${place + 1} columns.`;
    throw new Refused({ file, line: row.line, field: columns[i]?.name, reason });
  });
}

async function firstBytes(path: string): Promise<Uint8Array> {
  const handle = await open(path);
  try {
    const { buffer, bytesRead } = await handle.read({ buffer: new Uint8Array(FIRST_BYTES) });
    return buffer.subarray(0, bytesRead);
  } finally {
    await handle.close();
  }
}
