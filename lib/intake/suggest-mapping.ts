import { areClocks, areDates } from "./date-and-clock";
import { CLOCK_WORDS, COUNTER_WORDS, HEADER_WORDS, headerWord } from "./header-words";
import type {
  ColumnRef,
  DateFormat,
  DecimalMark,
  FileEncoding,
  MappedColumn,
  Mapping,
  Separator,
} from "./mapping";
import { emptyMapping, MAPPED_COLUMNS } from "./mapping";
import { quoted, readDecimal } from "./numbers";
import { readUnit } from "./units";

const NUMBER_COLUMNS: readonly MappedColumn[] = [
  "nominal",
  "lower_tolerance",
  "upper_tolerance",
  "value",
  "inspected",
  "part_temp_c",
];

export type Suggestion = {
  mapping: Mapping;
  /** Header texts that nothing is made of. */
  unmatched: string[];
  /** What the person should look at before agreeing, as sentences. */
  notes: string[];
  /** No text of the header is a known word and some are numbers: it is a row of data, and the header is missing. */
  isHeaderMissing: boolean;
};

/**
 * A mapping for a file never seen before, from its header and some rows of data as texts.
 *
 * Header texts are compared by their letters and digits alone ("Upper Tolerance [mm]", "USL"). Where no column
 * holds the value or names the feature, columns of numbers that match nothing become the value columns of the
 * wide layout. Decimal mark and date format are read off the data; what they leave open stands in the notes.
 */
export function suggestMapping(
  header: readonly string[],
  sampleRows: readonly (readonly string[])[],
  file: { separator: Separator; encoding: FileEncoding } = { separator: ",", encoding: "utf-8" },
): Suggestion {
  const notes: string[] = [];
  const mapping = { ...emptyMapping("suggested"), ...file };
  const words = header.map(headerWord);
  const free = new Set(header.keys());
  const texts = (index: number) =>
    sampleRows.map((row) => (row[index] ?? "").trim()).filter((text) => text !== "");
  const columnOf = (wanted: MappedColumn | "piece"): number => {
    for (const word of HEADER_WORDS[wanted]) {
      for (const index of free) if (words[index] === word) return index;
    }
    return -1;
  };

  const found = new Map<MappedColumn, number>();
  const piece = columnOf("piece");
  if (piece !== -1) {
    mapping.piece = [header[piece] ?? ""];
    free.delete(piece);
  }
  for (const column of MAPPED_COLUMNS) {
    const index = columnOf(column);
    if (index === -1) continue;
    // "Length" beside no expansion coefficient is a measured feature; "Result" may hold words, "Value" may not.
    if (column === "length" && !words.some((word) => HEADER_WORDS.expansion.includes(word))) continue;
    const mayBeOther = column === "inspected" && UNSURE_OF_INSPECTED.includes(words[index] ?? "");
    if (mayBeOther && !areSizes(texts(index), found.get("value"), texts)) continue;
    const mayHoldWords = column === "value" && words[index] !== "value";
    if (mayHoldWords && texts(index).length > 0 && !texts(index).some(isNumber)) continue;
    mapping.columns[column] = { column: header[index] ?? "" };
    found.set(column, index);
    free.delete(index);
  }

  const clockNote = takeClock(mapping, { found, free, words, header, texts });
  if (clockNote) notes.push(clockNote);

  const numberIndexes = NUMBER_COLUMNS.flatMap((column) => found.get(column) ?? []);
  // Beside the number inspected, a count is no number of the row.
  const isCounter = (word: string) =>
    COUNTER_WORDS.includes(word) && !(word === "count" && found.has("inspected"));
  const numeric = [...free].filter((index) => mostlyNumbers(texts(index)) && !isCounter(words[index] ?? ""));
  mapping.decimal = decimalMark([...numberIndexes, ...numeric].flatMap(texts));
  const [only] = numeric;
  if (!found.has("feature") && only !== undefined) {
    toWide(mapping, header, [...(found.has("value") ? [found.get("value") ?? 0] : []), ...numeric], free);
    const count = mapping.valueColumns.length;
    notes.push(
      `Each row seems to hold one piece with ${count} measured ${count === 1 ? "feature" : "features"}: check which columns are features, and state their tolerance limits.`,
    );
  } else if (!found.has("feature")) {
    notes.push("No column names the feature: choose one, or write the name of the only feature.");
  } else if (!found.has("value") && only !== undefined && numeric.length === 1) {
    mapping.columns.value = { column: header[only] ?? "" };
    free.delete(only);
  } else if (!found.has("value")) {
    notes.push("No column of values was recognised: choose it.");
  }

  const time = found.get("taken_at");
  if (time === undefined) {
    notes.push("No column of times was recognised: the rows are taken in the order of the file.");
  } else if (sampleRows.length > 0 && texts(time).every((text) => text.trim() === "")) {
    mapping.columns.taken_at = null;
    notes.push(
      `The column ${quoted(header[time] ?? "")} states no time: the rows are taken in the order of the file.`,
    );
  } else {
    const { format, note } = dateFormat(texts(time));
    mapping.dateFormat = format;
    if (note) notes.push(note);
  }
  if (mapping.layout === "long" && looksLikeDeviations(sampleRows, found, mapping.decimal)) {
    mapping.columns.lower_tolerance = null;
    mapping.columns.upper_tolerance = null;
    notes.push(
      "The tolerance columns seem to hold deviations from nominal. Tolerance limits are absolute here, so the columns are left out: write absolute limits into the file, or set them in the plan.",
    );
  }
  const unmatched = [...free].map((index) => header[index] ?? "").filter((text) => text !== "");
  const isHeaderMissing = piece === -1 && found.size === 0 && header.some(isNumber);
  return { mapping, unmatched, notes, isHeaderMissing };
}

/**
 * Where the column found for the moment holds the date alone, or the time of day alone, the other half of it: by its
 * header, else the only column that holds times of day. What was taken by its contents is said.
 */
function takeClock(
  mapping: Mapping,
  {
    found,
    free,
    words,
    header,
    texts,
  }: {
    found: Map<MappedColumn, number>;
    free: Set<number>;
    words: readonly string[];
    header: readonly string[];
    texts: (index: number) => string[];
  },
): string | null {
  const first = found.get("taken_at");
  if (first === undefined) return null;
  const isNamed = (index: number) => CLOCK_WORDS.includes(words[index] ?? "");
  const others = [...free];
  const date = [first, ...others.filter((index) => HEADER_WORDS.taken_at.includes(words[index] ?? ""))].find(
    (index) => areDates(texts(index)),
  );
  if (date === undefined) return null;
  const besideSerial = dateFormat(texts(date)).format === "serial";
  // A part of a day is a bare number, and could be anything under another name.
  const clocks = [first, ...others].filter(
    (index) => index !== date && areClocks(texts(index), { besideSerial: besideSerial && isNamed(index) }),
  );
  const clock = clocks.find(isNamed) ?? (clocks.length === 1 ? clocks[0] : undefined);
  if (clock === undefined) return null;

  mapping.columns.taken_at = { column: header[date] ?? "" };
  mapping.timeOfDay = header[clock] ?? "";
  found.set("taken_at", date);
  free.delete(date);
  free.delete(clock);
  return isNamed(clock)
    ? null
    : `The column ${quoted(mapping.timeOfDay)} holds times of day and is read together with the date in ${quoted(header[date] ?? "")}: check it.`;
}

/** They may as well number rows, or say by whom or whether something was checked. */
const UNSURE_OF_INSPECTED: readonly string[] = ["n", "checked", "sampled", "gepruft"];

/**
 * Whether a column can say on how many pieces or units counts were found: numbers above 0 that do not merely number the
 * rows, beside values that are whole where their column is known.
 */
function areSizes(
  sizes: readonly string[],
  value: number | undefined,
  texts: (index: number) => string[],
): boolean {
  const numbers = sizes.map((text) => Number(text.replace(",", ".")));
  if (numbers.length === 0 || !numbers.every((size) => size > 0)) return false;
  const numbersRows =
    numbers.length > 1 && numbers.every((size, i) => i === 0 || size === numbers[i - 1]! + 1);
  return !numbersRows && (value === undefined || texts(value).every((text) => /^\d+$/.test(text)));
}

function toWide(
  mapping: Mapping,
  header: readonly string[],
  numeric: readonly number[],
  free: Set<number>,
): void {
  mapping.layout = "wide";
  const none: ColumnRef = null;
  for (const column of ["feature", "nominal", "lower_tolerance", "upper_tolerance", "value"] as const)
    mapping.columns[column] = none;
  for (const index of numeric) {
    const column = header[index] ?? "";
    free.delete(index);
    // "Bore A [mm]" and "Bore A (mm)" name their unit.
    const parts = /^(.*\S)\s*[[(]([^\])]+)[\])]$/.exec(column);
    const unit = parts && readUnit(parts[2] ?? "") !== null ? (parts[2] ?? null) : null;
    const feature = unit !== null && parts ? (parts[1] ?? column) : column;
    mapping.valueColumns.push({ column, feature, nominal: null, lower: null, upper: null, unit });
  }
}

function decimalMark(texts: readonly string[]): DecimalMark {
  // "1.234,56" tells as much as "34,56", although it is refused for its separator between thousands.
  const commas = texts.filter((text) => /^[+-]?[\d.]*,\d+([eE][+-]?\d+)?$/.test(text)).length;
  const points = texts.filter((text) => /^[+-]?[\d,]*\.\d+([eE][+-]?\d+)?$/.test(text)).length;
  return commas > points ? "," : ".";
}

function numberOf(text: string, decimal: DecimalMark): number {
  const bytes = new TextEncoder().encode(text);
  return readDecimal(bytes, 0, bytes.length, decimal);
}

function isNumber(text: string): boolean {
  return !Number.isNaN(numberOf(text, ".")) || !Number.isNaN(numberOf(text, ","));
}

/** Whether at least four of five texts are numbers, with either decimal mark. */
function mostlyNumbers(texts: readonly string[]): boolean {
  return texts.length > 0 && texts.filter(isNumber).length >= 0.8 * texts.length;
}

function dateFormat(texts: readonly string[]): { format: DateFormat; note: string | null } {
  const dates = texts.flatMap((text) => {
    const parts = /^(\d{1,2})([./-])(\d{1,2})\2\d{2,4}/.exec(text);
    return parts ? [{ first: Number(parts[1]), mark: parts[2], second: Number(parts[3]) }] : [];
  });
  if (dates.length === 0) {
    const serial = texts.length > 0 && texts.every((text) => /^\d{5}([.,]\d+)?$/.test(text));
    return { format: serial ? "serial" : "iso", note: null };
  }
  if (dates.some(({ first }) => first > 12)) return { format: "day-first", note: null };
  if (dates.some(({ second }) => second > 12)) return { format: "month-first", note: null };
  if (dates.every(({ mark }) => mark === ".")) return { format: "day-first", note: null };
  return {
    format: "day-first",
    note: `Dates like ${quoted(texts[0] ?? "")} may be day first or month first, and no row tells. Day first is suggested: check it.`,
  };
}

/** Whether the tolerance columns enclose zero while the nominal lies far outside them, in every row that states all three. */
function looksLikeDeviations(
  rows: readonly (readonly string[])[],
  found: ReadonlyMap<MappedColumn, number>,
  decimal: DecimalMark,
): boolean {
  const columns = (["nominal", "lower_tolerance", "upper_tolerance"] as const).map((column) =>
    found.get(column),
  );
  let stated = 0;
  for (const row of rows) {
    const [nominal, lower, upper] = columns.map((index) =>
      index === undefined ? Number.NaN : numberOf((row[index] ?? "").trim(), decimal),
    ) as [number, number, number];
    if (Number.isNaN(nominal + lower + upper)) continue;
    stated++;
    if (!(lower <= 0 && upper >= 0 && (nominal < lower || nominal > upper))) return false;
  }
  return stated > 0;
}
