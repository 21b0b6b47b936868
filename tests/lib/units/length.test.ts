import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { measured, placesOf, toleranceWords, unitName } from "../../../lib/format/numbers";
import { inShownUnit, lengthIn, MM_PER_INCH, resolutionIn, shownUnit } from "../../../lib/units/length";

describe("published: one inch is 25.4 mm exactly (NIST SP 811, appendix B; from memory)", () => {
  test("both ways", () => {
    expect(MM_PER_INCH).toBe(25.4);
    expect(lengthIn(1, "in", "mm")).toBe(25.4);
    expect(lengthIn(25.4, "mm", "in")).toBe(1);
  });

  // Decimal equivalents of fractions of an inch, as machinists' tables print them in mm (from memory; by hand: 25.4/64 …).
  test.each([
    [1 / 64, 0.396875],
    [1 / 16, 1.5875],
    [3 / 8, 9.525],
    [1, 25.4],
    [0.001, 0.0254],
    [39.37, 999.998],
  ])("%s in are %s mm", (inches, mm) => {
    expect(lengthIn(inches, "in", "mm")).toBeCloseTo(mm, 12);
    expect(lengthIn(mm, "mm", "in")).toBeCloseTo(inches, 12);
  });
});

describe("what is converted", () => {
  test("lengths, where the plant asks for it", () => {
    expect(shownUnit("mm", "in")).toBe("in");
    expect(shownUnit("in", "mm")).toBe("mm");
    expect(shownUnit("mm", "plan")).toBe("mm");
    expect(shownUnit("in", "in")).toBe("in");
  });

  test("never an angle, a count, a ratio or a coefficient of expansion", () => {
    for (const unit of ["deg", "none", "ratio", "um/m/K"]) {
      expect(shownUnit(unit, "in")).toBe(unit);
      expect(lengthIn(12.3, unit, shownUnit(unit, "in"))).toBe(12.3);
    }
  });

  test("nothing stays nothing", () => {
    expect(inShownUnit("mm", "in").length(null)).toBeNull();
    expect(inShownUnit("mm", "in").length(50.8)).toBe(2);
  });
});

describe("the step to which it is rounded", () => {
  // By hand: 0.001/25.4 = 3.9e-5, 0.01/25.4 = 3.9e-4, 0.0005/25.4 = 1.97e-5; 0.0001 · 25.4 = 0.00254, 0.0005 · 25.4 = 0.0127.
  test.each([
    [0.001, "mm", "in", 1e-5],
    [0.01, "mm", "in", 1e-4],
    [0.0005, "mm", "in", 1e-5],
    [0.0001, "mm", "in", 1e-6],
    [25.4, "mm", "in", 1],
    [0.0001, "in", "mm", 1e-3],
    [0.0005, "in", "mm", 1e-2],
    [0.001, "in", "mm", 1e-2],
    [0.0005, "mm", "mm", 0.0005],
    [0.0005, "deg", "deg", 0.0005],
  ])("%s %s are shown in %s to %s", (resolution, from, to, step) => {
    expect(resolutionIn(resolution, from, to)).toBeCloseTo(step, 15);
  });

  test("a step is above 0", () => {
    expect(() => resolutionIn(0, "mm", "in")).toThrow("resolution");
  });

  const gauges = fc.constantFrom(0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.05, 0.1);
  const units = fc.constantFrom<["mm", "in"] | ["in", "mm"]>(["mm", "in"], ["in", "mm"]);
  // As a page shows a reading: converted, rounded to the step, written.
  const shown = (steps: number, resolution: number, [from, to]: readonly ["mm" | "in", "mm" | "in"]) =>
    measured(lengthIn(steps * resolution, from, to), { resolution: resolutionIn(resolution, from, to) });
  const readBack = (text: string) => Number(text.replaceAll(",", "").replace("\u2212", "-"));

  test("law: what is shown lies within half a step of the gauge of what was measured", () => {
    fc.assert(
      fc.property(fc.integer({ min: -900_000, max: 900_000 }), gauges, units, (steps, resolution, unit) => {
        const back = lengthIn(readBack(shown(steps, resolution, unit)), unit[1], unit[0]);
        // A tie may be rounded either way, and a double of this size is off by less than a billionth.
        expect(Math.abs(back - steps * resolution)).toBeLessThan(resolution * (0.5 + 1e-6));
      }),
    );
  });

  test("law: neighbours that the gauge tells apart are shown as different", () => {
    fc.assert(
      fc.property(fc.integer({ min: -90_000, max: 90_000 }), gauges, units, (steps, resolution, unit) => {
        expect(shown(steps, resolution, unit)).not.toBe(shown(steps + 1, resolution, unit));
      }),
    );
  });

  test("law: one power of ten coarser would lose steps", () => {
    fc.assert(
      fc.property(gauges, units, (resolution, [from, to]) => {
        expect(10 * resolutionIn(resolution, from, to)).toBeGreaterThan(lengthIn(resolution, from, to));
      }),
    );
  });
});

test("a sentence names inches and degrees, whose signs would say something else", () => {
  expect(["mm", "in", "deg", "none"].map((unit) => unitName(unit))).toEqual(["mm", "inches", "degrees", ""]);
});

test("limits of a drawing in mm are said in inches to the gauge's step, not with all digits of the quotient", () => {
  // By hand: 25.02/25.4 = 0.9850394, 24.98/25.4 = 0.9834646.
  const { unit, length } = inShownUnit("mm", "in");
  const resolution = resolutionIn(0.001, "mm", "in");
  expect(placesOf(resolution)).toBe(5);
  expect(toleranceWords({ lower: length(24.98), upper: length(25.02) }, { resolution, unit })).toBe(
    "0.98346 to 0.98504\u00a0in",
  );
});
