import fc from "fast-check";
import { afterEach, describe, expect, test } from "vitest";
import { csvText } from "../../../lib/format/csv";
import {
  DECIMAL_MARKS,
  GROUPINGS,
  type Marks,
  marksFor,
  numberWritten,
  USUAL_MARKS,
  withMarks,
  writeMarksOf,
} from "../../../lib/format/marks";
import { fixed, percent, toleranceWords, whole } from "../../../lib/format/numbers";
import { inField, typedNumber } from "../../../lib/format/typed-number";
import { memoryChartWords } from "../../../lib/plan/memory-chart";
import { memoryRunLengthWords } from "../../../lib/run-length/memory-chart";

afterEach(() => writeMarksOf(() => USUAL_MARKS));

const THIN = "\u202f";

test("figures of a chart with a memory carry the plant's marks, too", () => {
  writeMarksOf(() => ({ decimal: ",", group: "" }));
  const chart = { kind: "cusum", reference: 0.5, decisionInterval: 5, headStart: 2.5 } as const;
  expect(memoryChartWords(chart)).toBe("CUSUM, k = 0,5, h = 5, head start 2,5");
  expect(memoryRunLengthWords(chart)).toContain("a shift of 0,5 sigma");
  expect(memoryChartWords({ kind: "ewma", smoothing: 0.2, width: 2.962 })).toBe("EWMA, λ = 0,2, L = 2,962");
});

describe("marks of a plant", () => {
  test.each([
    ["language", "language", "en", ".", ","],
    ["language", "language", "de", ",", THIN],
    ["point", "none", "de", ".", ""],
    ["comma", "mark", "en", ",", "."],
    ["point", "mark", "de", ".", ","],
    ["comma", "space", "en", ",", THIN],
  ] as const)("decimals by %s, groups by %s, in %s", (decimal, grouping, language, point, group) => {
    expect(marksFor({ decimal, grouping, language })).toEqual({ decimal: point, group });
  });

  test("law: the mark of decimals never parts groups", () => {
    for (const decimal of DECIMAL_MARKS)
      for (const grouping of GROUPINGS)
        for (const language of ["en", "de"]) {
          const marks = marksFor({ decimal, grouping, language });
          expect(marks.group).not.toBe(marks.decimal);
        }
  });
});

describe("a figure", () => {
  const comma: Marks = { decimal: ",", group: THIN };

  test.each([
    ["25.003", "25,003"],
    ["1234.5", "1234,5"],
    ["12345.678", `12${THIN}345,678`],
    ["1234567", `1${THIN}234${THIN}567`],
    ["\u22120.021", "\u22120,021"],
    ["+0.5", "+0,5"],
    ["1.2e-9", "1,2e-9"],
    ["L-0231", "L-0231"],
    ["", ""],
  ])("%s becomes %s", (plain, written) => {
    expect(withMarks(plain, comma)).toBe(written);
  });

  test("parts no decimals, only whole digits", () => {
    expect(withMarks("0.1234567", { decimal: ".", group: "," })).toBe("0.1234567");
  });

  test("law: read back it is the same number, with any marks", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        fc.constantFrom(...DECIMAL_MARKS),
        fc.constantFrom(...GROUPINGS),
        (value, places, decimal, grouping) => {
          const marks = marksFor({ decimal, grouping, language: "en" });
          writeMarksOf(() => marks);
          const isParted = marks.group !== "" && Math.abs(Number(value.toFixed(places))) >= 10_000;
          expect(numberWritten(fixed(value, places))).toBe(
            isParted ? null : Number(value.toFixed(places)) + 0,
          );
        },
      ),
    );
  });

  test("what is no figure with these marks is not read as one", () => {
    for (const text of ["25.003", "12,345,6", "FX-2", "", "1 234,5", `12${THIN}345`, "0x10", "1e5"])
      expect(numberWritten(text, comma)).toBeNull();
  });
});

describe("with the marks of a plant in force", () => {
  test("every figure of a sentence has them, and a file none", () => {
    writeMarksOf(() => ({ decimal: ",", group: "." }));
    expect(fixed(25.0034, 3)).toBe("25,003");
    expect(percent(0.0123)).toBe("1,2\u00a0%");
    expect(whole(12_500)).toBe("12.500");
    expect(toleranceWords({ lower: 24.98, upper: 25.02 }, { resolution: 0.001, unit: "mm" })).toBe(
      "24,980 to 25,020\u00a0mm",
    );
    expect(csvText([[25.0034]])).toBe("\ufeff25.0034\r\n");
  });
});

describe("what is typed", () => {
  test("means the same whatever marks the plant shows: one mark is that of the decimals", () => {
    for (const marks of [USUAL_MARKS, { decimal: ",", group: "." } as const]) {
      writeMarksOf(() => marks);
      expect(typedNumber("1.234")).toBe(1.234);
      expect(typedNumber("1,234")).toBe(1.234);
    }
  });

  test("law: what a field offers is read as the same number, and means no other one", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e9, max: 1e9, noNaN: true }),
        fc.constantFrom(...DECIMAL_MARKS),
        fc.constantFrom(...GROUPINGS),
        (value, decimal, grouping) => {
          writeMarksOf(() => marksFor({ decimal, grouping, language: "de" }));
          // A field takes exponents of two digits; smaller numbers no gauge gives.
          const entered = Number(value.toPrecision(12));
          if (Math.abs(entered) < 1e-6) return;
          expect(typedNumber(inField(entered))).toBe(entered);
        },
      ),
    );
  });

  test("is refused where it could mean two things, a copied figure with groups among them", () => {
    for (const text of ["1,234.5", "1.234,5", "1.234.567", `12${THIN}345`, "12 345"])
      expect(typedNumber(text)).toBeUndefined();
  });
});
