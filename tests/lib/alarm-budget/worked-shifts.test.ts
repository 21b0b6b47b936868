import { describe, expect, test } from "vitest";
import { workedShifts } from "../../../lib/alarm-budget/worked-shifts";

const THREE = [
  { starts: "06:00", ends: "14:00" },
  { starts: "14:00", ends: "22:00" },
  { starts: "22:00", ends: "06:00" },
];

describe("shifts in which something was measured", () => {
  test("by hand: the two halves of one night are one shift, and the next night is another", () => {
    const moments = [
      Date.UTC(2026, 2, 3, 23), // Night of the 3rd, before midnight.
      Date.UTC(2026, 2, 4, 5, 45), // The same night, after it.
      Date.UTC(2026, 2, 4, 6), // Early on the 4th.
      Date.UTC(2026, 2, 4, 13, 59), // The same.
      Date.UTC(2026, 2, 4, 22), // Night of the 4th.
    ];
    expect(workedShifts({ moments, shifts: THREE, zone: "UTC" })).toEqual({
      count: 3,
      hours: 24,
      shiftHours: 8,
    });
  });

  test("by hand: shifts are counted on the plant's clock", () => {
    // 05:30 UTC is 06:30 in Berlin in winter: the early shift; 04:30 UTC still belongs to the night.
    const moments = [Date.UTC(2026, 0, 13, 5, 30), Date.UTC(2026, 0, 13, 4, 30)];
    const count = (zone: string) => workedShifts({ moments, shifts: THREE, zone }).count;
    expect(count("Europe/Berlin")).toBe(2);
    expect(count("UTC")).toBe(1);
  });

  test("edge: the night in which clocks go forward is one shift from both its sides", () => {
    // Berlin, 29 March 2026: 02:00 becomes 03:00, which is 01:00 UTC.
    const moments = [21, 22, 23, 24, 25, 26, 27].map((hour) => Date.UTC(2026, 2, 28, hour));
    expect(workedShifts({ moments, shifts: THREE, zone: "Europe/Berlin" }).count).toBe(1);
  });

  test("law: neither order nor repetition counts, and shifts of a plan may differ in length", () => {
    const shifts = [
      { starts: "07:00", ends: "17:00" },
      { starts: "17:00", ends: "23:00" },
    ];
    const moments = [8, 18, 8, 9].map((hour) => Date.UTC(2026, 2, 3, hour));
    const worked = workedShifts({ moments, shifts, zone: "UTC" });
    expect(worked).toEqual({ count: 2, hours: 16, shiftHours: 8 });
    expect(workedShifts({ moments: moments.toReversed(), shifts, zone: "UTC" })).toEqual(worked);
  });

  test("edge: what lies outside every shift counts none, and a shift may last all day", () => {
    const at = [Date.UTC(2026, 2, 3, 5)];
    const day = [{ starts: "06:00", ends: "14:00" }];
    expect(workedShifts({ moments: at, shifts: day, zone: "UTC" })).toEqual({
      count: 0,
      hours: 0,
      shiftHours: 8,
    });
    const always = [{ starts: "06:00", ends: "06:00" }];
    expect(workedShifts({ moments: at, shifts: always, zone: "UTC" }).hours).toBe(24);
  });

  test.each([
    ["shifts.length", []],
    ["shifts[0].starts", [{ starts: "24:00", ends: "06:00" }]],
    ["shifts[0].ends", [{ starts: "22:00", ends: "six" }]],
  ])("refused: %s", (field, shifts) => {
    expect(() => workedShifts({ moments: [0], shifts, zone: "UTC" })).toThrow(
      expect.objectContaining({ name: "InvalidInput", field }),
    );
  });
});
