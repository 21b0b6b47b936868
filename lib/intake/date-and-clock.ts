import type { FieldRow } from "./csv";
import { Field, JoinedField, type Source } from "./field";
import type { DateFormat, DecimalMark } from "./mapping";
import { readDecimal } from "./numbers";
import { clockFault, dateFault, type TimeReader } from "./times";

const SPACE = 32;
const DAY = 86_400_000;
/** 1970-01-01 in the serial days of a spreadsheet. */
const SERIAL_OF_1970 = 25_569;

/** A date that a program wrote out with its midnight: "31.01.2024 00:00:00", "2024-01-31T00:00:00.000", "1/31/2024 12:00 AM". */
const MIDNIGHT = /[T ]\s*(0?0:00(:00([.,]0+)?)?|12:00(:00)? ?AM)$/i;
/** A spreadsheet's time of day is a moment of its day 0. */
const DAY_ZERO = /^(1899-12-3[01]|1900-01-0[01]|1904-01-01)[T ]/;
const DATE_ALONE = /^(\d{4}([-/.])\d{1,2}\2\d{1,2}|\d{1,2}([-/.])\d{1,2}\3(\d{2}|\d{4})|\d{8})$/;
const SERIAL_DAY = /^\d{5}([.,]0+)?$/;
const CLOCK = /^\d{1,2}:\d{2}(:\d{2}([.,]\d+)?)?( ?[AP]M)?( ?(Z|[+-]\d{2}(:?\d{2})?))?$/i;
/** A part of a day, as a spreadsheet keeps a time. */
const DAY_PART = /^0([.,]\d+)?$/;

/**
 * Reads the moment of measuring from two columns: the date in one, the time of day in the other.
 *
 * Both together are read as one text ("31.01.2024" and "14:05:30" as "31.01.2024 14:05:30"), so every check of
 * `TimeReader` holds. Where that is no time, what spreadsheets make of the two is taken off: the midnight behind a
 * date, day 0 before a time of day, and where the format is serial, whole days and parts of a day.
 */
export class DateAndClock {
  private readonly date = new Field();
  private readonly clock = new Field();
  private readonly joined = new JoinedField();

  constructor(
    private readonly times: TimeReader,
    private readonly format: DateFormat,
    private readonly decimal: DecimalMark,
  ) {}

  /** UTC milliseconds, or NaN when the two fields of this row make no moment; see `fault`. */
  read(row: FieldRow, dateSource: Source, clockSource: Source): number {
    const { date, clock, joined, times } = this;
    const hasDate = date.moveTo(row, dateSource);
    const hasClock = clock.moveTo(row, clockSource);
    if (!hasDate || !hasClock) return Number.NaN;
    joined.clear();
    joined.append(date);
    joined.byte(SPACE);
    joined.append(clock);
    const time = times.read(joined.bytes, 0, joined.length);
    return Number.isNaN(time) ? this.readText(`${this.plainDate()} ${this.plainClock()}`) : time;
  }

  /** Why the row that was read last has no moment, as a sentence. */
  fault(): string {
    const date = this.date.text();
    const plain = this.plainDate();
    if (date === "" || Number.isNaN(this.readText(plain))) return dateFault(date, this.format);
    // A moment with a time of its own takes no second one.
    if (Number.isNaN(this.readText(`${plain} 00:00`))) return dateFault(date, this.format, "has-clock");
    return clockFault(this.clock.text());
  }

  private plainDate(): string {
    const text = this.date.text().replace(MIDNIGHT, "");
    if (this.format !== "serial" || !SERIAL_DAY.test(text)) return text;
    return new Date((Number.parseInt(text, 10) - SERIAL_OF_1970) * DAY).toISOString().slice(0, 10);
  }

  private plainClock(): string {
    const text = this.clock.text().replace(DAY_ZERO, "");
    if (this.format !== "serial" || !DAY_PART.test(text)) return text;
    const ms = Math.round(decimalOf(text, this.decimal) * DAY);
    return ms < DAY ? new Date(ms).toISOString().slice(11, -1) : text;
  }

  private readText(text: string): number {
    const bytes = new TextEncoder().encode(text);
    return this.times.read(bytes, 0, bytes.length);
  }
}

/** Whether all texts, of which there are some, are dates without a time of day. */
export function areDates(texts: readonly string[]): boolean {
  const isDate = (text: string) => DATE_ALONE.test(text) || SERIAL_DAY.test(text);
  return texts.length > 0 && texts.every((text) => isDate(text.replace(MIDNIGHT, "")));
}

/** Whether all texts, of which there are some, are times of a day; a part of a day is one beside serial dates. */
export function areClocks(texts: readonly string[], { besideSerial }: { besideSerial: boolean }): boolean {
  const isClock = (text: string) => CLOCK.test(text) || (besideSerial && DAY_PART.test(text));
  return texts.length > 0 && texts.every((text) => isClock(text.replace(DAY_ZERO, "")));
}

function decimalOf(text: string, decimal: DecimalMark): number {
  const bytes = new TextEncoder().encode(text);
  return readDecimal(bytes, 0, bytes.length, decimal);
}
