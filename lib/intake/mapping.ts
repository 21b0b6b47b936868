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
  valueColumns: ValueColumn[];
  /** Where the file states no time: the first data row's time, and the seconds between one row and the next. */
  time: { start: string; stepSeconds: number } | null;
};
