import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { DecimalMark } from "../../../lib/intake/mapping";
import { decimalFault, readDecimal, type Scale } from "../../../lib/intake/numbers";
import { readUnit, scaleBetween } from "../../../lib/intake/units";
import { runs } from "../../laws";

function read(text: string, mark: DecimalMark = ".", scale: Scale | null = null): number {
  const bytes = new TextEncoder().encode(`x${text}9`);
  return readDecimal(bytes, 1, bytes.length - 1, mark, scale);
}

describe("decimal numbers", () => {
  test.each([
    ["0", 0],
    ["104.7956", 104.7956],
    ["-0.0025", -0.0025],
    ["+3.5", 3.5],
    [".5", 0.5],
    ["5.", 5],
    ["007.50", 7.5],
    ["1e3", 1000],
    ["2.5E-3", 0.0025],
    ["123456789012345678901234567890", 1.2345678901234568e29],
    ["0.1000000000000000055511151231257827", 0.1],
    ["9007199254740993", 9007199254740992],
    ["1e-400", 0],
  ])("%s", (text, expected) => {
    expect(read(text)).toBe(expected);
  });

  test.each([
    "",
    "-",
    ".",
    "e3",
    "1e",
    "1e+",
    "1,234",
    "1 234",
    "0x1F",
    "Infinity",
    "NaN",
    "∞",
    "#N/A",
    "=A1",
    "1.2.3",
    "12.7 mm",
    "1e999",
    "--1",
    "1-",
    "１",
  ])("not a number: %j", (text) => {
    expect(read(text)).toBeNaN();
  });

  test("the double nearest to the text, as the platform parses it", () => {
    // Number() is required to round correctly up to 20 digits and does so beyond (ECMA-262, StringToNumber).
    const digits = fc.string({ unit: fc.constantFrom(..."0123456789"), minLength: 1, maxLength: 24 });
    const power = fc.option(fc.integer({ min: -330, max: 310 }));
    fc.assert(
      fc.property(
        fc.constantFrom("", "-"),
        digits,
        fc.option(digits),
        power,
        (sign, whole, part, exponent) => {
          const text = `${sign}${whole}${part === null ? "" : `.${part}`}${exponent === null ? "" : `e${exponent}`}`;
          const expected = Number(text);
          if (Number.isFinite(expected)) {
            expect(read(text)).toBe(expected);
            expect(read(text.replace(".", ","), ",")).toBe(expected);
          } else {
            expect(read(text)).toBeNaN();
          }
        },
      ),
      { numRuns: runs(5_000) },
    );
  });

  test("every double survives being written and read", () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (number) => {
        // -0 is written as 0.
        expect(read(String(number))).toBe(number + 0);
      }),
      { numRuns: runs(5_000) },
    );
  });

  test("decimal commas only when the mapping says so", () => {
    expect(read("12,5", ",")).toBe(12.5);
    expect(read("12,5", ".")).toBeNaN();
    expect(read("12.5", ",")).toBeNaN();
  });
});

describe("the sentence for what is not a number", () => {
  test.each([
    ["", "empty"],
    ["1,234", "decimal mark of this mapping is “.”"],
    ["1,234.5", "write it as 1234.5 if “,” separates thousands"],
    ["1.234,50", "Change the decimal mark, and write the digits without"],
    ["1e60", "larger than anything that can be measured"],
    ["1 234", "thousands"],
    ["1'234.5", "thousands"],
    ["=A1*2", "formula"],
    ["#N/A", "error value"],
    ["0x1F", "hexadecimal"],
    ["Infinity", "finite"],
    ["nan", "finite"],
    ["\u22120.5", "typographic minus"],
    ["12.7 mm", "text after the number"],
    ["1e999", "larger"],
    ["good", "“good” is not a number"],
  ])("%j: %s", (text, words) => {
    expect(decimalFault(text, ".")).toContain(words);
  });

  test("no thousands are suggested where the digits are not in threes", () => {
    expect(decimalFault("10,01", ".")).toContain("decimal mark of this mapping is “.”");
    expect(decimalFault("10,01", ".")).not.toContain("1001");
  });

  test("a long text is cut", () => {
    expect(decimalFault("x".repeat(5_000), ".").length).toBeLessThan(120);
  });
});

describe("units", () => {
  test.each([
    ["mm", "mm"],
    ["MM", "mm"],
    ["Inch", "in"],
    ["in.", "in"],
    ['"', "in"],
    ["″", "in"],
    ["°", "deg"],
    ["Degrees", "deg"],
    ["µm", "µm"],
    ["μm", "µm"],
    ["um", "µm"],
  ])("%s is %s", (text, expected) => {
    expect(readUnit(text)).toBe(expected);
  });

  test.each(["cm", "m", "", "mil", "grad", "rad", "mm2", "constructor", "__proto__"])(
    "%j is not known",
    (text) => {
      expect(readUnit(text)).toBeNull();
    },
  );

  test("one inch is 25.4 mm exactly (international yard and pound agreement, 1959; from memory)", () => {
    const toMm = scaleBetween({ from: "in", to: "mm" });
    const toInch = scaleBetween({ from: "mm", to: "in" });
    const micro = scaleBetween({ from: "µm", to: "mm" });
    if (toMm === "none" || toInch === "none" || micro === "none") throw new Error("lengths convert");
    // By hand; a plain product of doubles gives 2.5399999999999996 for the first.
    expect(read("0.1", ".", toMm)).toBe(2.54);
    expect(read("0.0005", ".", toMm)).toBe(0.0127);
    expect(read("25.4", ".", toInch)).toBe(1);
    expect(read("12.7", ".", toInch)).toBe(0.5);
    expect(read("12.3", ".", micro)).toBe(0.0123);
    expect(scaleBetween({ from: "deg", to: "mm" })).toBe("none");
  });

  test("a conversion is the exact product, rounded once", () => {
    const toMm = { times: 254, over: 1, shift: -1 };
    fc.assert(
      fc.property(
        fc.bigInt({ min: 0n, max: 10n ** 18n }),
        fc.integer({ min: 0, max: 20 }),
        (digits, places) => {
          const text = digits.toString().padStart(places + 1, "0");
          const written = places === 0 ? text : `${text.slice(0, -places)}.${text.slice(-places)}`;
          // The product in whole numbers; Number() rounds the decimal once.
          expect(read(written, ".", toMm)).toBe(Number(`${digits * 254n}e${-1 - places}`));
        },
      ),
      { numRuns: runs(2_000) },
    );
  });
});
