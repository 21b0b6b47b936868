import { plantTime } from "./calendar";
import { cell, type DemoFile, demoCsv, shownValue } from "./files";
import { type DemoOptions, demoRows, isWeekend, type TidyRow } from "./measure";

const SATURDAY_EARLY = 15;

/** Rows that Intake must refuse in the second file, and why: the walk-through counts on exactly these. */
export const SPOILED_ROWS = [
  { field: "value", reason: "a letter O instead of a zero" },
  { field: "taken_at", reason: "31 November" },
  { field: "unit", reason: "cm is not a unit of this plant" },
] as const;

/**
 * Friday's and Saturday's files, which the first load leaves out so that a newcomer can take them in:
 *
 * 1. line B on Friday, in the tidy layout that Intake knows;
 * 2. line A on Friday, one measurement a row under headers not seen before, with three bad rows;
 * 3. line A on Saturday, one piece a row, semicolons and decimal commas, features as columns.
 *
 * The clocks of 2 and 3 print the plant's time without a zone. None of the three lost a reading.
 */
export function weekendFiles(options: DemoOptions = {}): DemoFile[] {
  const rows = [...demoRows(options)].filter(isWeekend);
  const friday = rows.filter((row) => row.shift < SATURDAY_EARLY);
  const saturday = rows.filter((row) => row.shift >= SATURDAY_EARLY);

  return [
    { name: "line-b-friday.csv", text: demoCsv(friday.filter((row) => row.line === "B")) },
    { name: "cell-a-friday.csv", text: longLayout(friday.filter((row) => row.line === "A")) },
    { name: "cell-a-saturday.csv", text: wideLayout(saturday) },
  ];
}

const LONG_HEADER = [
  "Item",
  "Serial no",
  "What was measured",
  "Reading",
  "Read in",
  "Cast lot",
  "Clamped in",
  "Cutter",
  "Station",
  "Read with",
  "Read by",
  "Warmth C",
  "Clock",
  "Group",
  "Arm setup",
];

function longLayout(rows: TidyRow[]): string {
  const lines = rows.map((row) => [
    row.part,
    row.piece,
    row.feature,
    shownValue(row),
    row.unit,
    row.lot,
    row.fixture,
    row.tool,
    row.machine,
    row.gauge,
    row.operator,
    row.partTemp.toFixed(1),
    plantTime(row.takenAt),
    row.subgroup,
    row.setup,
  ]);
  return `${[LONG_HEADER, ...lines, ...spoiled(lines)].map((line) => line.map(cell).join(",")).join("\n")}\n`;
}

/**
 * Three copies of rows that each went wrong in one cell; the right ones stand above, so a newcomer loses nothing
 * when they are refused.
 */
function spoiled(lines: (string | null)[][]): (string | null)[][] {
  const [value, clock, unit] = ["Reading", "Clock", "Read in"].map((name) => LONG_HEADER.indexOf(name));
  const wrong: [number | undefined, (content: string) => string][] = [
    [value, (content) => content.replace("0", "O")],
    [clock, (content) => content.replace(/^(\d+)-\d+-\d+/, "$1-11-31")],
    [unit, () => "cm"],
  ];
  return wrong.map(([column, spoil], i) => {
    const source = lines.slice(-40 * (i + 1)).find((line) => String(line[value ?? 0]).includes("0")) ?? [];
    return source.map((content, at) => (at === column ? spoil(content ?? "") : content));
  });
}

const WIDE_PLACE = [
  "Item",
  "Serial no",
  "Clock",
  "Cast lot",
  "Clamped in",
  "Station",
  "Read with",
  "Read by",
  "Warmth C",
];

/** Only the coordinate measuring machine writes this layout, so readings of other gauges are not in it. */
function wideLayout(rows: TidyRow[]): string {
  const read = rows.filter((row) => row.gauge === "GA-1");
  const features = [...new Set(read.map((row) => row.feature))];
  const pieces = new Map<string, TidyRow[]>();
  for (const row of read) pieces.set(row.piece, [...(pieces.get(row.piece) ?? []), row]);

  const lines = [...pieces.values()].map((ofPiece) => {
    const first = ofPiece[0]!;
    const place = [
      first.part,
      first.piece,
      plantTime(first.takenAt),
      first.lot,
      first.fixture,
      first.machine,
      first.gauge,
      first.operator,
      decimalComma(first.partTemp.toFixed(1)),
    ];
    const values = features.map((feature) => {
      const row = ofPiece.find((candidate) => candidate.feature === feature);
      return row ? decimalComma(shownValue(row)) : "";
    });
    return [...place, ...values];
  });
  return `${[[...WIDE_PLACE, ...features], ...lines].map((line) => line.join(";")).join("\n")}\n`;
}

function decimalComma(shown: string): string {
  return shown.replace(".", ",");
}
