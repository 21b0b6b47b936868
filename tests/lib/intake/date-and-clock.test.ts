import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import type { DateFormat } from "../../../lib/intake/mapping";
import { RowGuess } from "../../../lib/intake/row-guess";
import { runs } from "../../laws";
import { take, takeCells } from "./tidy-file";

const HEADER = "taken_at,clock,feature,value";
const TWO = { timeOfDay: "clock" };

function takeMoment(date: string, clock: string, dateFormat: DateFormat) {
  const { rows, refusals } = take([HEADER, `"${date}","${clock}",a,1`], { ...TWO, dateFormat });
  return refusals[0]?.reason ?? new Date(rows[0]?.takenAt ?? Number.NaN).toISOString();
}

describe("date and time of day in two columns make one moment", () => {
  // Each is a quarter past two in the afternoon of 31 January 2024 in UTC, written as shops and programs write it.
  test.each([
    ["2024-01-31", "14:15", "iso"],
    ["20240131", "141500", "iso"],
    ["2024-01-31", "14:15:00.000", "iso"],
    ["2024-01-31", "15:15+01:00", "iso"],
    ["2024-01-31T00:00:00.000", "1899-12-30T14:15:00.000", "iso"],
    ["2024-01-31 00:00", "14:15", "iso"],
    [" 31.01.2024 ", " 14:15:00 ", "day-first"],
    ["31.1.24", "2:15 pm", "day-first"],
    ["31.01.2024 00:00:00", "14:15", "day-first"],
    ["1/31/2024", "2:15 PM", "month-first"],
    ["1/31/2024 12:00:00 AM", "14:15", "month-first"],
    // 45,322 days after 1899-12-30; 14.25 hours of 24 are 0.59375 of a day.
    ["45322", "0.59375", "serial"],
    ["45322.0", "14:15", "serial"],
    ["2024-01-31", "0.59375", "serial"],
  ] as const)("%j and %j as %s", (date, clock, dateFormat) => {
    expect(takeMoment(date, clock, dateFormat)).toBe("2024-01-31T14:15:00.000Z");
  });

  test("with the decimal comma of the file", () => {
    const { rows } = take([HEADER.replaceAll(",", ";"), "45322;0,59375;a;1,5"], {
      ...TWO,
      dateFormat: "serial",
      decimal: ",",
      separator: ";",
    });
    expect(rows[0]?.takenAt).toBe(Date.UTC(2024, 0, 31, 14, 15));
  });

  test("from cells of a spreadsheet, where a time is a moment of its day 0", () => {
    const { rows } = takeCells(
      [
        HEADER.split(","),
        [new Date("2024-01-31T00:00:00Z"), new Date("1899-12-30T14:15:00Z"), "a", 1],
        [new Date("2024-01-31T00:00:00Z"), "2:15 PM", "a", 2],
      ],
      { ...TWO, dateFormat: "month-first" },
    );
    expect(rows.map(({ takenAt }) => takenAt)).toEqual(Array(2).fill(Date.UTC(2024, 0, 31, 14, 15)));
  });

  test("law: as one column that holds both with a space between", () => {
    const parts = fc.record({
      date: fc.constantFrom(
        "2024-01-31",
        "2024-02-29",
        "2023-02-29",
        "31.01.2024",
        "1/2/24",
        "20240131",
        "",
        "x",
      ),
      clock: fc.constantFrom(
        "14:05",
        "2:05 PM",
        "00:00",
        "24:00",
        "1405",
        "14:05:59.5",
        "14:05Z",
        "14",
        "",
        "y",
      ),
      dateFormat: fc.constantFrom("iso", "day-first", "month-first", "serial"),
    });
    fc.assert(
      fc.property(parts, ({ date, clock, dateFormat }) => {
        const one = take(["taken_at,feature,value", `"${date} ${clock}",a,1`], { dateFormat });
        const two = take([HEADER, `"${date}","${clock}",a,1`], { ...TWO, dateFormat });
        // A date alone is a moment in one column; in two the time of day must be there.
        const expected = clock === "" ? [] : one.rows.map(({ takenAt }) => takenAt);
        expect(two.rows.map(({ takenAt }) => takenAt)).toEqual(expected);
        expect(two.refusals).toHaveLength(1 - expected.length);
      }),
      { numRuns: runs(80) },
    );
  });

  test("rows that repeat what rows before them said are still guessed", () => {
    const tried = vi.spyOn(RowGuess.prototype, "take");
    const lines = Array.from({ length: 40 }, (_, i) => `2024-01-31,14:1${i % 10 < 5 ? 5 : 6},f${i % 4},${i}`);
    const { rows } = take([HEADER, ...lines], TWO);
    expect(tried.mock.calls.length).toBeGreaterThan(10);
    tried.mockRestore();
    expect(rows.map(({ takenAt }) => takenAt)).toEqual(
      lines.map((_, i) => Date.UTC(2024, 0, 31, 14, i % 10 < 5 ? 15 : 16)),
    );
  });
});

describe("a row without a moment is refused and told which half is at fault", () => {
  test.each([
    ["", "14:15", "iso", /^The date is empty/],
    ["2024-01-31", "", "iso", /^The time of day is empty/],
    ["31.01.2024", "14:15", "iso", /day first or month first/],
    ["45322", "14:15", "iso", /serial date of a spreadsheet/],
    ["soon", "14:15", "day-first", /^“soon” is not a date .* like 31\.01\.2024/],
    ["2024-01-31", "soon", "iso", /^“soon” is not a time of day/],
    ["2024-01-31", "25:00", "iso", /^“25:00” is not a time of day/],
    ["2024-01-31", "0.59375", "iso", /^“0\.59375” is not a time of day/],
    ["2024-01-31", "#N/A", "iso", /error value of a spreadsheet/],
    ["2024-01-31 06:00", "14:15", "iso", /^“2024-01-31 06:00” holds more than a date/],
    ["45322.5", "14:15", "serial", /^“45322\.5” holds more than a date/],
    ["2024-01-31", "2024-01-31 14:15", "iso", /is not a time of day/],
  ] as const)("%j and %j as %s", (date, clock, dateFormat, reason) => {
    expect(takeMoment(date, clock, dateFormat)).toMatch(reason);
  });
});
