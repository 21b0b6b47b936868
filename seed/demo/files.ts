import { calendarUntil, DEFAULT_ENDS_AT } from "./calendar";
import { type DemoOptions, demoRows, isWeekend, type TidyRow } from "./measure";

export type DemoFile = { name: string; text: string };

const TIDY_HEADER = [
  "piece",
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
  "part_temp_c",
  "subgroup",
  "setup",
  "length",
  "expansion",
];

/** Rows as a tidy measurement file: commas, decimal points, lines that end in a line feed. */
export function demoCsv(rows: Iterable<TidyRow>): string {
  const lines = [TIDY_HEADER.join(",")];
  for (const row of rows) lines.push(tidyLine(row));
  return `${lines.join("\n")}\n`;
}

function tidyLine(row: TidyRow): string {
  const cells = [
    row.piece,
    new Date(row.takenAt).toISOString().replace(".000Z", "Z"),
    row.part,
    row.feature,
    row.nominal,
    row.lower,
    row.upper,
    row.unit,
    shownValue(row),
    row.lot,
    row.fixture,
    row.tool,
    row.machine,
    row.gauge,
    row.operator,
    row.partTemp.toFixed(1),
    row.subgroup,
    row.setup,
    row.length,
    row.expansion,
  ];
  return cells.map(cell).join(",");
}

/** A cell of a comma-separated file, quoted where its text needs it (RFC 4180). */
export function cell(content: string | number | null): string {
  if (content === null) return "";
  const text = String(content);
  return /[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** The value with the decimals of its resolution, trailing zeros kept as a display shows them. */
export function shownValue({ value, resolution }: TidyRow): string {
  return value.toFixed((String(resolution).split(".")[1] ?? "").length);
}

/**
 * The files of the first load in the order in which they arrived: one for each line and week, 26 in all.
 * They end with Thursday's night shift of the last week.
 */
export function demoFiles(options: DemoOptions = {}): DemoFile[] {
  const calendar = calendarUntil(options.endsAt ?? DEFAULT_ENDS_AT);
  const files = new Map<string, TidyRow[]>();
  for (const row of demoRows(options)) {
    if (isWeekend(row)) continue;
    const { year, week } = calendar.isoWeek(row.week);
    const name = `line-${row.line.toLowerCase()}-${year}-w${String(week).padStart(2, "0")}.csv`;
    const rows = files.get(name);
    if (rows) rows.push(row);
    else files.set(name, [row]);
  }
  return [...files].map(([name, rows]) => ({ name, text: demoCsv(rows) }));
}
