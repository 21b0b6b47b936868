import type { DateFormat, DecimalMark } from "./mapping";
import { quoted, readDecimal } from "./numbers";
import type { ZoneOffset } from "./zone";

const MINUTE = 60_000;
const DAY = 86_400_000;

/** Years in which a measurement can have been taken; anything else is a damaged date. */
const FIRST_YEAR = 1970;
const LAST_YEAR = 2099;

/** Days from the spreadsheet epoch (day 0 is 1899-12-30 for every date after February 1900) to 1970-01-01. */
const SERIAL_OF_1970 = 25_569;

const LONGEST_KEPT = 64;

/**
 * Reads times of one file from bytes to UTC milliseconds.
 *
 * Always read: ISO 8601 with or without zone, extended or basic, "T" or a space before the time, a date alone
 * (its midnight), fractions of a second (cut off at the millisecond). A time without zone is a wall time of the
 * plant, turned into UTC by `zone`. As the format says, also: 31.1.2024 14:05 and 31/01/24 (day first),
 * 1/31/2024 2:05 PM (month first), 45322.5 (serial days of a spreadsheet).
 *
 * Source: ISO 8601-1:2019 (from memory).
 */
export class TimeReader {
  private bytes: Uint8Array = new Uint8Array(0);
  private at = 0;
  private end = 0;
  /** The last text and its time: all measurements of a piece, some hundred rows, usually carry the same one. */
  private readonly lastText = new Uint8Array(LONGEST_KEPT);
  private lastLength = -1;
  private lastTime = Number.NaN;
  private readonly format: DateFormat;
  private readonly decimal: DecimalMark;
  private readonly zone: ZoneOffset;

  constructor({ format, decimal, zone }: { format: DateFormat; decimal: DecimalMark; zone: ZoneOffset }) {
    this.format = format;
    this.decimal = decimal;
    this.zone = zone;
  }

  /** UTC milliseconds, or NaN when the bytes [start, end) are no time in this format; see `timeFault`. */
  read(bytes: Uint8Array, start: number, end: number): number {
    const length = end - start;
    if (length === this.lastLength) {
      let i = 0;
      while (i < length && bytes[start + i] === this.lastText[i]) i++;
      if (i === length) return this.lastTime;
    }
    this.bytes = bytes;
    this.at = start;
    this.end = end;
    const time = this.readTime(start);
    this.lastLength = length <= LONGEST_KEPT ? length : -1;
    for (let i = 0; i < this.lastLength; i++) this.lastText[i] = bytes[start + i] as number;
    this.lastTime = time;
    return time;
  }

  private readTime(start: number): number {
    const first = this.digits();
    const length = this.at - start;
    if (length === 8)
      return this.readClock(Math.floor(first / 10_000), Math.floor(first / 100) % 100, first % 100);
    if (length === 4 && this.isDateMark()) return this.readYearFirst(first);
    if (this.format === "serial") return this.readSerial(start);
    if (this.format !== "iso" && (length === 1 || length === 2) && this.isDateMark())
      return this.readYearLast(first);
    return Number.NaN;
  }

  private readYearFirst(year: number): number {
    const mark = this.bytes[this.at++];
    const month = this.number(1, 2);
    if (this.bytes[this.at++] !== mark) return Number.NaN;
    return this.readClock(year, month, this.number(1, 2));
  }

  private readYearLast(first: number): number {
    const mark = this.bytes[this.at++];
    const second = this.number(1, 2);
    if (this.bytes[this.at++] !== mark) return Number.NaN;
    const before = this.at;
    let year = this.number(2, 4);
    const yearLength = this.at - before;
    if (yearLength === 2) year += 2000;
    else if (yearLength !== 4) return Number.NaN;
    return this.format === "day-first"
      ? this.readClock(year, second, first)
      : this.readClock(year, first, second);
  }

  /** The time of day and the zone, if any, after a date. */
  private readClock(year: number, month: number, day: number): number {
    if (!(year >= FIRST_YEAR && year <= LAST_YEAR && month >= 1 && month <= 12)) return Number.NaN;
    if (!(day >= 1 && day <= daysIn(year, month))) return Number.NaN;
    const midnight = daysSince1970(year, month, day) * DAY;
    if (this.at === this.end) return this.inZone(midnight);

    const gap = this.bytes[this.at++];
    if (gap !== 84 && gap !== 116 && gap !== 32) return Number.NaN;
    while (this.here() === 32) this.at++;
    const clock = this.clockMs();
    if (Number.isNaN(clock)) return Number.NaN;
    const local = midnight + clock;
    if (this.at === this.end) return this.inZone(local);
    while (this.here() === 32) this.at++;
    const offset = this.offsetMinutes();
    return this.at === this.end ? local - offset * MINUTE : Number.NaN;
  }

  private clockMs(): number {
    const start = this.at;
    const run = this.digits();
    const basic = this.at - start;
    let hour = run;
    let minute: number;
    let second = 0;
    if (basic === 4 || basic === 6) {
      hour = basic === 6 ? Math.floor(run / 10_000) : Math.floor(run / 100);
      minute = basic === 6 ? Math.floor(run / 100) % 100 : run % 100;
      second = basic === 6 ? run % 100 : 0;
    } else {
      if ((basic !== 1 && basic !== 2) || this.here() !== 58) return Number.NaN;
      this.at++;
      minute = this.number(2, 2);
      if (this.here() === 58) {
        this.at++;
        second = this.number(2, 2);
      }
    }
    const ms = this.here() === 46 || this.here() === 44 ? this.fractionMs() : 0;
    hour = this.afternoon(hour);
    if (!(hour >= 0 && hour <= 23 && minute <= 59 && second <= 59)) return Number.NaN;
    return ((hour * 60 + minute) * 60 + second) * 1000 + ms;
  }

  private fractionMs(): number {
    this.at++;
    const start = this.at;
    this.digits();
    if (this.at === start) return Number.NaN;
    let ms = 0;
    for (let i = 0; i < 3; i++)
      ms = ms * 10 + (start + i < this.at ? (this.bytes[start + i] as number) - 48 : 0);
    return ms;
  }

  /** 12-hour clock: 12 AM is midnight, 12 PM is noon. */
  private afternoon(hour: number): number {
    let at = this.at;
    while (at < this.end && this.bytes[at] === 32) at++;
    if (at + 2 !== this.end) return hour;
    const letter = (this.bytes[at] as number) | 0x20;
    const isTwelveHour = (letter === 97 || letter === 112) && ((this.bytes[at + 1] as number) | 0x20) === 109;
    if (!isTwelveHour) return hour;
    this.at = this.end;
    if (hour < 1 || hour > 12) return Number.NaN;
    return (hour % 12) + (letter === 112 ? 12 : 0);
  }

  private offsetMinutes(): number {
    const sign = this.here();
    this.at++;
    if (sign === 90 || sign === 122) return 0;
    if (sign !== 43 && sign !== 45) return Number.NaN;
    const start = this.at;
    let hours = this.digits();
    let minutes = 0;
    const length = this.at - start;
    if (length === 4) {
      minutes = hours % 100;
      hours = Math.floor(hours / 100);
    } else if (length !== 2) {
      return Number.NaN;
    } else if (this.here() === 58) {
      this.at++;
      minutes = this.number(2, 2);
    }
    if (!(hours <= 14 && minutes <= 59)) return Number.NaN;
    return (sign === 45 ? -1 : 1) * (hours * 60 + minutes);
  }

  private readSerial(start: number): number {
    const days = readDecimal(this.bytes, start, this.end, this.decimal);
    const local = Math.round((days - SERIAL_OF_1970) * DAY);
    if (!(local >= 0 && local < daysSince1970(LAST_YEAR + 1, 1, 1) * DAY)) return Number.NaN;
    return this.inZone(local);
  }

  private inZone(localMs: number): number {
    return localMs - this.zone(localMs) * MINUTE;
  }

  private here(): number {
    return this.at < this.end ? (this.bytes[this.at] as number) : -1;
  }

  private isDateMark(): boolean {
    const byte = this.here();
    return byte === 45 || byte === 47 || byte === 46;
  }

  /** A run of digits, 0 when there is none. */
  private digits(): number {
    let value = 0;
    for (; this.at < this.end; this.at++) {
      const byte = this.bytes[this.at] as number;
      if (byte < 48 || byte > 57) break;
      value = value * 10 + (byte - 48);
    }
    return value;
  }

  /** A run of least to most digits, else NaN. */
  private number(least: number, most: number): number {
    const start = this.at;
    const value = this.digits();
    const length = this.at - start;
    return length >= least && length <= most ? value : Number.NaN;
  }
}

/** Why `TimeReader` does not take this text, and what to do, as a sentence. */
export function timeFault(text: string, format: DateFormat): string {
  if (text === "") return "The time is empty: write when the piece was measured, or map no time column.";
  const known = faultOfKind(text, format);
  if (known !== null) return known;
  const examples: Record<DateFormat, string> = {
    iso: "2024-01-31 14:05:00",
    "day-first": "31.01.2024 14:05 or 2024-01-31 14:05",
    "month-first": "1/31/2024 2:05 PM or 2024-01-31 14:05",
    serial: "45322.5 or 2024-01-31 14:05",
  };
  return `${quoted(text)} is not a time between ${FIRST_YEAR} and ${LAST_YEAR}. Write it like ${examples[format]}.`;
}

/** Why a text is not the date beside a column of times of day, as a sentence. */
export function dateFault(
  text: string,
  format: DateFormat,
  why: "no-date" | "has-clock" = "no-date",
): string {
  if (text === "") return "The date is empty: write on which day the piece was measured.";
  if (why === "has-clock") {
    return `${quoted(text)} holds more than a date, and another column is mapped for the time of day. Map one of the two, or write the date alone.`;
  }
  const known = faultOfKind(text, format);
  if (known !== null) return known;
  const examples: Record<DateFormat, string> = {
    iso: "2024-01-31",
    "day-first": "31.01.2024 or 2024-01-31",
    "month-first": "1/31/2024 or 2024-01-31",
    serial: "45322 or 2024-01-31",
  };
  return `${quoted(text)} is not a date between ${FIRST_YEAR} and ${LAST_YEAR}. Write it like ${examples[format]}.`;
}

/** Why a text is not the time of day beside a column of dates, as a sentence. */
export function clockFault(text: string): string {
  if (text === "") return "The time of day is empty: write when on that day the piece was measured.";
  if (isSpreadsheetFault(text)) return spreadsheetFault(text);
  return `${quoted(text)} is not a time of day. Write it like 14:05:00 or 2:05 PM.`;
}

function faultOfKind(text: string, format: DateFormat): string | null {
  const shown = quoted(text);
  if (isSpreadsheetFault(text)) return spreadsheetFault(text);
  if (format === "iso" && /^\d{1,2}[./-]\d{1,2}[./-]\d{2,4}/.test(text)) {
    return `${shown} may be day first or month first. Choose the date format in the mapping, or write it as 2024-01-31 14:05.`;
  }
  if (format === "iso" && /^\d{5}([.,]\d+)?$/.test(text)) {
    return `${shown} looks like the serial date of a spreadsheet. Choose that date format in the mapping.`;
  }
  return null;
}

function isSpreadsheetFault(text: string): boolean {
  return text.startsWith("=") || text.startsWith("#");
}

function spreadsheetFault(text: string): string {
  return `${quoted(text)} is a formula or an error value of a spreadsheet, not a time. Correct the cell.`;
}

/** Days from 1970-01-01 in the Gregorian calendar, by counting years from March so that leap days come last. */
function daysSince1970(year: number, month: number, day: number): number {
  const y = month <= 2 ? year - 1 : year;
  const dayOfYear = Math.floor((153 * ((month + 9) % 12) + 2) / 5) + day - 1;
  return y * 365 + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + dayOfYear - 719_468;
}

function daysIn(year: number, month: number): number {
  if (month === 2) return (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0 ? 29 : 28;
  return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
}
