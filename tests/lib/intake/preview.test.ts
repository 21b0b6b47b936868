import { describe, expect, test } from "vitest";
import { likelyEncoding } from "../../../lib/intake/encoding";
import { previewCsv, previewRows } from "../../../lib/intake/preview";
import { sniffFile } from "../../../lib/intake/sniff-file";
import { utc } from "../../../lib/intake/zone";

const bytesOf = (text: string) => new TextEncoder().encode(text);
const options = { zone: utc, mapping: null, rows: 2, whole: true };

describe("a look at a file before it is taken", () => {
  const file = "Merkmal;Messwert;Charge\nBohrung;1,5;L1\nBohrung;x;L1\nBohrung;1,7;L2\nBohrung;1,8;L2\n";

  test("finds separator and decimal mark, suggests, shows the first rows taken and refused", () => {
    const preview = previewCsv(bytesOf(file), options);
    expect(preview.header).toEqual(["Merkmal", "Messwert", "Charge"]);
    expect(preview.rows).toEqual([
      ["Bohrung", "1,5", "L1"],
      ["Bohrung", "x", "L1"],
    ]);
    expect(preview.mapping).toMatchObject({ separator: ";", decimal: ",", encoding: "utf-8" });
    expect(preview.problems).toEqual([]);
    expect(preview.accepted.map(({ value, lot, line }) => [value, lot, line])).toEqual([
      [1.5, "L1", 2],
      [1.7, "L2", 4],
    ]);
    expect(preview.refused.map(({ line, field }) => [line, field])).toEqual([[3, "value"]]);
  });

  test("the beginning of a file may end in the middle of a row", () => {
    const preview = previewCsv(bytesOf(file.slice(0, file.indexOf("1,8") + 2)), {
      ...options,
      whole: false,
      rows: 10,
    });
    expect(preview.accepted.map(({ value }) => value)).toEqual([1.5, 1.7]);
  });

  test("a mapping that does not fit is explained, not tried", () => {
    const first = previewCsv(bytesOf(file), options);
    const other = previewCsv(bytesOf(file.replace("Messwert", "Wert")), {
      ...options,
      mapping: first.mapping,
    });
    expect(other.problems[0]?.message).toContain("no column “Messwert”");
    expect(other.accepted).toEqual([]);
    expect(other.fingerprint).not.toBe(first.fingerprint);
  });

  test("Windows-1252 is found and read", () => {
    const bytes = Uint8Array.from("feature;value\nH\xf6he;1,5\n", (character) => character.charCodeAt(0));
    const preview = previewCsv(bytes, options);
    expect(preview.mapping.encoding).toBe("windows-1252");
    expect(preview.accepted[0]?.feature.feature).toBe("Höhe");
  });

  test("UTF-16 is found by its mark", () => {
    const text = "\ufefffeature\tvalue\na\t1\n";
    const bytes = new Uint8Array(text.length * 2);
    for (let i = 0; i < text.length; i++)
      new DataView(bytes.buffer).setUint16(i * 2, text.charCodeAt(i), true);
    expect(previewCsv(bytes, options).accepted).toHaveLength(1);
    expect(likelyEncoding(bytes)).toBe("utf-16");
  });

  test("a character cut off at the end of the look is still UTF-8", () => {
    const bytes = bytesOf("größe″");
    expect(likelyEncoding(bytes.subarray(0, bytes.length - 1))).toBe("utf-8");
  });

  test("an empty file is said to be empty", () => {
    expect(() => previewCsv(new Uint8Array(0), options)).toThrow(/empty/);
  });

  test("the rows of a sheet get the same look", () => {
    const rows = [
      { line: 1, cells: ["Feature", "Actual", "Measured at"] },
      { line: 3, cells: ["a", 1.5, new Date(Date.UTC(2024, 0, 31))] },
      { line: 4, cells: ["a", null, new Date(Date.UTC(2024, 0, 31))] },
    ];
    const preview = previewRows(rows, { zone: utc, mapping: null, rows: 5 });
    expect(preview.accepted.map(({ line, value, takenAt }) => [line, value, takenAt])).toEqual([
      [3, 1.5, Date.UTC(2024, 0, 31)],
    ]);
    expect(preview.refused.map(({ line }) => line)).toEqual([4]);
  });
});

describe("what a file is by its first bytes", () => {
  const kindOf = (bytes: readonly number[] | string, name: string) =>
    sniffFile(typeof bytes === "string" ? bytesOf(bytes) : Uint8Array.from(bytes), name);

  test.each([
    ["a,b\n1,2\n", "a.csv"],
    ["a;b\n", "export.xls"],
    ["\ufeffa,b\n", "a.txt"],
  ])("%j named %s is read as CSV", (text, name) => {
    expect(kindOf(text, name)).toEqual({ kind: "csv" });
  });

  test("UTF-16 has zero bytes and is text all the same", () => {
    expect(kindOf([0xff, 0xfe, 0x61, 0], "a.csv")).toEqual({ kind: "csv" });
  });

  test("a workbook", () => {
    expect(kindOf([0x50, 0x4b, 3, 4, 20, 0], "A.XLSX")).toEqual({ kind: "xlsx" });
  });

  test.each([
    [[], "a.csv", "0 bytes"],
    [[0x50, 0x4b, 3, 4], "a.zip", "archive"],
    [[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], "a.xls", "password"],
    [[0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1], "a.xlsx", "password"],
    [[0x25, 0x50, 0x44, 0x46], "a.pdf", "PDF"],
    [[0x89, 0x50, 0x4e, 0x47], "a.csv", "PNG"],
    [[0xff, 0xd8, 0xff, 0xe0], "a.csv", "JPEG"],
    [[0x1f, 0x8b, 8], "a.csv.gz", "gzip"],
    [[0, 0, 0, 0], "a.csv", "zero bytes"],
    [[0x61, 0x2c, 0x62], "a.xlsx", "not a workbook"],
    [[0x3c, 0x68, 0x74, 0x6d, 0x6c], "a.csv", "XML or a web page"],
    [[0x7b, 0x22], "a.csv", "JSON"],
  ] as [number[], string, string][])("%j named %s is refused in words", (bytes, name, words) => {
    const found = kindOf(bytes, name);
    expect(found.kind).toBe("unsupported");
    expect("reason" in found ? found.reason : "").toContain(words);
  });
});
