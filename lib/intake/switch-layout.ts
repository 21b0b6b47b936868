import { COUNTER_WORDS, HEADER_WORDS, headerWord } from "./header-words";
import { headerKey, MAPPED_COLUMNS, type Mapping, type ValueColumn } from "./mapping";
import { readDecimal } from "./numbers";

type FileStart = {
  header: readonly string[];
  /** The first rows of data as texts. */
  rows: readonly (readonly string[])[];
};

/**
 * The mapping with one measurement a row: no value columns, and where they were, the columns that most likely
 * hold the value and name the feature. A guess for a person to look at; it may leave either open.
 */
export function toLongLayout(mapping: Mapping, file: FileStart): Mapping {
  if (mapping.layout === "long") return mapping;
  const long: Mapping = { ...mapping, layout: "long", valueColumns: [] };
  const free = freeColumns(long, file.header);
  const wasValue = new Set(mapping.valueColumns.map(({ column }) => headerKey(column)));

  const candidates = free.filter((column) => wasValue.has(headerKey(column)));
  const value =
    candidates.find((column) => HEADER_WORDS.value.includes(headerWord(column))) ??
    most(candidates, (column) => distinct(file, column));
  // Names of features are words, longer than codes, and come back from row to row or piece to piece.
  const feature = most(
    free.filter((column) => column !== value && isWords(file, column)),
    (column) => averageLength(file, column),
  );
  return {
    ...long,
    columns: {
      ...long.columns,
      value: value === undefined ? null : { column: value },
      feature: feature === undefined ? null : { column: feature },
    },
  };
}

/** The mapping with one piece a row: every column of numbers that nothing else uses becomes a feature. */
export function toWideLayout(mapping: Mapping, file: FileStart): Mapping {
  if (mapping.layout === "wide") return mapping;
  const none = { feature: null, nominal: null, lower_tolerance: null, upper_tolerance: null, value: null };
  const wide: Mapping = { ...mapping, layout: "wide", columns: { ...mapping.columns, ...none } };
  const valueColumns = freeColumns(wide, file.header)
    .filter((column) => !COUNTER_WORDS.includes(headerWord(column)) && isNumbers(file, column))
    .map(newValueColumn);
  return { ...wide, valueColumns };
}

/** A value column named like its feature, about which nothing else is known. */
export function newValueColumn(column: string): ValueColumn {
  return { column, feature: column, nominal: null, lower: null, upper: null, unit: null };
}

/** Columns of the file that the mapping makes nothing of, value columns not counted. */
export function freeColumns(mapping: Mapping, header: readonly string[]): string[] {
  const used = new Set(mapping.piece.map(headerKey));
  for (const field of MAPPED_COLUMNS) {
    const ref = mapping.columns[field];
    if (ref !== null && "column" in ref) used.add(headerKey(ref.column));
  }
  if (mapping.timeOfDay !== null) used.add(headerKey(mapping.timeOfDay));
  return header.filter((column) => column !== "" && !used.has(headerKey(column)));
}

function textsOf({ header, rows }: FileStart, column: string): string[] {
  const index = header.indexOf(column);
  return rows.map((row) => (row[index] ?? "").trim()).filter((text) => text !== "");
}

function isNumbers(file: FileStart, column: string): boolean {
  const texts = textsOf(file, column);
  return texts.length > 0 && texts.filter(isNumber).length >= 0.8 * texts.length;
}

function isWords(file: FileStart, column: string): boolean {
  const texts = textsOf(file, column);
  return texts.length > 0 && texts.every((text) => /\p{L}{2}/u.test(text));
}

function isNumber(text: string): boolean {
  const bytes = new TextEncoder().encode(text);
  return ([".", ","] as const).some((decimal) => !Number.isNaN(readDecimal(bytes, 0, bytes.length, decimal)));
}

function distinct(file: FileStart, column: string): number {
  return new Set(textsOf(file, column)).size;
}

function averageLength(file: FileStart, column: string): number {
  const texts = textsOf(file, column);
  return texts.reduce((sum, text) => sum + text.length, 0) / texts.length;
}

/** The first of those with the greatest measure; undefined of none. */
function most(columns: readonly string[], measure: (column: string) => number): string | undefined {
  let best: string | undefined;
  for (const column of columns) if (best === undefined || measure(column) > measure(best)) best = column;
  return best;
}
