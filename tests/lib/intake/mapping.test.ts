import { describe, expect, test } from "vitest";
import { emptyMapping, headerFingerprint, type Mapping, validateMapping } from "../../../lib/intake/mapping";
import { suggestMapping } from "../../../lib/intake/suggest-mapping";
import { tidyMapping } from "./tidy-file";

const TIDY = [
  "piece",
  "taken_at",
  "part",
  "feature",
  "nominal",
  "lower_tolerance",
  "upper_tolerance",
  "unit",
  "value",
  "lot",
  "fixture",
  "tool",
  "machine",
  "gauge",
  "operator",
  "part_temp_c",
  "subgroup",
  "setup",
  "length",
  "expansion",
];

describe("a suggested mapping", () => {
  test("takes every tidy name as itself", () => {
    const sample = TIDY.map((name) => (name === "taken_at" ? "2024-01-31T06:00:00Z" : "1"));
    const { mapping, unmatched, notes } = suggestMapping(TIDY, [sample]);
    expect(mapping).toEqual({ ...tidyMapping(TIDY.join(",")), name: "suggested" });
    expect(unmatched).toEqual([]);
    expect(notes).toEqual([]);
    expect(validateMapping(mapping, TIDY)).toEqual([]);
  });

  test("leaves a column of times out that states none, and says so", () => {
    const { mapping, notes } = suggestMapping(
      ["feature", "value", "taken_at"],
      [
        ["bore", "10.01", ""],
        ["bore", "10.02", " "],
      ],
    );
    expect(mapping.columns.taken_at).toBeNull();
    expect(notes.join()).toContain("order of the file");
  });

  test("knows the words of shops in any case and spacing", () => {
    const header = [
      "Serial No.",
      "Date/Time",
      "Part Number",
      "CHARACTERISTIC",
      "Nom",
      "LSL",
      "USL",
      "Units",
      "Actual [mm]",
      "Batch",
      "Comment",
    ];
    const { mapping, unmatched } = suggestMapping(header, [
      ["7", "31.01.2024 14:05", "P", "bore", "10", "9", "11", "mm", "10,02", "L", "ok"],
    ]);
    expect(mapping.piece).toEqual(["Serial No."]);
    expect(mapping.columns).toMatchObject({
      part: { column: "Part Number" },
      feature: { column: "CHARACTERISTIC" },
      nominal: { column: "Nom" },
      lower_tolerance: { column: "LSL" },
      upper_tolerance: { column: "USL" },
      value: { column: "Actual [mm]" },
      lot: { column: "Batch" },
    });
    expect(mapping.decimal).toBe(",");
    expect(mapping.dateFormat).toBe("day-first");
    expect(unmatched).toEqual(["Comment"]);
  });

  test("columns of numbers beside a serial make the wide layout, with the unit in brackets", () => {
    const header = ["SN", "Timestamp", "Bore A [mm]", "Angle (°)", "Depth", "Remark"];
    const rows = [
      ["1", "2024-01-31 06:00", "12.01", "45.1", "3.2", "ok"],
      ["2", "2024-01-31 06:01", "12.02", "", "3.3", ""],
    ];
    const { mapping, unmatched } = suggestMapping(header, rows);
    expect(mapping.layout).toBe("wide");
    expect(mapping.valueColumns.map(({ column, feature, unit }) => [column, feature, unit])).toEqual([
      ["Bore A [mm]", "Bore A", "mm"],
      ["Angle (°)", "Angle", "°"],
      ["Depth", "Depth", null],
    ]);
    expect(unmatched).toEqual(["Remark"]);
    expect(validateMapping(mapping, header)).toEqual([]);
  });

  test.each([
    [["feature", "value", "inspected"], "inspected"],
    [["Merkmal", "Fehler", "Geprüft"], "Geprüft"],
    [["feature", "defects", "Sample size"], "Sample size"],
    [["Merkmal", "Anzahl", "Prüfumfang"], "Prüfumfang"],
    [["feature", "count", "n"], "n"],
  ])("what was inspected is known by its usual names: %j", (header, column) => {
    const rows = [
      ["scratched", "4", "180"],
      ["scratched", "6", "212"],
    ];
    const { mapping } = suggestMapping(header, rows);
    expect(mapping.columns).toMatchObject({ inspected: { column }, value: { column: header[1] } });
    expect(validateMapping(mapping, header)).toEqual([]);
  });

  test.each([
    ["numbers of rows", ["1.5", "2.5"], ["7", "8"]],
    ["whole numbers beside measured values", ["1.5", "2.5"], ["5", "9"]],
    ["0", ["1", "2"], ["0", "4"]],
    ["words", ["1", "2"], ["yes", "no"]],
  ])("a column n that holds %s is not what was inspected", (_, values, n) => {
    const rows = values.map((value, i) => ["bore", value, n[i]!]);
    expect(suggestMapping(["feature", "value", "n"], rows).mapping.columns.inspected).toBeNull();
  });

  test("kinds of faults side by side make the wide layout, all found on the pieces of the row", () => {
    const header = ["Date", "Inspected", "Scratches", "Dents"];
    const { mapping } = suggestMapping(header, [
      ["2024-01-31", "180", "4", "1"],
      ["2024-02-01", "212", "6", "0"],
    ]);
    expect(mapping.columns.inspected).toEqual({ column: "Inspected" });
    expect(mapping.valueColumns.map(({ feature }) => feature)).toEqual(["Scratches", "Dents"]);
  });

  test("a counter is no feature, a column named value or length is one where nothing names features", () => {
    const header = ["No", "Serial", "Value", "Length"];
    const { mapping, unmatched } = suggestMapping(header, [["1", "A7", "1.5", "2.5"]]);
    expect(mapping.valueColumns.map(({ column }) => column)).toEqual(["Value", "Length"]);
    expect(unmatched).toEqual(["No"]);
    expect(validateMapping(mapping, header)).toEqual([]);
  });

  test("the only column of numbers beside a feature is its value; words are no values", () => {
    const { mapping } = suggestMapping(["feature", "result", "mm"], [["bore", "OK", "1.5"]]);
    expect(mapping).toMatchObject({ layout: "long", columns: { value: { column: "mm" } } });
    const { notes } = suggestMapping(["feature", "x", "y"], [["bore", "1", "2"]]);
    expect(notes.join()).toContain("choose it");
  });

  test.each([
    [["31/01/2024", "05/02/2024"], "day-first", 0],
    [["01/31/2024", "02/05/2024"], "month-first", 0],
    [["03/04/2024", "05/02/2024"], "day-first", 1],
    [["03.04.2024"], "day-first", 0],
    [["45322.5", "45323"], "serial", 0],
    [["2024-01-31"], "iso", 0],
  ] as const)("dates %j are %s", (dates, format, notes) => {
    const suggestion = suggestMapping(
      ["feature", "value", "date"],
      dates.map((date) => ["a", "1", date]),
    );
    expect(suggestion.mapping.dateFormat).toBe(format);
    expect(suggestion.notes).toHaveLength(notes);
  });

  test("a German shop's header is known, with its sharp s, whatever is called Teil beside the Teilenummer", () => {
    const header = ["Teil", "Teilenummer", "Merkmal", "Nennmaß", "UTG", "OTG", "Wert", "Stücknummer"];
    const { mapping, unmatched } = suggestMapping(header, [
      ["7", "AB-1", "Bohrung", "5", "4,9", "5,1", "5,01", "7"],
    ]);
    expect(mapping.columns).toMatchObject({
      part: { column: "Teilenummer" },
      nominal: { column: "Nennmaß" },
      lower_tolerance: { column: "UTG" },
      upper_tolerance: { column: "OTG" },
      value: { column: "Wert" },
    });
    expect(mapping.piece).toEqual(["Stücknummer"]);
    expect(unmatched).toEqual(["Teil"]);
    expect(suggestMapping(["Teil", "Merkmal", "Wert"], []).mapping.columns.part).toEqual({ column: "Teil" });
  });

  test("deviations in the tolerance columns are left out and told", () => {
    const { mapping, notes } = suggestMapping(
      ["feature", "nominal", "lower limit", "upper limit", "value", "time"],
      [["a", "50", "-0.05", "0.05", "50.01", "2024-01-31"]],
    );
    expect(mapping.columns.lower_tolerance).toBeNull();
    expect(notes.join()).toContain("deviations from nominal");
  });

  test("a form tolerance that begins at zero is no deviation", () => {
    const { mapping } = suggestMapping(
      ["feature", "nominal", "lsl", "usl", "value"],
      [["flatness", "0", "0", "0.05", "0.01"]],
    );
    expect(mapping.columns.lower_tolerance).toEqual({ column: "lsl" });
  });

  test.each([
    [
      ["date", "time"],
      ["2024-01-31", "14:05"],
    ],
    [
      ["Datum", "Uhrzeit"],
      ["31.01.2024", "14:05:30"],
    ],
    [
      ["Datum", "Zeit"],
      ["31.01.2024 00:00:00", "14:05"],
    ],
    [
      ["date", "measurement time"],
      ["1/31/2024", "2:05 PM"],
    ],
    [
      ["date", "time"],
      ["2024-01-31T00:00:00.000", "1899-12-30T14:05:00.000"],
    ],
    [
      ["date", "time"],
      ["45322", "0.586805556"],
    ],
  ] as const)("date and time of day are found by %j holding %j", ([date, clock], moment) => {
    const { mapping, notes, unmatched } = suggestMapping(
      ["feature", "value", clock, date],
      [
        ["a", "1", moment[1], moment[0]],
        ["a", "2", moment[1], moment[0]],
      ],
    );
    expect(mapping).toMatchObject({
      layout: "long",
      timeOfDay: clock,
      columns: { taken_at: { column: date } },
    });
    expect([...notes, ...unmatched]).toEqual([]);
  });

  test("the only column of times of day is taken whatever it is called, and that is said", () => {
    const header = ["feature", "value", "date", "hh:mm"];
    const { mapping, notes } = suggestMapping(header, [["a", "1", "2024-01-31", "14:05"]]);
    expect(mapping.timeOfDay).toBe("hh:mm");
    expect(notes.join()).toContain("“hh:mm” holds times of day");
    const two = suggestMapping([...header, "cycle"], [["a", "1", "2024-01-31", "14:05", "00:45"]]);
    expect(two.mapping.timeOfDay).toBeNull();
  });

  test.each([
    ["2024-01-31 14:05", "14:05"],
    ["2024-01-31", "0.42"],
    ["2024-01-31", "early"],
  ])("a date %j beside %j has no column of the time of day", (date, other) => {
    const { mapping } = suggestMapping(["feature", "value", "date", "time"], [["a", "1", date, other]]);
    expect(mapping).toMatchObject({ timeOfDay: null, columns: { taken_at: { column: "date" } } });
  });
});

describe("a mapping is checked against the header", () => {
  const header = ["feature", "value", "lot"];
  const good = tidyMapping("feature,value,lot");
  const fieldsOf = (mapping: Mapping, texts: string[] = header) =>
    validateMapping(mapping, texts).map(({ field }) => field);

  test("nothing to say about a good one, whatever the case", () => {
    expect(fieldsOf(good)).toEqual([]);
    expect(fieldsOf(good, ["LOT ", " Value", "FEATURE"])).toEqual([]);
  });

  test("missing and doubled columns, but only those that are used", () => {
    expect(fieldsOf(good, ["feature", "value"])).toEqual(["lot"]);
    expect(fieldsOf(good, [...header, "Value"])).toEqual(["value"]);
    expect(fieldsOf(good, [...header, "x", "x", "", ""])).toEqual([]);
  });

  test("value and feature are compulsory", () => {
    expect(fieldsOf(emptyMapping("none"))).toEqual(["value", "feature"]);
    expect(fieldsOf({ ...good, columns: { ...good.columns, feature: { constant: "bore" } } })).toEqual([]);
    expect(fieldsOf({ ...good, columns: { ...good.columns, value: { constant: "5" } } })).toEqual(["value"]);
  });

  test("two marks cannot be the same, two times not both be given", () => {
    expect(fieldsOf({ ...good, decimal: "," })).toEqual(["mapping"]);
    expect(fieldsOf({ ...good, time: { start: "2024-01-01", stepSeconds: -1 } })).toEqual(["time"]);
    const timed = tidyMapping("feature,value,taken_at", { time: { start: "2024-01-01", stepSeconds: 1 } });
    expect(fieldsOf(timed, ["feature", "value", "taken_at"])).toEqual(["time"]);
  });

  test("a time of day wants a column of dates beside it, and another one than that", () => {
    const texts = ["feature", "value", "taken_at", "clock"];
    const dated = tidyMapping("feature,value,taken_at", { timeOfDay: "clock" });
    expect(fieldsOf(dated, texts)).toEqual([]);
    expect(fieldsOf({ ...dated, timeOfDay: "Taken_at" }, texts)).toEqual(["time_of_day"]);
    expect(fieldsOf({ ...good, timeOfDay: "lot" })).toEqual(["time_of_day"]);
    expect(fieldsOf(dated, ["feature", "value", "taken_at"])).toEqual(["time_of_day"]);
  });

  test("the wide layout wants value columns with names of their own", () => {
    const one = { column: "value", feature: "a", nominal: null, lower: null, upper: null, unit: null };
    const wide: Mapping = { ...emptyMapping("w"), layout: "wide" };
    expect(fieldsOf(wide)).toEqual(["value"]);
    expect(fieldsOf({ ...wide, valueColumns: [one] })).toEqual([]);
    expect(fieldsOf({ ...wide, valueColumns: [one, { ...one, column: "lot" }] })).toEqual(["feature"]);
    expect(fieldsOf({ ...wide, valueColumns: [{ ...one, feature: " " }] })).toEqual(["feature"]);
    expect(fieldsOf({ ...good, layout: "wide", valueColumns: [one] })).toEqual(["feature", "value"]);
  });
});

test("a layout is found again whatever the order, case and blanks of its header", () => {
  expect(headerFingerprint([" Value", "FEATURE  name"])).toBe(headerFingerprint(["feature name", "value"]));
  expect(headerFingerprint(["a", "b"])).not.toBe(headerFingerprint(["a", "b", "c"]));
  expect(headerFingerprint(["a,b"])).not.toBe(headerFingerprint(["a", "b"]));
});
