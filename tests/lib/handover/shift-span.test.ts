import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shiftAt, shiftsBetween } from "../../../lib/handover/shift-span";
import { runs } from "../../laws";

const HOUR = 3_600_000;
const ZONE = "Europe/Berlin";
const THREE = [
  { name: "early", starts: "06:00", ends: "14:00" },
  { name: "late", starts: "14:00", ends: "22:00" },
  { name: "night", starts: "22:00", ends: "06:00" },
];
const settings = { shifts: THREE, zone: ZONE };

describe("by hand: Berlin lies an hour east of UTC in winter, two in summer", () => {
  test("a night shift belongs to the day on which it began", () => {
    // Monday 16 November 2026, 02:40 on the wall.
    expect(shiftAt(Date.UTC(2026, 10, 16, 1, 40), settings)).toEqual({
      name: "night",
      from: Date.UTC(2026, 10, 15, 21),
      to: Date.UTC(2026, 10, 16, 5),
    });
  });

  test("the moment of change belongs to the shift that begins", () => {
    expect(shiftAt(Date.UTC(2026, 10, 16, 5), settings)?.name).toBe("early");
    expect(shiftAt(Date.UTC(2026, 10, 16, 5) - 1, settings)?.name).toBe("night");
  });

  // The changes of 2026 in the European Union: directive 2000/84/EC, last Sundays of March and October at 01:00 UTC.
  test("the night of 28 to 29 March 2026 has seven hours, that of 24 to 25 October nine", () => {
    const spring = shiftAt(Date.UTC(2026, 2, 29, 2), settings)!;
    expect(spring).toEqual({ name: "night", from: Date.UTC(2026, 2, 28, 21), to: Date.UTC(2026, 2, 29, 4) });
    expect((spring.to - spring.from) / HOUR).toBe(7);
    const autumn = shiftAt(Date.UTC(2026, 9, 25, 2), settings)!;
    expect(autumn).toEqual({ name: "night", from: Date.UTC(2026, 9, 24, 20), to: Date.UTC(2026, 9, 25, 5) });
    expect((autumn.to - autumn.from) / HOUR).toBe(9);
  });

  test("in a gap the last shift that ended is the one to hand over", () => {
    const twoShifts = { shifts: THREE.slice(0, 2), zone: ZONE };
    expect(shiftAt(Date.UTC(2026, 10, 16, 1, 40), twoShifts)).toMatchObject({
      name: "late",
      to: Date.UTC(2026, 10, 15, 21),
    });
    expect(shiftAt(0, { shifts: [], zone: ZONE })).toBeNull();
  });

  test("one shift around the clock, and a zone half an hour off", () => {
    const whole = { shifts: [{ name: "day", starts: "05:30", ends: "05:30" }], zone: "Asia/Kolkata" };
    // India lies 5:30 east of UTC, so its 05:30 is midnight UTC.
    expect(shiftAt(Date.UTC(2026, 5, 1, 12), whole)).toEqual({
      name: "day",
      from: Date.UTC(2026, 5, 1),
      to: Date.UTC(2026, 5, 2),
    });
  });
});

test("law: three shifts cover every moment of a year once, whatever the clocks do", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: Date.UTC(2026, 0, 1), max: Date.UTC(2027, 0, 1) }),
      fc.constantFrom("Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "UTC"),
      (at, zone) => {
        const there = shiftsBetween({ from: at, to: at + 1, shifts: THREE, zone });
        expect(there).toHaveLength(1);
        expect(there[0]!.from).toBeLessThanOrEqual(at);
        expect(there[0]!.to).toBeGreaterThan(at);
      },
    ),
    { numRuns: runs(300) },
  );
});

test("edge: a wall time or a zone that is none is refused by name", () => {
  const shifts = [{ name: "odd", starts: "24:00", ends: "06:00" }];
  expect(() => shiftsBetween({ from: 0, to: 1, shifts, zone: ZONE })).toThrow(/06:00/);
  expect(() => shiftsBetween({ from: 0, to: 1, shifts: THREE, zone: "Nowhere/At_All" })).toThrow(/time zone/);
});
