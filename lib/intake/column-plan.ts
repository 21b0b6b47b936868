import { DICTIONARY_COLUMNS, type DictionaryColumn } from "./batch";
import type { Source } from "./field";
import { columnIndexes, headerKey, type MappedColumn, type Mapping } from "./mapping";
import { STATED_COLUMNS, type Stated } from "./statements";

/** A value of the row: in the long layout the only one, in the wide layout one of many. */
export type ValueSource = {
  /** What a refusal names: the tidy column, or the column's own header text in the wide layout. */
  field: string;
  source: Source;
  /** What the mapping itself states about the feature; it wins over the row. */
  stated: Partial<Stated>;
};

/** Where everything that a mapping wants stands in the rows under one header. */
export type ColumnPlan = {
  values: ValueSource[];
  stated: { column: keyof Stated; source: Source }[];
  /** First and last column of what is stated, when it stands side by side in the file; null otherwise. */
  statedSpan: { first: number; last: number } | null;
  names: { column: DictionaryColumn; source: Source }[];
  piece: Source[];
  takenAt: Source | null;
  /** The time of day, where `takenAt` is the date alone. */
  timeOfDay: Source | null;
  temperature: Source | null;
  /** On how many pieces or units a count was found. */
  inspected: Source | null;
};

/** The plan for a mapping in which `validateMapping` finds no problem with this header. */
export function planColumns(mapping: Mapping, header: readonly string[]): ColumnPlan {
  const indexes = columnIndexes(header);
  const encoder = new TextEncoder();
  const inFile = (column: string): Source => ({ index: indexes.get(headerKey(column)) ?? 0, constant: null });
  const sourceOf = (column: MappedColumn): Source | null => {
    const ref = mapping.columns[column];
    if (ref === null) return null;
    return "column" in ref ? inFile(ref.column) : { index: 0, constant: encoder.encode(ref.constant.trim()) };
  };
  const mapped = <C extends MappedColumn>(columns: readonly C[]) =>
    columns.flatMap((column) => {
      const source = sourceOf(column);
      return source === null ? [] : [{ column, source }];
    });

  const value = sourceOf("value");
  const long: ValueSource[] = value === null ? [] : [{ field: "value", source: value, stated: {} }];
  const stated = mapped(STATED_COLUMNS);
  return {
    values: mapping.layout === "wide" ? wideValues(mapping, inFile) : long,
    stated,
    statedSpan: spanOf(stated.map(({ source }) => source)),
    names: mapped(DICTIONARY_COLUMNS),
    piece: mapping.piece.map(inFile),
    takenAt: sourceOf("taken_at"),
    timeOfDay: mapping.timeOfDay === null ? null : inFile(mapping.timeOfDay),
    temperature: sourceOf("part_temp_c"),
    inspected: sourceOf("inspected"),
  };
}

function spanOf(sources: readonly Source[]): { first: number; last: number } | null {
  const indexes = new Set(sources.flatMap(({ index, constant }) => (constant === null ? [index] : [])));
  const first = Math.min(...indexes);
  const last = Math.max(...indexes);
  return indexes.size > 0 && last - first + 1 === indexes.size ? { first, last } : null;
}

function wideValues(mapping: Mapping, inFile: (column: string) => Source): ValueSource[] {
  const written = (number: number | null) =>
    number === null ? "" : String(number).replace(".", mapping.decimal);
  return mapping.valueColumns.map(({ column, feature, nominal, lower, upper, unit }) => ({
    field: column,
    source: inFile(column),
    stated: {
      feature: feature.trim(),
      nominal: written(nominal),
      lower_tolerance: written(lower),
      upper_tolerance: written(upper),
      ...(unit === null ? {} : { unit: unit.trim() }),
    },
  }));
}
