import type { DictionaryColumn, FileNames, IntakeCounts, IntakeSink, TidyBatch } from "./batch";
import { DICTIONARY_COLUMNS } from "./batch";
import { newBatch, trimmed } from "./batch-builder";
import { ByteDictionary } from "./byte-dictionary";
import { type ColumnPlan, planColumns, type ValueSource } from "./column-plan";
import { type FieldRow, fieldText } from "./csv";
import { DateAndClock } from "./date-and-clock";
import { Field, JoinedField, type Source } from "./field";
import { type FigureFault, inspectedFault, temperatureFault } from "./figure-faults";
import { type Mapping, validateMapping } from "./mapping";
import { decimalFault, isMeasurable, readDecimal } from "./numbers";
import { RowGuess, type WantedColumns } from "./row-guess";
import { RowStatements } from "./row-statements";
import { FiledFeatures, LONGEST_NAME, type Statement, tooLong } from "./statements";
import { TimeReader, timeFault } from "./times";
import { UnreadableFile } from "./unreadable-file";
import type { ZoneOffset } from "./zone";

/** Bounds on what one file may name; beyond them a column is mapped wrongly and memory would not stay flat. */
export type IntakeLimits = { features: number; names: number };
export const INTAKE_LIMITS: IntakeLimits = { features: 20_000, names: 200_000 };

export type InterpretOptions = {
  /** Zone of times that state none: the plant's. */
  zone: ZoneOffset;
  /** Measurements in one batch. */
  batchRows?: number;
  /** Fills the same batch again once the sink has returned: the sink takes what it needs before. */
  reusesBatch?: boolean;
  /** Names and temperatures that the sink looks at; the others may hold anything. All of them when absent. */
  wanted?: WantedColumns | undefined;
  limits?: IntakeLimits;
};

export const BATCH_ROWS = 16_384;
const LONGEST_RAW = 2_000;

const HYPHEN = 45;

type NamedColumn = {
  column: DictionaryColumn;
  source: Source;
  texts: ByteDictionary;
  names: string[];
};

/**
 * Turns rows into batches of typed columns, the first row being the header, and refuses what cannot be taken.
 *
 * CSV and spreadsheet rows both come through here, so every check has one place. A row is refused with its first
 * fault, in the order quoting, number of fields, value, time, temperature, what was inspected, feature, names; a refused row leaves
 * no feature behind.
 */
export class RowInterpreter {
  readonly names: FileNames;
  readonly counts: IntakeCounts = { rows: 0, accepted: 0, refused: 0, blankRows: 0, notices: 0 };
  header: string[] | null = null;

  private readonly filed: FiledFeatures;
  private readonly limits: IntakeLimits;
  private readonly batchRows: number;
  private readonly times: TimeReader;
  private readonly moments: DateAndClock;
  private batch: TidyBatch;
  private firstTime = Number.NaN;

  private plan: ColumnPlan = {
    values: [],
    stated: [],
    statedSpan: null,
    names: [],
    piece: [],
    takenAt: null,
    timeOfDay: null,
    temperature: null,
    inspected: null,
  };
  private named: NamedColumn[] = [];
  /** Columns of the batch for `named`, in its order. */
  private namedIds: Uint32Array[] = [];
  private guess: RowGuess | null = null;

  private readonly field = new Field();
  private readonly joined = new JoinedField();
  private readonly pieceTexts = new ByteDictionary();
  private stated: RowStatements;

  constructor(
    private readonly mapping: Mapping,
    private readonly options: InterpretOptions,
    private readonly sink: IntakeSink,
  ) {
    this.limits = options.limits ?? INTAKE_LIMITS;
    this.batchRows = options.batchRows ?? BATCH_ROWS;
    this.batch = newBatch(this.batchRows, { hasInspected: false });
    this.filed = new FiledFeatures(mapping.decimal, this.limits.features, (notice) => {
      this.counts.notices++;
      sink.notice(notice);
    });
    this.stated = new RowStatements(this.filed, this.plan);
    const names: Partial<FileNames> = { features: this.filed.features };
    for (const column of DICTIONARY_COLUMNS) names[column] = [""];
    this.names = names as FileNames;
    this.times = new TimeReader({ format: mapping.dateFormat, decimal: mapping.decimal, zone: options.zone });
    this.moments = new DateAndClock(this.times, mapping.dateFormat, mapping.decimal);
    if (mapping.time !== null) this.firstTime = this.startTime(mapping.time.start);
  }

  row(row: FieldRow): void {
    if (isBlank(row)) this.counts.blankRows++;
    else if (this.header === null) this.readHeader(row);
    else this.dataRow(row, this.header.length);
  }

  /**
   * Takes a row as it stands when it is the one that was expected (`RowGuess`): the position behind it, or -1. A value
   * that is none goes the usual way, where its refusal is written.
   */
  takes(bytes: Uint8Array, from: number, end: number, line: number): number {
    const { guess, batch } = this;
    if (guess === null) return -1;
    const behind = guess.try(bytes, from, end);
    if (behind === -1 || guess.statement === null) return -1;
    const { valueStart, valueEnd, statement } = guess;
    const { decimal } = this.mapping;
    const value = readDecimal(bytes, valueStart, valueEnd, decimal);
    if (!isMeasurable(value)) return -1;
    const { scale } = statement;
    guess.take(batch.count);
    this.counts.rows++;
    this.accept(
      line,
      statement,
      scale === null ? value : readDecimal(bytes, valueStart, valueEnd, decimal, scale),
    );
    return behind;
  }

  /** Hands on the batch as far as it is filled. */
  flush(): void {
    this.handOn();
  }

  /** Hands on the last batch. */
  end(): void {
    if (this.header === null)
      throw new UnreadableFile("empty", null, "The file is empty: not even a header was found.");
    this.handOn();
  }

  private dataRow(row: FieldRow, columns: number): void {
    const { time, layout } = this.mapping;
    const stepped =
      time === null ? Number.NaN : this.firstTime + Math.round(this.counts.rows * time.stepSeconds * 1000);
    this.counts.rows++;
    if (row.problem !== null) {
      this.refuse(row, "row", row.problem);
    } else if (row.count < columns || (row.count > columns && !isBlank(row, columns))) {
      const reason = `The row has ${row.count} fields, the header ${columns}. Look for a separator too many or too few, or a text that needs quotes.`;
      this.refuse(row, "row", reason);
    } else if (layout === "wide") {
      this.wideRow(row, stepped);
    } else {
      for (const wanted of this.plan.values) this.longRow(row, wanted, stepped);
    }
  }

  private longRow(row: FieldRow, wanted: ValueSource, stepped: number): void {
    const { decimal } = this.mapping;
    const { field } = this;
    field.moveTo(row, wanted.source);
    const { bytes, start, end } = field;
    const value = readDecimal(bytes, start, end, decimal);
    if (!isMeasurable(value)) {
      this.refuse(row, "value", valueFault(field.text(), decimal));
      return;
    }
    const slot = this.batch.count;
    if (!this.readShared(row, slot, stepped)) return;
    const statement = this.stated.of(row, this.stated.numberOf(row), wanted, 0);
    if (!statement.ok) {
      this.refuse(row, statement.field, statement.reason);
      return;
    }
    if (!this.readNames(row, slot)) return;
    const { scale } = statement;
    if (this.guess?.learn(row, slot, statement) === false) this.guess = null;
    this.accept(row.line, statement, scale === null ? value : readDecimal(bytes, start, end, decimal, scale));
  }

  private wideRow(row: FieldRow, stepped: number): void {
    const slot = this.batch.count;
    if (!this.readShared(row, slot, stepped)) return;
    const takenAt = this.batch.takenAt[slot] as number;
    const partTemp = this.batch.partTemp[slot] as number;
    const inspected = this.batch.inspected?.[slot] as number;
    const number = this.stated.numberOf(row);
    const { decimal } = this.mapping;
    const { field } = this;
    let cells = 0;
    for (const [index, wanted] of this.plan.values.entries()) {
      // An empty cell of a wide row is a feature that was not measured on this piece.
      if (!field.moveTo(row, wanted.source)) continue;
      cells++;
      const { bytes, start, end } = field;
      if (!isMeasurable(readDecimal(bytes, start, end, decimal))) {
        this.refuse(row, wanted.field, valueFault(field.text(), decimal));
        continue;
      }
      const statement = this.stated.of(row, number, wanted, index);
      if (!statement.ok) {
        this.refuse(row, statement.field, statement.reason);
        continue;
      }
      const next = this.batch.count;
      this.batch.takenAt[next] = takenAt;
      this.batch.partTemp[next] = partTemp;
      if (this.batch.inspected !== null) this.batch.inspected[next] = inspected;
      if (!this.readNames(row, next)) return;
      this.accept(row.line, statement, readDecimal(bytes, start, end, decimal, statement.scale));
    }
    if (cells === 0) this.refuse(row, "value", "None of the value columns holds a value in this row.");
  }

  /** Time, temperature and what was inspected into the batch at `slot`; false when the row was refused. */
  private readShared(row: FieldRow, slot: number, stepped: number): boolean {
    const { field, batch } = this;
    let time = stepped;
    const { takenAt, timeOfDay } = this.plan;
    if (takenAt !== null && timeOfDay !== null) {
      time = this.moments.read(row, takenAt, timeOfDay);
      if (Number.isNaN(time)) {
        this.refuse(row, "taken_at", this.moments.fault());
        return false;
      }
    } else if (takenAt !== null) {
      field.moveTo(row, takenAt);
      time = this.times.read(field.bytes, field.start, field.end);
      if (Number.isNaN(time)) {
        this.refuse(row, "taken_at", timeFault(field.text(), this.mapping.dateFormat));
        return false;
      }
    }
    batch.takenAt[slot] = time;

    const temperature = this.figureOf(row, this.plan.temperature, "part_temp_c", temperatureFault);
    if (temperature === null) return false;
    batch.partTemp[slot] = temperature;
    if (batch.inspected === null) return true;
    const inspected = this.figureOf(row, this.plan.inspected, "inspected", inspectedFault);
    if (inspected !== null) batch.inspected[slot] = inspected;
    return inspected !== null;
  }

  /** The number in a column, NaN where nothing is stated; null when the row was refused. */
  private figureOf(row: FieldRow, source: Source | null, name: string, faultOf: FigureFault): number | null {
    const { field } = this;
    if (source === null || !field.moveTo(row, source)) return Number.NaN;
    const figure = readDecimal(field.bytes, field.start, field.end, this.mapping.decimal);
    const fault = faultOf(figure, field, this.mapping.decimal);
    if (fault === null) return figure;
    this.refuse(row, name, fault);
    return null;
  }

  /** Piece, lot and sources into the batch at `slot`; false when the row was refused. */
  private readNames(row: FieldRow, slot: number): boolean {
    const { field, batch, named } = this;
    const piece = this.pieceOf(row);
    if (piece === -1) return false;
    batch.piece[slot] = piece;

    for (let i = 0; i < named.length; i++) {
      const { column, source, texts, names } = named[i] as NamedColumn;
      let id = 0;
      if (field.moveTo(row, source)) {
        const { bytes, start, end } = field;
        id = texts.find(bytes, start, end) + 1;
        if (id === 0) {
          const text = field.text();
          if (text.length > LONGEST_NAME) {
            this.refuse(row, column, tooLong(column, text));
            return false;
          }
          if (names.length > this.limits.names) throw this.tooManyNames(row, column);
          id = texts.add(bytes, start, end) + 1;
          names.push(text);
        }
      }
      (this.namedIds[i] as Uint32Array)[slot] = id;
    }
    return true;
  }

  /** The piece's number in the batch, 0 when none is stated, -1 when the row was refused. */
  private pieceOf(row: FieldRow): number {
    const { field, joined } = this;
    const [single] = this.plan.piece;
    if (single === undefined) return 0;
    let { bytes, start, end } = field;
    if (this.plan.piece.length === 1) {
      if (!field.moveTo(row, single)) return 0;
      ({ bytes, start, end } = field);
    } else {
      joined.clear();
      for (const source of this.plan.piece) {
        if (!field.moveTo(row, source)) continue;
        if (joined.length > 0) joined.byte(HYPHEN);
        joined.append(field);
      }
      if (joined.length === 0) return 0;
      ({ bytes, length: end } = joined);
      start = 0;
    }
    const known = this.pieceTexts.find(bytes, start, end);
    if (known !== -1) return known + 1;
    const text = this.plan.piece.length === 1 ? field.text() : joined.text();
    if (text.length > LONGEST_NAME) {
      this.refuse(row, "piece", tooLong("piece", text));
      return -1;
    }
    this.batch.pieces.push(text);
    return this.pieceTexts.add(bytes, start, end) + 1;
  }

  /** Completes the measurement in the batch's next slot, whose other columns are filled. */
  private accept(line: number, statement: Statement & { ok: true }, value: number): void {
    const { batch } = this;
    const slot = batch.count;
    batch.line[slot] = line;
    batch.feature[slot] = statement.feature;
    batch.value[slot] = value;
    batch.count++;
    this.counts.accepted++;
    if (batch.count === this.batchRows) this.handOn();
  }

  private handOn(): void {
    if (this.batch.count === 0) return;
    this.sink.batch(trimmed(this.batch));
    if (this.options.reusesBatch) {
      this.batch.count = 0;
      this.batch.pieces = [""];
    } else {
      this.batch = this.newBatch();
    }
    this.beginBatch();
    this.pieceTexts.clear();
  }

  private newBatch(): TidyBatch {
    return newBatch(this.batchRows, { hasInspected: this.plan.inspected !== null });
  }

  private beginBatch(): void {
    this.namedIds = this.named.map(({ column }) => this.batch[column]);
    this.guess?.beginBatch(this.batch);
  }

  private refuse(row: FieldRow, field: string, reason: string): void {
    this.counts.refused++;
    this.sink.refusal({ line: row.line, field, reason, raw: row.raw(LONGEST_RAW) });
  }

  private readHeader(row: FieldRow): void {
    const header = Array.from({ length: row.count }, (_, index) => fieldText(row, index).trim());
    const [problem] = validateMapping(this.mapping, header);
    if (problem) throw new UnreadableFile("mapping", row.line, problem.message);
    this.header = header;
    this.plan = planColumns(this.mapping, header);
    this.stated = new RowStatements(this.filed, this.plan);
    if (this.plan.inspected !== null) this.batch = this.newBatch();
    this.named = this.plan.names.map(({ column, source }) => ({
      column,
      source,
      texts: new ByteDictionary(),
      names: this.names[column],
    }));
    const { wanted } = this.options;
    this.guess = RowGuess.of(this.plan, this.mapping, { columns: header.length, wanted });
    this.beginBatch();
  }

  private startTime(start: string): number {
    const bytes = new TextEncoder().encode(start.trim());
    const time = this.times.read(bytes, 0, bytes.length);
    if (Number.isNaN(time)) {
      throw new UnreadableFile(
        "mapping",
        null,
        `The first time of the mapping is unreadable. ${timeFault(start, "iso")}`,
      );
    }
    return time;
  }

  private tooManyNames(row: FieldRow, column: DictionaryColumn): UnreadableFile {
    return new UnreadableFile(
      "too-many-names",
      row.line,
      `the ${column} column holds more than ${this.limits.names.toLocaleString("en-US")} different texts. Is it mapped to a column of serials, times or values?`,
    );
  }
}

function valueFault(text: string, decimal: Mapping["decimal"]): string {
  return text === ""
    ? "The value is empty: nothing was measured, or another column is meant."
    : decimalFault(text, decimal);
}

/** Whether the fields from `first` on hold nothing but blanks. */
function isBlank(row: FieldRow, first = 0): boolean {
  for (let index = first; index < row.count; index++) {
    const end = row.ends[index] as number;
    for (let at = row.starts[index] as number; at < end; at++)
      if ((row.bytes[at] as number) > 32) return false;
  }
  return true;
}
