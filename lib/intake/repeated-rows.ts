import { DICTIONARY_COLUMNS, type DictionaryColumn, type FileNames, type TidyBatch } from "./batch";
import type { Cell } from "./cells";
import { isPartTemperature } from "./figure-faults";
import type { MappedColumn, Mapping } from "./mapping";
import { isMeasurable } from "./numbers";
import { TimeReader } from "./times";
import type { ZoneOffset } from "./zone";

type Cells = Partial<Record<"piece" | MappedColumn, Cell | undefined>>;

/**
 * A measurement in the columns of the tidy file. What is not stated may be left out or null; then it is what `shared`
 * says, which many rows may have in common.
 */
export type TidyRow = { line: number; cells: Cells; shared?: Cells };

/** What a row says in a column; null where it says nothing. */
export function cellOf({ cells, shared }: TidyRow, column: keyof Cells): Cell {
  return cells[column] ?? shared?.[column] ?? null;
}

/** What the reader of rows makes of them when it takes every one without a remark. */
export type TakenRows = { batch: TidyBatch; names: FileNames };

/*
 * A machine posts the same piece again and again: the same features in the same order, with other values, another
 * serial, time and temperature, now and then another lot. What the reader of rows has made of such a request once holds
 * for the next one where they say the same, and only what differs is looked at, by the same checks. Whatever is not
 * plainly right goes to the reader, where its refusal is written. It takes 0.04 ms of the processor where reading fifty
 * rows as text takes 0.4.
 */

type Form = {
  rows: readonly TidyRow[];
  /** How many cells each row states besides its value. */
  stated: readonly number[];
  /** What all rows share and must be the same again. */
  fixed: readonly (readonly [keyof Cells, Cell])[];
  /** Columns of names that only `shared` states: one text for all rows. */
  varying: readonly DictionaryColumn[];
  taken: TakenRows;
  zone: ZoneOffset;
  times: TimeReader;
};

const MOST_FORMS = 50;
const MOST_ROWS = 1000;

/** Of a row by itself these may not differ from the others. */
const OF_THE_PIECE = ["piece", "taken_at", "part_temp_c"] as const;

/** Texts that are kept as they stand: nothing to take off at their ends, one byte a character. */
const PLAIN_TEXT = /^[\x21-\x7e]+(?: [\x21-\x7e]+)*$/;
const LONGEST_PLAIN = 200;

export class RepeatedRows {
  private readonly forms = new Map<string, Form>();
  private readonly encoder = new TextEncoder();

  /** Keeps what the reader made of rows that it took all, without a remark. */
  remember(
    rows: readonly TidyRow[],
    taken: TakenRows,
    { mapping, zone }: { mapping: Mapping; zone: ZoneOffset },
  ) {
    const form = formOf(rows, taken, { mapping, zone });
    if (form === null) return;
    const key = keyOf(rows);
    this.forms.delete(key);
    if (this.forms.size >= MOST_FORMS) this.forms.delete(this.forms.keys().next().value as string);
    this.forms.set(key, form);
  }

  /** What the reader would make of the rows; null where only it can tell. The batch's columns are not to be changed. */
  read(rows: readonly TidyRow[], zone: ZoneOffset): TakenRows | null {
    const shared = rows[0]?.shared;
    const form = shared && this.forms.get(keyOf(rows));
    if (!form || form.zone !== zone || form.rows.length !== rows.length) return null;
    if (form.fixed.some(([column, cell]) => (shared[column] ?? null) !== cell)) return null;
    const values = this.valuesOf(rows, shared, form);
    if (values === null) return null;
    const takenAt = this.timeOf(shared.taken_at, form.times);
    const { piece, part_temp_c: temperature = null } = shared;
    const partTemp = temperature === null ? Number.NaN : temperature;
    if (Number.isNaN(takenAt) || !isPlain(piece) || typeof partTemp !== "number") return null;
    if (temperature !== null && !isPartTemperature(partTemp)) return null;

    const count = rows.length;
    const batch: TidyBatch = {
      ...form.taken.batch,
      value: values,
      takenAt: new Float64Array(count).fill(takenAt),
      // As the text of -0 is "0".
      partTemp: new Float64Array(count).fill(partTemp + 0),
      pieces: ["", piece],
    };
    const names = { ...form.taken.names };
    for (const column of form.varying) {
      const text = shared[column] ?? null;
      if (text !== null && !isPlain(text)) return null;
      names[column] = text === null ? [""] : ["", text];
      batch[column] = new Uint32Array(count).fill(text === null ? 0 : 1);
    }
    return { batch, names };
  }

  /** Null unless every row states what it did before, and a value that can be taken. */
  private valuesOf(rows: readonly TidyRow[], shared: Cells, form: Form): Float64Array | null {
    const values = new Float64Array(rows.length);
    for (let i = 0; i < rows.length; i++) {
      const { line, cells, shared: own } = rows[i] as TidyRow;
      const before = form.rows[i] as TidyRow;
      if (own !== shared || line !== before.line || statedLike(cells, before.cells) !== form.stated[i])
        return null;
      const { value } = cells;
      if (typeof value !== "number" || !isMeasurable(value)) return null;
      values[i] = value + 0;
    }
    return values;
  }

  private timeOf(text: Cell | undefined, times: TimeReader): number {
    if (!isPlain(text)) return Number.NaN;
    const bytes = this.encoder.encode(text);
    return times.read(bytes, 0, bytes.length);
  }
}

/** How many cells besides the value are stated, or -1 where one is not what it was before. */
function statedLike(cells: Cells, before: Cells): number {
  let stated = 0;
  for (const column in cells) {
    const cell = cells[column as keyof Cells];
    if (column === "value" || cell === undefined) continue;
    if (cell !== before[column as keyof Cells]) return -1;
    stated++;
  }
  return stated;
}

function formOf(
  rows: readonly TidyRow[],
  taken: TakenRows,
  { mapping, zone }: { mapping: Mapping; zone: ZoneOffset },
): Form | null {
  const shared = rows[0]?.shared;
  const { batch, names } = taken;
  if (!shared || rows.length > MOST_ROWS || batch.count !== rows.length) return null;
  if (!isPlain(shared.piece) || !isPlain(shared.taken_at)) return null;
  for (const [i, row] of rows.entries()) {
    if (row.shared !== shared || OF_THE_PIECE.some((column) => row.cells[column] != null)) return null;
    // Where the feature's unit is spelt like this, values are kept as they are stated.
    if ((row.cells.unit ?? null) !== names.features[batch.feature[i] as number]?.unit) return null;
  }
  const isOwn = (column: DictionaryColumn) => rows.some(({ cells }) => cells[column] != null);
  const own = DICTIONARY_COLUMNS.filter(isOwn);
  return {
    rows,
    stated: rows.map(({ cells }) => statedLike(cells, cells)),
    fixed: (["part", "inspected", ...own] as const).map(
      (column) => [column, shared[column] ?? null] as const,
    ),
    varying: DICTIONARY_COLUMNS.filter((column) => !own.includes(column)),
    taken,
    zone,
    times: new TimeReader({ format: mapping.dateFormat, decimal: mapping.decimal, zone }),
  };
}

function keyOf(rows: readonly TidyRow[]): string {
  const { shared, cells } = rows[0] as TidyRow;
  return `${rows.length} ${shared?.part} ${cells.feature}`;
}

function isPlain(cell: Cell | undefined): cell is string {
  return typeof cell === "string" && cell.length <= LONGEST_PLAIN && PLAIN_TEXT.test(cell);
}
