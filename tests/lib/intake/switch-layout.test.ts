import { describe, expect, test } from "vitest";
import { suggestMapping } from "../../../lib/intake/suggest-mapping";
import { freeColumns, toLongLayout, toWideLayout } from "../../../lib/intake/switch-layout";

/** One measurement a row under headers that no shop's word list holds, but for the reading. */
const LONG = {
  header: ["Item", "Serial no", "What was measured", "Reading", "Read in", "Warmth C"],
  rows: [
    ["H-210", "0237-01", "Input bore diameter", "62.008", "mm", "20.4"],
    ["H-210", "0237-01", "Output bore diameter", "80.018", "mm", "20.4"],
    ["H-210", "0237-02", "Input bore diameter", "62.011", "mm", "20.5"],
  ],
};

describe("from one piece a row to one measurement a row", () => {
  const suggested = suggestMapping(LONG.header, LONG.rows).mapping;
  const long = toLongLayout(suggested, LONG);

  test("takes the value columns away and guesses which column holds the value and which names the feature", () => {
    expect(suggested.layout).toBe("wide");
    expect(long.valueColumns).toEqual([]);
    expect(long.columns.value).toEqual({ column: "Reading" });
    expect(long.columns.feature).toEqual({ column: "What was measured" });
  });

  test("keeps what was chosen before", () => {
    expect(long.piece).toEqual(suggested.piece);
    expect({ ...long.columns, value: null, feature: null }).toEqual(suggested.columns);
  });

  test("without a header that means a value, the column with the most different numbers is one", () => {
    const file = {
      header: ["what", "warmth", "result of gauge"],
      rows: [
        ["bore", "20.4", "1.01"],
        ["slot", "20.4", "1.02"],
      ],
    };
    const wide = suggestMapping(file.header, file.rows).mapping;
    expect(toLongLayout(wide, file).columns.value).toEqual({ column: "result of gauge" });
  });

  test("leaves open what the file does not show", () => {
    const file = { header: ["a", "b"], rows: [["1", "2"]] };
    const wide = suggestMapping(file.header, file.rows).mapping;
    expect(toLongLayout(wide, file).columns.feature).toBeNull();
  });

  test("changes nothing when it is that already", () => {
    expect(toLongLayout(long, LONG)).toBe(long);
  });
});

describe("from one measurement a row to one piece a row", () => {
  test("columns of numbers that nothing else uses become features; what belongs to one value goes", () => {
    const file = {
      header: ["serial", "no", "bore", "slot", "note"],
      rows: [["1", "1", "5,01", "3,2", "ok"]],
    };
    const suggested = suggestMapping(file.header, file.rows).mapping;
    const wide = toWideLayout(toLongLayout(suggested, file), file);
    expect(wide.valueColumns.map(({ column, feature }) => [column, feature])).toEqual([
      ["bore", "bore"],
      ["slot", "slot"],
    ]);
    expect([wide.columns.feature, wide.columns.value, wide.columns.nominal]).toEqual([null, null, null]);
    expect(freeColumns(wide, file.header)).toEqual(["no", "bore", "slot", "note"]);
  });
});
