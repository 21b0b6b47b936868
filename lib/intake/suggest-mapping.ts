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

/** Header words of shops for the columns of the tidy file, letters and digits only; earlier ones win. */
const SYNONYMS: Readonly<Record<MappedColumn | "piece", readonly string[]>> = {
  piece: [
    "piece",
    "pieceid",
    "serial",
    "serialnumber",
    "serialno",
    "sn",
    "partserial",
    "pieceno",
    "piecenumber",
    "seriennummer",
    "workpiece",
  ],
  taken_at: [
    "takenat",
    "measuredat",
    "timestamp",
    "datetime",
    "dateandtime",
    "measurementtime",
    "time",
    "date",
    "measurementdate",
    "datum",
    "zeit",
    "datumzeit",
  ],
  part: [
    "part",
    "partnumber",
    "partno",
    "partname",
    "pn",
    "item",
    "itemnumber",
    "article",
    "drawing",
    "drawingnumber",
    "teil",
    "teilenummer",
  ],
  feature: [
    "feature",
    "featurename",
    "characteristic",
    "characteristicname",
    "char",
    "dimension",
    "dimensionname",
    "measurand",
    "merkmal",
  ],
  nominal: ["nominal", "nominalvalue", "nom", "target", "basic", "sollwert", "soll", "nennmass", "nennwert"],
  lower_tolerance: [
    "lowertolerance",
    "lowertolerancelimit",
    "lowerspecificationlimit",
    "lowerspeclimit",
    "lowerlimit",
    "lsl",
    "ltl",
    "minimum",
    "min",
    "untergrenze",
  ],
  upper_tolerance: [
    "uppertolerance",
    "uppertolerancelimit",
    "upperspecificationlimit",
    "upperspeclimit",
    "upperlimit",
    "usl",
    "utl",
    "maximum",
    "max",
    "obergrenze",
  ],
  unit: ["unit", "units", "uom", "unitofmeasure", "einheit"],
  value: [
    "value",
    "measuredvalue",
    "measurement",
    "measured",
    "actual",
    "actualvalue",
    "reading",
    "result",
    "istwert",
    "messwert",
    "ist",
  ],
  lot: ["lot", "lotnumber", "lotno", "lotid", "batch", "batchnumber", "batchno", "charge", "heat", "los"],
  fixture: ["fixture", "fixtureid", "fixtureno", "fixturenumber", "pallet", "nest", "vorrichtung"],
  tool: ["tool", "toolid", "toolno", "toolnumber", "cutter", "werkzeug"],
  machine: ["machine", "machineid", "machineno", "machinenumber", "machinename", "spindle", "maschine"],
  gauge: [
    "gauge",
    "gage",
    "gaugeid",
    "gageid",
    "gaugenumber",
    "gagenumber",
    "instrument",
    "cmm",
    "equipment",
    "messmittel",
  ],
  operator: [
    "operator",
    "operatorid",
    "operatorname",
    "inspector",
    "measuredby",
    "appraiser",
    "prufer",
    "bediener",
  ],
  setup: ["setup", "setupid", "setupnumber", "aufspannung"],
  part_temp_c: [
    "parttempc",
    "parttemp",
    "parttemperature",
    "parttemperaturec",
    "temperature",
    "temperaturec",
    "tempc",
    "temp",
    "temperatur",
  ],
  subgroup: [
    "subgroup",
    "subgroupid",
    "subgroupno",
    "subgroupnumber",
    "sample",
    "sampleno",
    "samplenumber",
    "stichprobe",
  ],
  length: ["length", "lengthmm", "expansionlength", "measuredlength"],
  expansion: ["expansion", "expansioncoefficient", "cte", "thermalexpansion", "alpha"],
};

const NUMBER_COLUMNS: readonly MappedColumn[] = [
  "nominal",
  "lower_tolerance",
  "upper_tolerance",
  "value",
  "part_temp_c",
];

export type Suggestion = {
  mapping: Mapping;
  /** Header texts that nothing is made of. */
  unmatched: string[];
  /** What the person should look at before agreeing, as sentences. */
  notes: string[];
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
  const free = new Set(header.keys());
  const columnOf = (wanted: MappedColumn | "piece"): number => {
    for (const synonym of SYNONYMS[wanted]) {
      for (const index of free) if (lettersOf(header[index] ?? "") === synonym) return index;
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
    mapping.columns[column] = { column: header[index] ?? "" };
    found.set(column, index);
    free.delete(index);
  }

  const texts = (index: number) =>
    sampleRows.map((row) => (row[index] ?? "").trim()).filter((text) => text !== "");
  const lacksLongColumns = !found.has("value") || !found.has("feature");
  const numberIndexes = NUMBER_COLUMNS.flatMap((column) => found.get(column) ?? []);
  mapping.decimal = decimalMark([...numberIndexes, ...(lacksLongColumns ? free : [])].flatMap(texts));
  const numeric = lacksLongColumns
    ? [...free].filter((index) => mostlyNumbers(texts(index), mapping.decimal))
    : [];
  if (numeric.length > 0) toWide(mapping, header, numeric, free);
  else if (!found.has("feature"))
    notes.push("No column names the feature: choose one, or write the name of the only feature.");
  else if (!found.has("value")) notes.push("No column of values was recognised: choose it.");

  const time = found.get("taken_at");
  if (time === undefined)
    notes.push("No column of times was recognised: the rows are taken in the order of the file.");
  else {
    const { format, note } = dateFormat(texts(time));
    mapping.dateFormat = format;
    if (note) notes.push(note);
    const other = [...free].find((index) =>
      ["time", "date", "zeit"].includes(lettersOf(header[index] ?? "")),
    );
    if (other !== undefined) {
      notes.push(
        `Date and time stand in two columns, and only ${quoted(header[time] ?? "")} is read. Put both into one column to keep the order within a day.`,
      );
    }
  }
  if (mapping.layout === "long" && looksLikeDeviations(sampleRows, found, mapping.decimal)) {
    mapping.columns.lower_tolerance = null;
    mapping.columns.upper_tolerance = null;
    notes.push(
      "The tolerance columns seem to hold deviations from nominal. Tolerance limits are absolute here, so the columns are left out: write absolute limits into the file, or set them in the plan.",
    );
  }
  const unmatched = [...free].map((index) => header[index] ?? "").filter((text) => text !== "");
  return { mapping, unmatched, notes };
}

function lettersOf(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .toLowerCase()
    .replace(/[[(](mm|in|inch|deg|µm|um)[\])]/g, "")
    .replace(/[^a-z0-9]/g, "");
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
  const commas = texts.filter((text) => /^[+-]?\d*,\d+([eE][+-]?\d+)?$/.test(text)).length;
  const points = texts.filter((text) => /^[+-]?\d*\.\d+([eE][+-]?\d+)?$/.test(text)).length;
  return commas > points ? "," : ".";
}

function isNumber(text: string, decimal: DecimalMark): boolean {
  return !Number.isNaN(numberOf(text, decimal));
}

function numberOf(text: string, decimal: DecimalMark): number {
  const bytes = new TextEncoder().encode(text);
  return readDecimal(bytes, 0, bytes.length, decimal);
}

function mostlyNumbers(texts: readonly string[], decimal: DecimalMark): boolean {
  return texts.length > 0 && texts.filter((text) => isNumber(text, decimal)).length >= 0.8 * texts.length;
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
