import { describe, expect, test } from "vitest";
import { commitRequest, fileLabel, mappingSchema } from "../../app/intake/mapping-schema";
import { emptyMapping } from "../../lib/intake/mapping";

describe("a mapping from outside", () => {
  test("one of our own passes unchanged", () => {
    const mapping = { ...emptyMapping("a"), zone: "Europe/Berlin", piece: ["run", "wafer"] };
    expect(mappingSchema.parse(JSON.parse(JSON.stringify(mapping)))).toEqual(mapping);
  });

  test("one saved before zones could be chosen means the plant's", () => {
    const { zone: _, ...before } = emptyMapping("a");
    expect(mappingSchema.parse(before).zone).toBeNull();
  });

  test("one saved before the time of day could have a column has none", () => {
    const { timeOfDay: _, ...before } = emptyMapping("a");
    expect(mappingSchema.parse(before).timeOfDay).toBeNull();
  });

  test.each([
    ["an unknown layout", { layout: "tall" }],
    ["a separator that reads a file differently", { separator: "|" }],
    ["a zone that does not exist", { zone: "Europe/Atlantis" }],
    [
      "a column of the tidy file that does not exist",
      { columns: { ...emptyMapping("a").columns, price: null } },
    ],
    [
      "a reference that is both",
      { columns: { ...emptyMapping("a").columns, lot: { column: "a", constant: "b" } } },
    ],
    ["steps back in time", { time: { start: "2026-01-01", stepSeconds: -1 } }],
    ["more than it knows", { path: "/etc/passwd" }],
    ["an endless text", { piece: ["x".repeat(501)] }],
  ])("refuses %s", (_what, change) => {
    expect(mappingSchema.safeParse({ ...emptyMapping("a"), ...change }).success).toBe(false);
  });

  test.each([0, 1.5, 1001, "5"])("refuses %j readings in a subgroup", (subgroupSize) => {
    expect(commitRequest.safeParse({ mapping: emptyMapping("a"), saveAs: "", subgroupSize }).success).toBe(
      false,
    );
  });
});

describe("the name of a file is a label", () => {
  test.each([
    ["friday.csv", "friday.csv"],
    ["D:\\measured\\friday.csv", "friday.csv"],
    ["../../etc/passwd", "passwd"],
    ["a\u0000b\nc.csv", "a b c.csv"],
    ["Prüfung März.csv", "Prüfung März.csv"],
  ])("%j is shown as %j", (given, shown) => {
    expect(fileLabel.parse(given)).toBe(shown);
  });

  test.each(["", "   ", "folder/"])("%j names no file", (given) => {
    expect(fileLabel.safeParse(given).success).toBe(false);
  });
});
