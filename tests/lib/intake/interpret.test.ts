import { describe, expect, test } from "vitest";
import { emptyMapping } from "../../../lib/intake/mapping";
import { UnreadableFile } from "../../../lib/intake/unreadable-file";
import { zoneTable } from "../../../lib/intake/zone";
import { TIDY_HEADER, take, tidyMapping, tidyRow } from "./tidy-file";

function refusalOf(changes: Record<string, string>) {
  const { refusals, counts } = take([TIDY_HEADER, tidyRow(changes)]);
  expect(counts.refused).toBe(1);
  return refusals[0];
}

describe("a tidy row", () => {
  test("by hand: every column arrives", () => {
    const { rows, refusals, notices, counts, names } = take([TIDY_HEADER, tidyRow({})]);
    expect(refusals).toEqual([]);
    expect(notices).toEqual([]);
    expect(counts).toEqual({ rows: 1, accepted: 1, refused: 0, blankRows: 0, notices: 0 });
    expect(rows).toEqual([
      {
        line: 2,
        feature: {
          part: "P-01",
          feature: "F001",
          nominal: 104.81,
          lower: 104.51,
          upper: 105.11,
          unit: "mm",
          length: null,
          expansion: null,
          firstLine: 2,
        },
        value: 104.7956,
        takenAt: Date.UTC(2024, 0, 1, 6),
        partTemp: 21.1,
        inspected: null,
        piece: "S0000001",
        lot: "L1-00001",
        fixture: "FX-3",
        tool: "T-01",
        machine: "M-3",
        gauge: "G-1",
        operator: "O-1",
        setup: "",
        subgroup: "",
      },
    ]);
    expect(names.fixture).toEqual(["", "FX-3"]);
  });

  test("only feature and value are compulsory; what is absent is none, NaN or 0", () => {
    const { rows, batches } = take(["value,feature", "1.5,bore", ' 2.5 ," bore "']);
    expect(rows.map(({ value }) => value)).toEqual([1.5, 2.5]);
    expect(rows[1]).toMatchObject({
      takenAt: null,
      partTemp: null,
      piece: "",
      lot: "",
      feature: { feature: "bore", unit: null },
    });
    expect(batches[0]?.takenAt[0]).toBeNaN();
    expect(batches[0]?.piece[0]).toBe(0);
  });

  test("blank lines and rows of separators are left out, other short rows are refused", () => {
    const { counts, refusals } = take([
      "value,feature,lot",
      "1,a,x",
      "",
      ",,",
      " , ,",
      "2,b",
      "3,c,y,",
      "4,d,z,!",
    ]);
    expect(counts).toEqual({ rows: 4, accepted: 2, refused: 2, blankRows: 2, notices: 0 });
    expect(refusals.map(({ line, field }) => [line, field])).toEqual([
      [6, "row"],
      [8, "row"],
    ]);
    expect(refusals[0]?.reason).toContain("2 fields, the header 3");
    expect(refusals[0]?.raw).toBe("2,b");
  });
});

describe("refusals", () => {
  test.each([
    [{ value: "" }, "value", "empty"],
    [{ value: "n/a" }, "value", "“n/a” is not a number"],
    [{ value: "NaN" }, "value", "finite"],
    [{ value: "Infinity" }, "value", "finite"],
    [{ value: "=B2" }, "value", "formula"],
    [{ value: "#DIV/0!" }, "value", "error value"],
    [{ value: "0x10" }, "value", "hexadecimal"],
    [{ feature: "" }, "feature", "empty"],
    [{ feature: "F".repeat(201) }, "feature", "201 characters"],
    [{ part: "P".repeat(201) }, "part", "201 characters"],
    [{ taken_at: "" }, "taken_at", "empty"],
    [{ taken_at: "03/04/2024" }, "taken_at", "day first or month first"],
    [{ taken_at: "2024-02-30" }, "taken_at", "“2024-02-30”"],
    [{ piece: "S".repeat(201) }, "piece", "201 characters"],
    [{ lot: "L".repeat(300) }, "lot", "300 characters"],
    [{ unit: "cm" }, "unit", "“cm” is not known"],
    [{ lower_tolerance: "105.2" }, "lower_tolerance", "105.2 lies above the upper one, 105.11"],
    [{ nominal: "about 5" }, "nominal", "not a number"],
    [{ part_temp_c: "150.1" }, "part_temp_c", "outside -50 to 150"],
    [{ part_temp_c: "-51" }, "part_temp_c", "outside"],
    [{ part_temp_c: "warm" }, "part_temp_c", "not a number"],
  ] as [Record<string, string>, string, string][])("%j", (changes, field, words) => {
    const refusal = refusalOf(changes);
    expect(refusal).toMatchObject({ line: 2, field, raw: tidyRow(changes) });
    expect(refusal?.reason).toContain(words);
  });

  test("a bad row stops nothing and leaves no feature behind", () => {
    const { rows, refusals, names } = take([
      TIDY_HEADER,
      tidyRow({ feature: "F9", value: "x" }),
      tidyRow({}),
      tidyRow({ value: "" }),
      tidyRow({}),
    ]);
    expect(rows).toHaveLength(2);
    expect(refusals.map(({ line }) => line)).toEqual([2, 4]);
    expect(names.features.map(({ feature }) => feature)).toEqual(["F001"]);
  });

  test("a number too large to compute with refuses its row, as value and as limit, and not the file", () => {
    const { rows, refusals } = take([
      TIDY_HEADER,
      tidyRow({ value: "1e308" }),
      tidyRow({}),
      tidyRow({ feature: "F2", upper_tolerance: "1e200" }),
    ]);
    expect(rows).toHaveLength(1);
    expect(refusals.map(({ line, field }) => [line, field])).toEqual([
      [2, "value"],
      [4, "upper_tolerance"],
    ]);
    expect(refusals[0]?.reason).toContain("larger than anything that can be measured");
  });

  test("text after a closing quote refuses the row", () => {
    const { refusals, rows } = take([TIDY_HEADER, tidyRow({ feature: '"F1" bore' }), tidyRow({})]);
    expect(refusals[0]).toMatchObject({ line: 2, field: "row" });
    expect(rows).toHaveLength(1);
  });

  test("the row shown is cut at 2,000 characters", () => {
    const { refusals } = take(["value,feature,note", `x,a,${"ä".repeat(5_000)}`]);
    expect(refusals[0]?.raw).toHaveLength(2_000);
  });
});

describe("units and limits", () => {
  const head = "feature,nominal,lower_tolerance,upper_tolerance,unit,value";

  test("inches in a millimetre feature are converted exactly and told once", () => {
    const { rows, notices } = take([head, "a,12.7,12.6,12.8,mm,12.71", 'a,,,,"""",0.5', "a,0.5,,,in,0.1"]);
    expect(rows.map(({ value }) => value)).toEqual([12.71, 12.7, 2.54]);
    expect(notices).toHaveLength(1);
    expect(notices[0]).toMatchObject({ line: 3 });
    expect(notices[0]?.message).toContain("converted to mm");
  });

  test("millimetres in an inch feature", () => {
    const { rows } = take([head, "a,1,,,inch,1", "a,,,,mm,12.7"]);
    expect(rows.map(({ value, feature }) => [value, feature.unit])).toEqual([
      [1, "in"],
      [0.5, "in"],
    ]);
  });

  test("micrometres are kept as millimetres, limits too", () => {
    const { rows, notices } = take([head, "flatness,0,,12.3,µm,4.56"]);
    expect(rows[0]).toMatchObject({ value: 0.00456, feature: { unit: "mm", upper: 0.0123, lower: null } });
    expect(notices[0]?.message).toContain("µm are kept as mm");
  });

  test("a length and an angle are not mixed, nor a unit stated late", () => {
    const { refusals } = take([head, "a,,,,mm,1", "a,,,,deg,1", "b,,,,,1", "b,,,,in,1"]);
    expect(refusals.map(({ line, field }) => [line, field])).toEqual([
      [3, "unit"],
      [5, "unit"],
    ]);
  });

  test("a unit left out later is the one stated first, and told", () => {
    const { rows, notices } = take([head, "a,,,,in,1", "a,,,,,2", "a,,,,,3"]);
    expect(rows.map(({ value }) => value)).toEqual([1, 2, 3]);
    expect(notices).toHaveLength(1);
    expect(notices[0]?.message).toContain("no unit here");
  });

  test("other limits for the same feature are told once and change nothing", () => {
    const { notices, names } = take([
      head,
      "a,10,9,11,mm,10",
      "a,10,9,11.5,mm,10",
      "a,10,9,12,mm,10",
      "a,,,,mm,10",
    ]);
    expect(names.features).toHaveLength(1);
    expect(names.features[0]).toMatchObject({ lower: 9, upper: 11, firstLine: 2 });
    expect(notices).toHaveLength(1);
    expect(notices[0]).toMatchObject({ line: 3 });
    expect(notices[0]?.message).toContain("upper tolerance limit 11.5, line 2 states 11");
  });

  test("the same feature name of two parts is two features", () => {
    const { names } = take(["part,feature,value", "P1,a,1", "P2,a,1", "P1,a,2"]);
    expect(names.features.map(({ part }) => part)).toEqual(["P1", "P2"]);
  });

  test("a tolerance that does not enclose the nominal is told: deviations are no limits", () => {
    const { notices } = take([head, "a,50,-0.05,0.05,mm,50.01"]);
    expect(notices[0]?.message).toContain("outside its tolerance limits");
  });
});

describe("mapping", () => {
  test("decimal commas, semicolons, Windows-1252, day first, a plant zone", () => {
    const text = "feature;value;taken_at;lot\nBohrung;12,345;31.07.2024 14:05;Gr\xf6\xdfe\n";
    const bytes = Uint8Array.from(text, (character) => character.charCodeAt(0));
    const mapping = tidyMapping("feature;value;taken_at;lot", {
      separator: ";",
      decimal: ",",
      encoding: "windows-1252",
      dateFormat: "day-first",
    });
    const { rows } = take(bytes, mapping, { zone: zoneTable("Europe/Berlin") });
    expect(rows[0]).toMatchObject({ value: 12.345, lot: "Größe", takenAt: Date.UTC(2024, 6, 31, 12, 5) });
  });

  test("columns are found in any case and spacing", () => {
    const { rows } = take([" Feature ,VALUE", "a,1"], {
      columns: { ...emptyMapping("x").columns, feature: { column: "feature" }, value: { column: "value" } },
    });
    expect(rows).toHaveLength(1);
  });

  test("a serial made of several columns, constants for every row", () => {
    const columns = {
      ...emptyMapping("x").columns,
      feature: { constant: "bore" },
      value: { column: "value" },
      unit: { constant: "in" },
      machine: { constant: "M-1" },
    };
    const { rows } = take(["order,no,value", "A1,7,1", "A1,8,2", ",9,3"], {
      piece: ["order", "no"],
      columns,
    });
    expect(rows.map(({ piece }) => piece)).toEqual(["A1-7", "A1-8", "9"]);
    expect(rows[2]).toMatchObject({ machine: "M-1", feature: { feature: "bore", unit: "in" } });
  });

  test("times counted from a first one, refused rows keeping their place", () => {
    const { rows } = take(["feature,value", "a,1", "a,x", "", "a,3"], {
      time: { start: "2024-01-01T06:00:00Z", stepSeconds: 30 },
    });
    expect(rows.map(({ takenAt }) => takenAt)).toEqual([Date.UTC(2024, 0, 1, 6), Date.UTC(2024, 0, 1, 6, 1)]);
  });

  test.each([
    [["value,lot", "1,x"], /names the feature/],
    [["feature,lot", "1,x"], /measured values/],
    [["feature,value,value", "a,1,2"], /names “value” 2 times/],
  ] as [string[], RegExp][])(
    "a header that does not carry the mapping stops the file: %j",
    (lines, words) => {
      expect(() => take(lines)).toThrow(words);
      expect(() => take(lines)).toThrow(UnreadableFile);
    },
  );

  test("rows of separators before the header are left out", () => {
    expect(take([",,", "feature,value", "a,1"], tidyMapping("feature,value")).rows[0]?.line).toBe(3);
  });

  test("an empty file has no header", () => {
    expect(() => take(new Uint8Array(0), tidyMapping("feature,value"))).toThrow(/not even a header/);
    expect(() => take(["feature,value"])).not.toThrow();
  });
});

describe("the wide layout", () => {
  const columns = { ...emptyMapping("x").columns, lot: { column: "lot" }, part: { constant: "P-1" } };
  const valueColumns = [
    { column: "Bore [mm]", feature: "Bore", nominal: 12, lower: 11.9, upper: 12.1, unit: "mm" },
    { column: "Depth", feature: "Depth", nominal: null, lower: null, upper: 3, unit: "in" },
  ];
  const wide = { layout: "wide" as const, piece: ["piece"], columns, valueColumns };

  test("what was inspected holds for every count of a row; where no row states it there is no column", () => {
    const counts = {
      ...wide,
      columns: { ...columns, inspected: { column: "checked" } },
      valueColumns: ["dents", "scratches"].map((name) => ({
        ...valueColumns[1]!,
        column: name,
        feature: name,
      })),
    };
    const header = "piece,lot,checked,dents,scratches";
    const { rows, refusals } = take([header, "B1,L1,180,4,1", "B2,L1,,2,", "B3,L1,none,2,3"], counts);
    expect(rows.map(({ piece, value, inspected }) => [piece, value, inspected])).toEqual([
      ["B1", 4, 180],
      ["B1", 1, 180],
      ["B2", 2, null],
    ]);
    expect(refusals).toMatchObject([{ line: 4, field: "inspected" }]);
    expect(take([header, "B1,L1,,4,1"], counts).batches[0]!.inspected).toBeNull();
  });

  test("a row is as many measurements as it has filled cells", () => {
    const { rows, refusals, counts } = take(
      ["piece,lot,Bore [mm],Depth", "S1,L1,12.01,2.5", "S2,L1,,2.6", "S3,L2,bad,2.7", "S4,L2,,"],
      wide,
    );
    expect(rows.map(({ piece, lot, value, feature }) => [piece, lot, feature.feature, value])).toEqual([
      ["S1", "L1", "Bore", 12.01],
      ["S1", "L1", "Depth", 2.5],
      ["S2", "L1", "Depth", 2.6],
      ["S3", "L2", "Depth", 2.7],
    ]);
    expect(rows[1]?.feature).toMatchObject({ part: "P-1", unit: "in", upper: 3, lower: null });
    expect(refusals.map(({ line, field }) => [line, field])).toEqual([
      [4, "Bore [mm]"],
      [5, "value"],
    ]);
    expect(counts).toMatchObject({ rows: 4, accepted: 4, refused: 2 });
  });

  test("a batch that ends in the middle of a row keeps the piece", () => {
    const { rows } = take(["piece,lot,Bore [mm],Depth", "S1,L1,12.01,2.5", "S2,L1,12.02,2.6"], wide, {
      batchRows: 1,
    });
    expect(rows.map(({ piece }) => piece)).toEqual(["S1", "S1", "S2", "S2"]);
  });
});
