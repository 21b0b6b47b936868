/** A column of the file by its header text, a constant for every row, or nothing. */
export type ColumnRef = { column: string } | { constant: string } | null;

/** Columns of the tidy measurement file that a mapping fills one to one. */
export const MAPPED_COLUMNS = [
  "taken_at",
  "part",
  "feature",
  "nominal",
  "lower_tolerance",
  "upper_tolerance",
  "unit",
  "value",
  "inspected",
  "lot",
  "fixture",
  "tool",
  "machine",
  "gauge",
  "operator",
  "setup",
  "part_temp_c",
  "subgroup",
  "length",
  "expansion",
] as const;
export type MappedColumn = (typeof MAPPED_COLUMNS)[number];

export type Separator = "," | ";" | "\t";
export type DecimalMark = "." | ",";
export type FileEncoding = "utf-8" | "windows-1252" | "utf-16";

/** ISO 8601 is always read; the others say how 03/04/2024 or 45385.25 is meant. */
export const DATE_FORMATS = ["iso", "day-first", "month-first", "serial"] as const;
export type DateFormat = (typeof DATE_FORMATS)[number];

/** In the wide layout: one column of values and the feature it belongs to. Tolerances are absolute limits. */
export type ValueColumn = {
  column: string;
  feature: string;
  nominal: number | null;
  lower: number | null;
  upper: number | null;
  unit: string | null;
};

/**
 * How one layout of file is read. Plain data, so that it can be stored and found again by `headerFingerprint`.
 *
 * Long layout: one measurement a row. Wide layout: one piece a row, its values in `valueColumns`, and the
 * columns feature, nominal, tolerances, value are not used.
 */
export type Mapping = {
  name: string;
  layout: "long" | "wide";
  separator: Separator;
  decimal: DecimalMark;
  encoding: FileEncoding;
  dateFormat: DateFormat;
  /** Header texts of the columns that, joined with "-", make the serial of the piece. May be empty. */
  piece: string[];
  columns: Record<MappedColumn, ColumnRef>;
  /** Header text of the column with the time of day, where `taken_at` holds the date alone; null otherwise. */
  timeOfDay: string | null;
  valueColumns: ValueColumn[];
  /** Where the file states no time: the first data row's time, and the seconds between one row and the next. */
  time: { start: string; stepSeconds: number } | null;
  /** Name of the zone of times that state none ("UTC", "Europe/Berlin"); null for the plant's. */
  zone: string | null;
};

/** A mapping with nothing mapped: long layout, comma, decimal point, UTF-8, ISO dates. */
export function emptyMapping(name: string): Mapping {
  const columns = Object.fromEntries(MAPPED_COLUMNS.map((column) => [column, null])) as Mapping["columns"];
  return {
    name,
    layout: "long",
    separator: ",",
    decimal: ".",
    encoding: "utf-8",
    dateFormat: "iso",
    piece: [],
    columns,
    timeOfDay: null,
    valueColumns: [],
    time: null,
    zone: null,
  };
}

/** Header texts are the same when they differ only in case and blanks. */
export function headerKey(text: string): string {
  return text.trim().replace(/\s+/g, " ").toLowerCase();
}

/** Equal for two files with the same header texts in any order, so that a saved mapping is found again. */
export function headerFingerprint(header: readonly string[]): string {
  return JSON.stringify(header.map(headerKey).sort());
}

/** Index of each column by its `headerKey`; of equal ones, the first. */
export function columnIndexes(header: readonly string[]): Map<string, number> {
  const indexes = new Map<string, number>();
  header.forEach((text, index) => {
    if (!indexes.has(headerKey(text))) indexes.set(headerKey(text), index);
  });
  return indexes;
}

/** `field` is a column of the tidy file, "piece", "time", "time_of_day" or "mapping"; the message says what to do. */
export type MappingProblem = { field: string; message: string };

/** Columns that belong to a single value and so have no place beside the value columns of a wide layout. */
const LONG_ONLY: readonly MappedColumn[] = [
  "feature",
  "nominal",
  "lower_tolerance",
  "upper_tolerance",
  "value",
];

/** What keeps a mapping from reading a file with this header; empty when nothing does. */
export function validateMapping(mapping: Mapping, header: readonly string[]): MappingProblem[] {
  const problems: MappingProblem[] = [];
  const wide = mapping.layout === "wide";
  const used = usedColumns(mapping);

  const counts = new Map<string, number>();
  for (const text of header) counts.set(headerKey(text), (counts.get(headerKey(text)) ?? 0) + 1);
  for (const { field, column } of used) {
    const count = counts.get(headerKey(column)) ?? 0;
    if (count === 0) {
      problems.push({
        field,
        message: `The file has no column “${column}”. Choose another column for ${field}.`,
      });
    } else if (count > 1) {
      const message = `The header names “${column}” ${count} times, so ${field} is ambiguous. Give the columns different names in the file.`;
      problems.push({ field, message });
    }
  }
  problems.push(...(wide ? wideProblems(mapping) : longProblems(mapping)));
  if (mapping.decimal === mapping.separator) {
    problems.push({
      field: "mapping",
      message: "The decimal mark and the separator are both a comma. Change one.",
    });
  }
  const clockFault = timeOfDayFault(mapping);
  if (clockFault !== null) problems.push({ field: "time_of_day", message: clockFault });
  if (mapping.time !== null) {
    if (mapping.columns.taken_at !== null) {
      problems.push({
        field: "time",
        message: "A time column is mapped, so no first time may be given. Take one away.",
      });
    }
    if (!(Number.isFinite(mapping.time.stepSeconds) && mapping.time.stepSeconds >= 0)) {
      problems.push({
        field: "time",
        message: "The seconds between two rows must be a number of at least 0.",
      });
    }
  }
  return problems;
}

function timeOfDayFault({ timeOfDay, columns: { taken_at: date } }: Mapping): string | null {
  if (timeOfDay === null) return null;
  if (date === null || "constant" in date) {
    return "A column is mapped for the time of day, and none for the date. Choose the column of dates.";
  }
  return headerKey(date.column) === headerKey(timeOfDay)
    ? `Date and time of day are mapped to the same column, “${timeOfDay}”. Choose another one, or none, for the time of day.`
    : null;
}

function longProblems({ columns }: Mapping): MappingProblem[] {
  const problems: MappingProblem[] = [];
  if (columns.value === null || "constant" in columns.value) {
    problems.push({
      field: "value",
      message: "No column holds the value. Choose the column with the measured values.",
    });
  }
  if (columns.feature === null || ("constant" in columns.feature && columns.feature.constant.trim() === "")) {
    const message =
      "Nothing names the feature. Choose its column, or write its name if the file holds only one.";
    problems.push({ field: "feature", message });
  }
  return problems;
}

function wideProblems({ columns, valueColumns }: Mapping): MappingProblem[] {
  const problems: MappingProblem[] = [];
  if (valueColumns.length === 0) {
    problems.push({
      field: "value",
      message: "No column holds values. Choose the columns with measured values.",
    });
  }
  for (const field of LONG_ONLY) {
    if (columns[field] !== null) {
      problems.push({
        field,
        message: `The wide layout has one ${field} for each value column, so no column of its own.`,
      });
    }
  }
  const names = new Set<string>();
  for (const { column, feature } of valueColumns) {
    if (feature.trim() === "")
      problems.push({ field: "feature", message: `Column “${column}” has no feature name. Write one.` });
    else if (names.has(feature)) {
      problems.push({
        field: "feature",
        message: `Two columns are mapped to the feature “${feature}”. Give them different names.`,
      });
    }
    names.add(feature);
  }
  return problems;
}

/** Every column of the file that the mapping reads, and what for. */
function usedColumns(mapping: Mapping): { field: string; column: string }[] {
  const used = mapping.piece.map((column) => ({ field: "piece", column }));
  for (const field of MAPPED_COLUMNS) {
    const ref = mapping.columns[field];
    if (ref !== null && "column" in ref) used.push({ field, column: ref.column });
  }
  if (mapping.timeOfDay !== null) used.push({ field: "time_of_day", column: mapping.timeOfDay });
  if (mapping.layout === "wide")
    for (const { column } of mapping.valueColumns) used.push({ field: "value", column });
  return used;
}
