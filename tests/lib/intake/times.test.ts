import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import type { DateFormat } from "../../../lib/intake/mapping";
import { TimeReader, timeFault } from "../../../lib/intake/times";
import { utc, type ZoneOffset, zoneTable } from "../../../lib/intake/zone";
import { runs } from "../../laws";

function read(text: string, format: DateFormat = "iso", zone: ZoneOffset = utc): number {
  const bytes = new TextEncoder().encode(text);
  return new TimeReader({ format, decimal: ".", zone }).read(bytes, 0, bytes.length);
}

const shown = (time: number) => (Number.isNaN(time) ? "unreadable" : new Date(time).toISOString());

describe("times", () => {
  test.each([
    ["2024-01-31T14:05:06Z", "2024-01-31T14:05:06.000Z"],
    ["2024-01-31 14:05:06", "2024-01-31T14:05:06.000Z"],
    ["2024-01-31 14:05", "2024-01-31T14:05:00.000Z"],
    ["2024-01-31T14:05:06.789012+02:00", "2024-01-31T12:05:06.789Z"],
    ["2024-01-31T14:05:06,5-0530", "2024-01-31T19:35:06.500Z"],
    ["2024-01-31T14:05:06 +01", "2024-01-31T13:05:06.000Z"],
    ["20240131T140506Z", "2024-01-31T14:05:06.000Z"],
    ["20240131T1405", "2024-01-31T14:05:00.000Z"],
    ["2024-02-29", "2024-02-29T00:00:00.000Z"],
    ["2024/1/5 6:07", "2024-01-05T06:07:00.000Z"],
    ["2024-01-31t14:05:06z", "2024-01-31T14:05:06.000Z"],
  ])("ISO 8601: %s", (text, expected) => {
    expect(shown(read(text))).toBe(expected);
  });

  test.each([
    ["31.01.2024 14:05:06", "day-first", "2024-01-31T14:05:06.000Z"],
    ["3/4/2024", "day-first", "2024-04-03T00:00:00.000Z"],
    ["3/4/2024", "month-first", "2024-03-04T00:00:00.000Z"],
    ["03-04-24 1:05 pm", "month-first", "2024-03-04T13:05:00.000Z"],
    ["1/31/2024 12:00:00 AM", "month-first", "2024-01-31T00:00:00.000Z"],
    ["1/31/2024 12:30 PM", "month-first", "2024-01-31T12:30:00.000Z"],
    ["2024-01-31 14:05", "day-first", "2024-01-31T14:05:00.000Z"],
    // 45322 is 2024-01-31 in the date system of spreadsheets, 25569 is 1970-01-01 (ISO/IEC 29500-1, 18.17.4.1, from memory).
    ["45322.5", "serial", "2024-01-31T12:00:00.000Z"],
    ["25569", "serial", "1970-01-01T00:00:00.000Z"],
  ] as const)("%s read as %s", (text, format, expected) => {
    expect(shown(read(text, format))).toBe(expected);
  });

  test.each([
    ["", "iso"],
    ["2023-02-29", "iso"],
    ["2024-13-01", "iso"],
    ["2024-00-01", "iso"],
    ["2024-04-31", "iso"],
    ["2024-01-31T24:00:00Z", "iso"],
    ["2024-01-31T14:60", "iso"],
    ["2024-01-31T14:05:60", "iso"],
    ["2024-01-31T", "iso"],
    ["2024-01-31T14", "iso"],
    ["2024-01-31T14:05:06X", "iso"],
    ["2024-01-31T14:05:06+15:00", "iso"],
    ["2024-01-31T14:05:06Zjunk", "iso"],
    ["2024-01-31junk", "iso"],
    ["2024-01/31", "iso"],
    ["0000-01-01", "iso"],
    ["1900-01-01", "iso"],
    ["2200-01-01", "iso"],
    ["31/01/2024", "iso"],
    ["45322.5", "iso"],
    ["13/13/2024", "day-first"],
    ["31/01/202", "day-first"],
    ["1/31/2024 13:05 PM", "month-first"],
    ["1/31/2024 0:05 AM", "month-first"],
    ["0.5", "serial"],
    ["99999999", "serial"],
    ["yesterday", "serial"],
    ["=NOW()", "iso"],
  ] as const)("unreadable: %j read as %s", (text, format) => {
    expect(shown(read(text, format))).toBe("unreadable");
    expect(timeFault(text, format)).toMatch(/[.]$/);
  });

  test("what the platform writes is read back to the millisecond", () => {
    const instant = fc.date({
      min: new Date("1970-01-01T00:00:00Z"),
      max: new Date("2099-12-31T23:59:59Z"),
      noInvalidDate: true,
    });
    fc.assert(
      fc.property(instant, (date) => {
        expect(read(date.toISOString())).toBe(date.getTime());
      }),
      { numRuns: runs(3_000) },
    );
  });

  test("one reader for many rows remembers only what is the same", () => {
    const reader = new TimeReader({ format: "iso", decimal: ".", zone: utc });
    const of = (text: string) => {
      const bytes = new TextEncoder().encode(text);
      return shown(reader.read(bytes, 0, bytes.length));
    };
    expect(of("2024-01-31")).toBe("2024-01-31T00:00:00.000Z");
    expect(of("2024-01-31")).toBe("2024-01-31T00:00:00.000Z");
    expect(of("2024-01-30")).toBe("2024-01-30T00:00:00.000Z");
    expect(of("wrong")).toBe("unreadable");
    expect(of("wrong")).toBe("unreadable");
    expect(of("2024-01-30")).toBe("2024-01-30T00:00:00.000Z");
  });

  test("sentences say what to do", () => {
    expect(timeFault("03/04/2024", "iso")).toContain("day first or month first");
    expect(timeFault("45322.5", "iso")).toContain("serial date");
    expect(timeFault("", "iso")).toContain("empty");
  });
});

describe("plant zones", () => {
  // Rules of the IANA time zone database (from memory): the European Union changes at 01:00 UTC on the last Sundays
  // of March and October, New York at 02:00 local time on the second Sunday of March and the first of November,
  // Lord Howe by half an hour at 02:00; Kolkata and Phoenix never.
  test.each([
    ["Europe/Berlin", "2024-01-15 12:00", "2024-01-15T11:00:00.000Z"],
    ["Europe/Berlin", "2024-07-15 12:00", "2024-07-15T10:00:00.000Z"],
    ["Europe/Berlin", "2024-03-31 01:59:59", "2024-03-31T00:59:59.000Z"],
    ["Europe/Berlin", "2024-03-31 03:00:00", "2024-03-31T01:00:00.000Z"],
    ["Europe/Berlin", "2024-10-27 01:59:59", "2024-10-26T23:59:59.000Z"],
    ["Europe/Berlin", "2024-10-27 03:00:00", "2024-10-27T02:00:00.000Z"],
    ["America/New_York", "2024-03-10 01:59", "2024-03-10T06:59:00.000Z"],
    ["America/New_York", "2024-03-10 03:00", "2024-03-10T07:00:00.000Z"],
    ["America/New_York", "2024-11-03 02:00", "2024-11-03T07:00:00.000Z"],
    ["Asia/Kolkata", "2024-07-15 12:00", "2024-07-15T06:30:00.000Z"],
    ["Asia/Kathmandu", "2024-07-15 12:00", "2024-07-15T06:15:00.000Z"],
    ["America/Phoenix", "2024-07-15 12:00", "2024-07-15T19:00:00.000Z"],
    ["Australia/Lord_Howe", "2024-07-15 12:00", "2024-07-15T01:30:00.000Z"],
    ["Australia/Lord_Howe", "2024-12-15 12:00", "2024-12-15T01:00:00.000Z"],
    ["Pacific/Kiritimati", "2024-07-15 12:00", "2024-07-14T22:00:00.000Z"],
  ])("%s: %s is %s", (zone, text, expected) => {
    expect(shown(read(text, "iso", zoneTable(zone)))).toBe(expected);
  });

  test("a wall time that is passed twice is the first one, one that is skipped runs on from before", () => {
    expect(shown(read("2024-10-27 02:30", "iso", zoneTable("Europe/Berlin")))).toBe(
      "2024-10-27T00:30:00.000Z",
    );
    expect(shown(read("2024-03-31 02:30", "iso", zoneTable("Europe/Berlin")))).toBe(
      "2024-03-31T01:30:00.000Z",
    );
    expect(shown(read("2024-11-03 01:30", "iso", zoneTable("America/New_York")))).toBe(
      "2024-11-03T05:30:00.000Z",
    );
  });

  test("a stated zone does not ask the plant's", () => {
    expect(shown(read("2024-07-15T12:00:00Z", "iso", zoneTable("Europe/Berlin")))).toBe(
      "2024-07-15T12:00:00.000Z",
    );
  });

  test.each([
    "Europe/Berlin",
    "America/New_York",
    "Australia/Lord_Howe",
    "America/Sao_Paulo",
    "Africa/Casablanca",
    "Asia/Kathmandu",
  ])("%s: every instant is found again from the wall time that the platform shows for it", (name) => {
    const zone = zoneTable(name);
    const format = new Intl.DateTimeFormat("sv-SE", {
      timeZone: name,
      dateStyle: "short",
      timeStyle: "medium",
    });
    const quarter = 900_000;
    const span = { min: Date.UTC(1990, 0, 1) / quarter, max: Date.UTC(2035, 0, 1) / quarter };
    fc.assert(
      fc.property(fc.integer(span), (step) => {
        const instant = step * quarter;
        const wall = format.format(instant);
        const found = read(wall, "iso", zone);
        // The same wall time is shown at both instants only when the clock was put back between them.
        expect(format.format(found)).toBe(wall);
        expect(found).toBeLessThanOrEqual(instant);
        expect(instant - found).toBeLessThanOrEqual(3 * 3_600_000);
      }),
      { numRuns: runs(1_500) },
    );
  });

  test("a zone that is not known is a broken argument", () => {
    expect(() => zoneTable("Mars/Olympus")).toThrow(InvalidInput);
  });
});
