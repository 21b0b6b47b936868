import { describe, expect, test } from "vitest";
import {
  counted,
  fixed,
  fixedAtLeast,
  measured,
  percent,
  placesOf,
  placesWritten,
  toleranceWords,
  whole,
  withUnit,
} from "../../../lib/format/numbers";

describe("decimals", () => {
  test.each([
    [0.001, 3],
    [0.0005, 4],
    [0.005, 3],
    [0.01, 2],
    [0.25, 2],
    [1, 0],
    [5, 0],
    [0.0001, 4],
    [1e-7, 7],
    [null, 3],
  ])("a resolution of %s needs %i", (resolution, places) => {
    expect(placesOf(resolution)).toBe(places);
  });

  test("a resolution that no decimal shows exactly stops at eight", () => {
    expect(placesOf(1 / 3)).toBe(8);
  });

  test("a resolution is above 0", () => {
    expect(() => placesOf(0)).toThrow("resolution");
    expect(() => placesOf(Number.NaN)).toThrow("resolution");
  });

  test("what a drawing states keeps all its decimals", () => {
    expect(placesWritten(12.35)).toBe(2);
    expect(placesWritten(0.1 + 0.2)).toBe(1);
    expect(placesWritten(40)).toBe(0);
  });
});

describe("figures", () => {
  test("are rounded once and keep their last zero", () => {
    expect(measured(12.3456, { resolution: 0.001 })).toBe("12.346");
    expect(measured(12.3, { resolution: 0.001, extra: 1 })).toBe("12.3000");
  });

  test("have a minus as wide as a plus, and none when they round to zero", () => {
    expect(fixed(-0.021, 3)).toBe("\u22120.021");
    expect(fixed(0.021, 3, { signed: true })).toBe("+0.021");
    expect(fixed(-0.0001, 3)).toBe("0.000");
    expect(fixed(0.0001, 3, { signed: true })).toBe("0.000");
  });

  test("must be finite", () => {
    expect(() => fixed(Number.NaN, 2)).toThrow("value");
  });

  test("a lower bound is rounded down", () => {
    expect(fixedAtLeast(1.329, 2)).toBe("1.32");
    expect(fixedAtLeast(1.33, 2)).toBe("1.33");
    // 0.29 · 100 is 28.999999999999996 in double precision, and still 29 hundredths.
    expect(fixedAtLeast(0.29, 2)).toBe("0.29");
    expect(fixedAtLeast(-0.211, 2)).toBe("\u22120.22");
  });

  test("carry their unit", () => {
    expect(withUnit("12.5", "mm")).toBe("12.5\u00a0mm");
    expect(withUnit("12.5", "deg")).toBe("12.5°");
    expect(withUnit("12.5", "none")).toBe("12.5");
  });
});

describe("tolerances in words", () => {
  const mm = { resolution: 0.01, unit: "mm" };

  test("on both sides, on one, on none", () => {
    expect(toleranceWords({ lower: 44.95, upper: 45.05 }, mm)).toBe("44.95 to 45.05\u00a0mm");
    expect(toleranceWords({ lower: null, upper: 0.05 }, mm)).toBe("at most 0.05\u00a0mm");
    expect(toleranceWords({ lower: 12, upper: null }, mm)).toBe("at least 12.00\u00a0mm");
    expect(toleranceWords({ lower: null, upper: null }, mm)).toBe("no tolerance");
  });

  test("never rounded to the gauge's resolution", () => {
    expect(toleranceWords({ lower: 44.9505, upper: 45 }, mm)).toBe("44.9505 to 45.0000\u00a0mm");
  });
});

test("shares", () => {
  expect(percent(0.14)).toBe("14\u00a0%");
  expect(percent(0.042)).toBe("4.2\u00a0%");
  expect(percent(0)).toBe("0\u00a0%");
});

test("counts", () => {
  expect(counted(1, "piece")).toBe("1 piece");
  expect(counted(0, "piece")).toBe("0 pieces");
  expect(counted(2, "entry", "entries")).toBe("2 entries");
  expect(whole(9999)).toBe("9999");
  expect(whole(1_234_567)).toBe("1,234,567");
});
