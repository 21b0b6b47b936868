import { typedNumber } from "../format/typed-number";
import { CsvReader, fieldText } from "../intake/csv";
import { decimalFault, isMeasurable, quoted } from "../intake/numbers";
import { detectSeparator } from "../intake/separator";
import { UnreadableFile } from "../intake/unreadable-file";
import { studyForm as english } from "../words/en/study-form";
import type { StudyData, StudyKind } from "./study-data";

/** One row of a table as it was pasted, typed or read from a file: its line, and each cell's text. */
export type TableRow = { line: number; cells: readonly string[] };

/** What is wrong, and where; `column` is null where it is the row as a whole. */
export type TableFault = { line: number; column: string | null; why: string };

export type ReadTable = { ok: true; data: StudyData } | { ok: false; faults: TableFault[] };

/** More rows than this no gauge study has. */
export const MOST_ROWS = 5_000;

/** Faults named at once: enough to see what they have in common. */
const MOST_FAULTS = 12;

type TableWords = typeof english.table;
type Meaning = "part" | "operator" | "trial" | "value" | "reference" | "setup";

/** Head words that are understood, in small letters. */
const WORDS: Record<Meaning, readonly string[]> = {
  part: ["part", "piece", "sample", "specimen"],
  operator: ["operator", "appraiser", "person"],
  trial: ["trial", "repeat", "repetition", "run"],
  value: ["value", "reading", "measurement", "measured", "result"],
  reference: ["reference", "known", "master", "true value"],
  setup: ["setup", "set-up", "alignment"],
};

const NEEDED: Record<StudyKind, readonly Meaning[]> = {
  crossed: ["part", "operator", "value"],
  "type-1": ["value"],
  "bias-linearity": ["reference", "value"],
  setup: ["setup", "value"],
};

/**
 * The rows of a text: fields parted by tabs, semicolons or commas, or, without any of them, by spaces. Empty lines are
 * left out.
 *
 * @throws UnreadableFile as `CsvReader`
 */
export function rowsOfText(text: string): TableRow[] {
  const first = text.split(/\r?\n|\r/).find((line) => line.trim() !== "") ?? "";
  const isSpaced = !/[,;\t]/.test(first) && /\S\s+\S/.test(first);
  const plain = isSpaced ? text.replace(/(\S)[ \t]+(?=\S)/g, "$1\t") : text;
  const rows: TableRow[] = [];
  const reader = new CsvReader(
    { separator: isSpaced ? "\t" : detectSeparator(plain), encoding: "utf-8" },
    (row) => {
      if (row.problem !== null) throw new UnreadableFile("unclosed-quote", row.line, row.problem);
      const cells = Array.from({ length: row.count }, (_, i) => fieldText(row, i).trim());
      if (cells.some((cell) => cell !== "")) rows.push({ line: row.line, cells });
    },
  );
  reader.push(new TextEncoder().encode(plain));
  reader.end();
  return rows;
}

/**
 * Reads a study from a table. The first row names the columns; a column of bare readings of a type-1 study needs no
 * head. A crossed study may also stand as on paper: a row for each operator and trial, a column for each part.
 *
 * Every fault names its line and column. Whether the readings make a study is another question: see `studyResult`.
 *
 * @param reference of a type-1 study, the size of its one piece
 */
export function readStudyTable(
  rows: readonly TableRow[],
  {
    kind,
    reference,
    words = english.table,
  }: { kind: StudyKind; reference: number | null; words?: TableWords },
): ReadTable {
  const head = rows[0];
  if (!head) return failed([{ line: 1, column: null, why: words.empty }]);
  if (rows.length > MOST_ROWS) {
    const why = words.long(rows.length, MOST_ROWS);
    return failed([{ line: head.line, column: null, why }]);
  }
  const isBare =
    kind === "type-1" && head.cells.length === 1 && typeof typedNumber(head.cells[0] ?? "") === "number";
  const places = isBare ? new Map<Meaning, number>([["value", 0]]) : placesIn(head.cells, words);
  if (!(places instanceof Map)) return failed([{ line: head.line, ...places }]);
  const body = new Body(isBare ? rows : rows.slice(1), isBare ? ["value"] : head.cells, words);
  if (kind === "crossed" && places.has("operator") && !places.has("value") && !places.has("part")) {
    return crossedOnPaper(body, head.cells, places);
  }
  const missing = NEEDED[kind].filter((meaning) => !places.has(meaning));
  if (missing.length > 0) {
    const has = head.cells.map((cell) => quoted(cell)).join(", ");
    const why = words.noColumn(missing, has);
    return failed([{ line: head.line, column: missing[0]!, why }]);
  }
  return longTable(body, { kind, places, reference });
}

function longTable(
  body: Body,
  {
    kind,
    places,
    reference,
  }: { kind: StudyKind; places: ReadonlyMap<Meaning, number>; reference: number | null },
): ReadTable {
  const name = (row: TableRow, meaning: Meaning) => body.name(row, places.get(meaning)!);
  const number = (row: TableRow, meaning: Meaning) => body.number(row, places.get(meaning)!);
  switch (kind) {
    case "crossed": {
      const trialAt = places.get("trial");
      const readings = body.rows.map((row) => ({
        part: name(row, "part"),
        operator: name(row, "operator"),
        trial: trialAt === undefined ? null : (row.cells[trialAt] ?? ""),
        value: number(row, "value"),
        line: row.line,
      }));
      const seen = new Map<string, number>();
      for (const { part, operator, trial, line } of readings) {
        if (trial === null || trial === "") continue;
        const key = JSON.stringify([part, operator, trial]);
        const before = seen.get(key);
        if (before === undefined) seen.set(key, line);
        else {
          const why = body.words.again(part, operator, trial, before);
          body.faults.push({ line, column: body.head[trialAt!] ?? "trial", why });
        }
      }
      return body.done({
        kind,
        readings: readings.map(({ part, operator, value }) => ({ part, operator, value })),
      });
    }
    case "type-1":
      if (reference === null) return failed([{ line: 1, column: null, why: body.words.reference }]);
      return body.done({ kind, reference, values: body.rows.map((row) => number(row, "value")) });
    case "bias-linearity":
      return body.done({
        kind,
        readings: body.rows.map((row) => ({
          reference: number(row, "reference"),
          value: number(row, "value"),
        })),
      });
    case "setup":
      return body.done({
        kind,
        readings: body.rows.map((row) => ({
          piece: places.has("part") ? name(row, "part") : "1",
          setup: name(row, "setup"),
          value: number(row, "value"),
        })),
      });
  }
}

/** A row for each operator and trial, a column for each part: the sheet on the clipboard. */
function crossedOnPaper(
  body: Body,
  head: readonly string[],
  places: ReadonlyMap<Meaning, number>,
): ReadTable {
  // Trials may be numbered; what else is named is a part.
  const known = new Set(places.values());
  const parts = head.flatMap((cell, at) => (known.has(at) || cell === "" ? [] : [{ part: cell, at }]));
  if (parts.length === 0) {
    return failed([{ line: 1, column: null, why: body.words.noParts }]);
  }
  const readings = body.rows.flatMap((row) => {
    const operator = body.name(row, places.get("operator")!);
    return parts.map(({ part, at }) => ({ part, operator, value: body.number(row, at) }));
  });
  return body.done({ kind: "crossed", readings });
}

/** Where each meaning stands; the fault when two columns have the same. */
function placesIn(
  head: readonly string[],
  words: TableWords,
): Map<Meaning, number> | { column: string; why: string } {
  const places = new Map<Meaning, number>();
  for (const [at, cell] of head.entries()) {
    const word = cell.toLowerCase();
    const meaning = (Object.keys(WORDS) as Meaning[]).find((one) => WORDS[one].includes(word));
    if (!meaning) continue;
    const before = places.get(meaning);
    if (before !== undefined) {
      return { column: cell, why: words.twice(head[before] ?? "", cell, meaning) };
    }
    places.set(meaning, at);
  }
  return places;
}

/** The rows below the head, and the faults found in them so far. */
class Body {
  readonly faults: TableFault[] = [];
  private mark: "." | "," | null = null;

  constructor(
    readonly rows: readonly TableRow[],
    readonly head: readonly string[],
    readonly words: TableWords,
  ) {}

  name(row: TableRow, at: number): string {
    const text = row.cells[at] ?? "";
    if (text === "") this.fault(row, at, this.words.emptyCell);
    return text;
  }

  number(row: TableRow, at: number): number {
    const text = row.cells[at] ?? "";
    const value = typedNumber(text);
    if (typeof value !== "number" || !isMeasurable(value)) {
      this.fault(
        row,
        at,
        text === "" ? this.words.emptyReading : this.words.notNumber(decimalFault(text, ".")),
      );
      return Number.NaN;
    }
    const mark = /[.,]/.exec(text)?.[0] as "." | "," | undefined;
    this.mark ??= mark ?? null;
    if (mark && mark !== this.mark) this.fault(row, at, this.words.mark(quoted(text)));
    return value;
  }

  done(data: StudyData): ReadTable {
    if (this.rows.length === 0) {
      return failed([{ line: 1, column: null, why: this.words.noReadings }]);
    }
    return this.faults.length > 0 ? failed(this.faults) : { ok: true, data };
  }

  private fault({ line }: TableRow, at: number, why: string): void {
    this.faults.push({ line, column: this.head[at] ?? `${at + 1}`, why });
  }
}

function failed(faults: readonly TableFault[]): ReadTable {
  return { ok: false, faults: faults.slice(0, MOST_FAULTS) };
}
