import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { CSV_LIMITS, type CsvLimits, CsvReader, fieldText } from "../../../lib/intake/csv";
import type { FileEncoding, Separator } from "../../../lib/intake/mapping";
import { detectSeparator } from "../../../lib/intake/separator";
import { UnreadableFile } from "../../../lib/intake/unreadable-file";
import { runs } from "../../laws";

type ReadRow = { line: number; fields: string[]; problem: string | null; raw: string };
type How = { separator?: Separator; encoding?: FileEncoding; limits?: CsvLimits; cuts?: readonly number[] };

function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}

/** Reads the file in chunks cut at the given places. */
function read(
  file: string | Uint8Array,
  { separator = ",", encoding = "utf-8", limits, cuts = [] }: How = {},
): ReadRow[] {
  const bytes = typeof file === "string" ? bytesOf(file) : file;
  const rows: ReadRow[] = [];
  const reader = new CsvReader({ separator, encoding, ...(limits ? { limits } : {}) }, (row) => {
    const fields = Array.from({ length: row.count }, (_, index) => fieldText(row, index));
    rows.push({ line: row.line, fields, problem: row.problem, raw: row.raw(2_000) });
  });
  const places = [0, ...cuts.map((cut) => Math.min(cut, bytes.length)).sort((a, b) => a - b), bytes.length];
  for (let i = 1; i < places.length; i++) reader.push(bytes.slice(places[i - 1], places[i]));
  reader.end();
  return rows;
}

const fieldsOf = (file: string | Uint8Array, how?: How) => read(file, how).map(({ fields }) => fields);

function fault(file: string | Uint8Array, how?: How): UnreadableFile {
  try {
    read(file, how);
  } catch (problem) {
    if (problem instanceof UnreadableFile) return problem;
    throw problem;
  }
  throw new Error("the file was read");
}

describe("rows and fields", () => {
  test.each([
    [
      "a,b\n1,2\n",
      [
        ["a", "b"],
        ["1", "2"],
      ],
    ],
    [
      "a,b\n1,2",
      [
        ["a", "b"],
        ["1", "2"],
      ],
    ],
    [
      "a,b\r\n1,2\r3,4\n5,6",
      [
        ["a", "b"],
        ["1", "2"],
        ["3", "4"],
        ["5", "6"],
      ],
    ],
    ["\n\na\n\r\n\r\rb\n\n", [["a"], ["b"]]],
    [
      "a,,\n,,\n",
      [
        ["a", "", ""],
        ["", "", ""],
      ],
    ],
    ['"a,b","c\nd","e""f"\n', [["a,b", "c\nd", 'e"f']]],
    ['"",""\n', [["", ""]]],
    ['""\n', [[""]]],
    ['""""\n', [['"']]],
    ['a"b,c""d\n', [['a"b', 'c""d']]],
    ['"a" ,b\n', [["a", "b"]]],
    ["\ufeffa,b\n", [["a", "b"]]],
    ["ä,″\n", [["ä", "″"]]],
    ["", []],
    ["\ufeff", []],
  ] as [string, string[][]][])("%j", (file, expected) => {
    expect(fieldsOf(file)).toEqual(expected);
  });

  test("a row starts at its physical line, whatever stands between and inside the rows", () => {
    const file = 'h\r\n"two\nlines"\r\rnext\n\n\n"a\r\nb\rc"\nlast';
    expect(read(file).map(({ line }) => line)).toEqual([1, 2, 5, 8, 11]);
  });

  test("text after a closing quote is a fault of the row alone", () => {
    const rows = read('a,b\n"12.7" bore,1\n3,4\n');
    expect(rows.map(({ problem }) => problem !== null)).toEqual([false, true, false]);
    expect(rows[1]?.raw).toBe('"12.7" bore,1');
  });

  test("a refusal can show the row as it stands in the file", () => {
    expect(read('"a ""quoted"" word",2\r\n')[0]?.raw).toBe('"a ""quoted"" word",2');
  });

  test("semicolons and tabs", () => {
    expect(fieldsOf("a;b\n1,5;2\n", { separator: ";" })).toEqual([
      ["a", "b"],
      ["1,5", "2"],
    ]);
    expect(fieldsOf("a\tb\n1\t\n", { separator: "\t" })).toEqual([
      ["a", "b"],
      ["1", ""],
    ]);
  });
});

describe("against papaparse 5.7.1", () => {
  // A blank after a closing quote, which we take as RFC 4180 allows no text there, and rows of one empty quoted
  // field, which papaparse counts as empty lines, are left out of the texts.
  const field = fc.oneof(
    fc.string({ unit: fc.constantFrom("a", "7", ".", ",", ";", '"', "\n", "\r", " ", "é", "″", "😀") }),
    fc.double({ noNaN: true }).map(String),
  );
  const quote = (text: string) => `"${text.replaceAll('"', '""')}"`;
  const cell = fc
    .tuple(field, fc.boolean())
    .map(([text, always]) => (always || /[",;\n\r]/.test(text) ? quote(text) : text));
  const table = fc.array(fc.array(cell, { minLength: 2, maxLength: 6 }), { minLength: 1, maxLength: 12 });
  const cuts = fc.array(fc.nat(400), { maxLength: 8 });

  test.each(["\n", "\r\n", "\r"] as const)("lines that end in %j, cut anywhere", (newline) => {
    fc.assert(
      fc.property(
        table,
        cuts,
        fc.constantFrom<Separator>(",", ";"),
        fc.boolean(),
        (rows, places, separator, ended) => {
          const file = rows.map((row) => row.join(separator)).join(newline) + (ended ? newline : "");
          const oracle = Papa.parse<string[]>(file, { delimiter: separator, newline, skipEmptyLines: true });
          expect(fieldsOf(file, { separator, cuts: places })).toEqual(oracle.data);
        },
      ),
      { numRuns: runs(500) },
    );
  });

  test("bytes of any kind: every way of cutting gives the same rows or the same message", () => {
    const text = fc.string({ unit: fc.constantFrom("a", ",", '"', "\n", "\r", " ", "ü"), maxLength: 60 });
    fc.assert(
      fc.property(text, cuts, (file, places) => {
        const outcome = (how: How) => {
          try {
            return read(file, how);
          } catch (problem) {
            return String(problem);
          }
        };
        expect(outcome({ cuts: places })).toEqual(outcome({}));
      }),
      { numRuns: runs(1_000) },
    );
  });

  test("a file larger than the buffer, cut at every place of a row", () => {
    const file = Array.from(
      { length: 9_000 },
      (_, i) => `piece ${i},"a ""b"", ${i % 7}\n",${i / 8}\r\n`,
    ).join("");
    const oracle = Papa.parse<string[]>(file, { delimiter: ",", newline: "\r\n", skipEmptyLines: true }).data;
    expect(file.length).toBeGreaterThan(262_144);
    for (let from = 0; from < 40; from += 7) {
      const places = Array.from({ length: 200 }, (_, k) => from + k * 1_733);
      expect(fieldsOf(file, { cuts: places })).toEqual(oracle);
    }
  });
});

describe("encodings", () => {
  const text = "größe;wert\nØ 10″;1,5\n";
  const expected = [
    ["größe", "wert"],
    ["Ø 10″", "1,5"],
  ];
  const utf16 = (littleEndian: boolean) => {
    const bytes = new Uint8Array(2 + text.length * 2);
    const view = new DataView(bytes.buffer);
    view.setUint16(0, 0xfeff, littleEndian);
    for (let i = 0; i < text.length; i++) view.setUint16(2 + i * 2, text.charCodeAt(i), littleEndian);
    return bytes;
  };

  test.each([true, false])("UTF-16 by its mark, little endian: %s, byte by byte", (littleEndian) => {
    const bytes = utf16(littleEndian);
    const cuts = Array.from(bytes.keys());
    expect(fieldsOf(bytes, { separator: ";", cuts })).toEqual(expected);
  });

  test("Windows-1252 when chosen: 0xD8 is Ø, 0x94 is ”", () => {
    const bytes = Uint8Array.from([0xd8, 0x3b, 0x31, 0x94, 0x0a]);
    expect(fieldsOf(bytes, { separator: ";", encoding: "windows-1252" })).toEqual([["Ø", "1”"]]);
  });

  test("a UTF-8 mark wins over a chosen Windows-1252", () => {
    expect(fieldsOf("\ufeffØ\n", { encoding: "windows-1252" })).toEqual([["Ø"]]);
  });

  test("bytes that are not UTF-8 name the line and the way out", () => {
    const file = Uint8Array.from([...bytesOf('a,b\n"x\ny'), 0xd8, ...bytesOf('",1\n')]);
    const problem = fault(file);
    expect(problem.code).toBe("encoding");
    expect(problem.line).toBe(3);
    expect(problem.message).toContain("Save the file as UTF-8, or choose Windows-1252");
  });

  test.each([
    ["overlong slash", [0xc0, 0xaf]],
    ["surrogate", [0xed, 0xa0, 0x80]],
    ["beyond U+10FFFF", [0xf4, 0x90, 0x80, 0x80]],
    ["cut off", [0xe2, 0x80]],
    ["lone continuation", [0x80]],
  ])("not UTF-8: %s", (_, bytes) => {
    expect(fault(Uint8Array.from([...bytes, 10])).code).toBe("encoding");
  });

  test("UTF-8 is judged as the platform's own decoder judges it", () => {
    const byte = fc.oneof(
      fc.integer({ min: 0x80, max: 0xff }),
      fc.constantFrom(0x41, 0xe2, 0x80, 0xb3, 0xf0, 0x9f),
    );
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 12 }), fc.array(byte, { maxLength: 6 }), (some, high) => {
        const bytes = Uint8Array.from([...some, ...high].filter((b) => ![0, 10, 13, 34].includes(b)));
        if (bytes[0] === 0xff || bytes[0] === 0xfe) return;
        let valid = true;
        try {
          new TextDecoder("utf-8", { fatal: true }).decode(bytes);
        } catch {
          valid = false;
        }
        if (valid) read(bytes);
        else expect(fault(bytes).code).toBe("encoding");
      }),
      { numRuns: runs(2_000) },
    );
  });
});

describe("files that are turned away", () => {
  const small: CsvLimits = { fieldBytes: 20, rowBytes: 50, columns: 4 };

  test("zeros are refused after a few of them, not after all", () => {
    const reader = new CsvReader({ separator: ",", encoding: "utf-8" }, () => undefined);
    const zeros = new Uint8Array(65_536);
    let pushed = 0;
    // Two gigabytes, if nobody objected.
    expect(() => {
      for (; pushed < 32_768; pushed++) reader.push(zeros);
    }).toThrow(/zero byte/);
    expect(pushed).toBeLessThan(8);
  });

  test("a field beyond the limit names limit and line", () => {
    const problem = fault(`a,b\n1,${"x".repeat(21)}\n`, { limits: small });
    expect([problem.code, problem.line]).toEqual(["field-too-long", 2]);
    expect(problem.message).toContain("20 bytes");
    expect(fieldsOf(`a,b\n1,${"x".repeat(20)}\n`, { limits: small })).toHaveLength(2);
  });

  test("a quote that is never closed stops the file at its row", () => {
    const problem = fault('a,b\n1,"open\n2,3\n');
    expect([problem.code, problem.line]).toEqual(["unclosed-quote", 2]);
    const long = fault(`a,b\n1,"open\n${"2,3\n".repeat(40_000)}`);
    expect([long.code, long.line]).toEqual(["field-too-long", 2]);
    expect(long.message).toContain("never closed");
  });

  test("a row and a number of columns beyond the limit", () => {
    expect(fault(`${"aaaaaaaaaaaaaaaaaa,".repeat(4)}\n`, { limits: small }).code).toBe("row-too-long");
    expect(fault("1,2,3,4,5\n", { limits: small }).code).toBe("too-many-columns");
    expect(fault(`a\n${",".repeat(CSV_LIMITS.columns)}\n`).line).toBe(2);
  });

  test("a row of many megabytes without end is refused in linear time", () => {
    const reader = new CsvReader({ separator: ",", encoding: "utf-8" }, () => undefined);
    const chunk = bytesOf("1234567,".repeat(100));
    expect(() => {
      for (let i = 0; i < 100_000; i++) reader.push(chunk);
    }).toThrow(/columns|longer/);
  });
});

describe("separator", () => {
  test.each([
    ["a,b,c\n1,2,3\n", ","],
    ["a;b;c\n1,5;2,5;3,5\n", ";"],
    ["a\tb\n1,5\t2;3\n", "\t"],
    ['"a,b";c\n"1,2";3\n', ";"],
    ["piece,note\n1,x; y; z\n2,x; y\n", ","],
    ["only\n1\n2\n", ","],
    ["\r\n\r\na;b\r\n1;2\r\n", ";"],
  ] as const)("%j", (text, expected) => {
    expect(detectSeparator(text)).toBe(expected);
  });
});
