import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { deflateRawSync } from "node:zlib";
import ExcelJS from "exceljs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { previewFile } from "../../../db/intake/read-file";
import { readXlsx, XLSX_LIMITS, type XlsxOptions } from "../../../db/intake/xlsx";
import type { Cell } from "../../../lib/intake/cells";
import { utc } from "../../../lib/intake/zone";

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "sheets-"));
});
afterAll(() => rm(folder, { recursive: true }));

type Part = { name: string; text: string | Buffer; declared?: number; flags?: number };

/** An archive in the order given, written by hand so that its directory can lie. */
function archive(parts: readonly Part[]): Buffer {
  const locals: Buffer[] = [];
  const directory: Buffer[] = [];
  let offset = 0;
  for (const { name, text, declared, flags = 0 } of parts) {
    const bytes = Buffer.from(text);
    const packed = deflateRawSync(bytes);
    const sizes = Buffer.alloc(20);
    sizes.writeUInt16LE(flags, 0);
    sizes.writeUInt16LE(8, 2);
    sizes.writeUInt32LE(packed.length, 12);
    sizes.writeUInt32LE(declared ?? bytes.length, 16);
    const local = Buffer.concat([
      Buffer.from("PK\x03\x04\x14\0"),
      sizes,
      Buffer.from([name.length, 0, 0, 0]),
      Buffer.from(name),
      packed,
    ]);
    const entry = Buffer.concat([
      Buffer.from("PK\x01\x02\x14\0\x14\0"),
      sizes,
      Buffer.from([name.length, 0]),
      Buffer.alloc(16),
      Buffer.from(name),
    ]);
    entry.writeUInt32LE(offset, 42);
    locals.push(local);
    directory.push(entry);
    offset += local.length;
  }
  const end = Buffer.alloc(22);
  end.write("PK\x05\x06", "latin1");
  const size = directory.reduce((sum, { length }) => sum + length, 0);
  end.writeUInt16LE(parts.length, 8);
  end.writeUInt16LE(parts.length, 10);
  end.writeUInt32LE(size, 12);
  end.writeUInt32LE(offset, 16);
  return Buffer.concat([...locals, ...directory, end]);
}

const MAIN = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
const RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const sheetOf = (rows: string) =>
  `<?xml version="1.0"?><worksheet ${MAIN}><sheetData>${rows}</sheetData></worksheet>`;

/** The parts of a workbook, its sheet before everything that explains it. */
function partsOf(sheetText: string, change: Partial<Part> = {}): Part[] {
  return [
    { name: "xl/worksheets/sheet1.xml", text: sheetText, ...change },
    {
      name: "xl/styles.xml",
      text: `<styleSheet ${MAIN}><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="2"><xf numFmtId="0"/><xf numFmtId="22" applyNumberFormat="1"/></cellXfs></styleSheet>`,
    },
    {
      name: "xl/workbook.xml",
      text: `<workbook ${MAIN} xmlns:r="${RELATIONS}"><sheets><sheet name="Data" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    },
    {
      name: "xl/_rels/workbook.xml.rels",
      text: `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${RELATIONS}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    },
  ];
}

async function fileOf(name: string, bytes: Uint8Array): Promise<string> {
  const path = join(folder, name);
  await writeFile(path, bytes);
  return path;
}

async function rowsOf(path: string, options: Partial<XlsxOptions> = {}) {
  const rows: { line: number; cells: Cell[] }[] = [];
  const read = await readXlsx(path, { limits: XLSX_LIMITS, sheet: null, ...options }, (line, cells) => {
    rows.push({ line, cells });
  });
  return { ...read, rows };
}

async function workbook(name: string, fill: (book: ExcelJS.Workbook) => void): Promise<string> {
  const book = new ExcelJS.Workbook();
  fill(book);
  const path = join(folder, name);
  await book.xlsx.writeFile(path);
  return path;
}

describe("the rows of a workbook", () => {
  test("every kind of cell", async () => {
    const when = new Date(Date.UTC(2024, 0, 31, 14, 5));
    const path = await workbook("cells.xlsx", (book) => {
      const sheet = book.addWorksheet("Data");
      sheet.addRow(["piece", "when", "value", "formula"]);
      sheet.addRow(["S1", when, 1.5, { formula: "C2*2", result: 3 }]);
      sheet.addRow([]);
      sheet.addRow([
        { richText: [{ text: "S" }, { text: "2" }] },
        null,
        { error: "#N/A" },
        { formula: "C2*2" },
        true,
        null,
      ]);
      sheet.addRow([{ text: "link", hyperlink: "http://localhost" }, "", 0.1]);
    });
    expect(await rowsOf(path)).toEqual({
      sheet: "Data",
      rows: [
        { line: 1, cells: ["piece", "when", "value", "formula"] },
        { line: 2, cells: ["S1", when, 1.5, { formula: "C2*2", result: 3 }] },
        { line: 4, cells: ["S2", null, { error: "#N/A" }, { formula: "C2*2", result: null }, true] },
        { line: 5, cells: ["link", expect.toSatisfy((cell) => cell === "" || cell === null), 0.1] },
      ],
    });
  });

  test("the first visible sheet that holds anything, or the named one", async () => {
    const path = await workbook("sheets.xlsx", (book) => {
      book.addWorksheet("Empty");
      book.addWorksheet("Hidden", { state: "hidden" }).addRow(["hidden"]);
      book.addWorksheet("Data").addRow(["data"]);
      book.addWorksheet("More").addRow(["more"]);
    });
    expect(await rowsOf(path)).toMatchObject({ sheet: "Data", rows: [{ cells: ["data"] }] });
    expect(await rowsOf(path, { sheet: "More" })).toMatchObject({
      sheet: "More",
      rows: [{ cells: ["more"] }],
    });
    await expect(rowsOf(path, { sheet: "Other" })).rejects.toThrow(
      "no sheet “Other”; it has “Empty”, “Hidden”, “Data”, “More”",
    );
    await expect(rowsOf(await workbook("none.xlsx", (book) => book.addWorksheet("Empty")))).rejects.toThrow(
      /holds anything/,
    );
  });

  test("parts in any order: a date is a date though its format comes after the sheet", async () => {
    // 45322.5 is noon of 2024-01-31; number format 22 is a date with time (ISO/IEC 29500-1, 18.8.30, from memory).
    const rows =
      '<row r="1"><c r="A1" s="1"><v>45322.5</v></c><c r="B1" t="inlineStr"><is><t>Ø</t></is></c></row>';
    const path = await fileOf("order.xlsx", archive(partsOf(sheetOf(rows))));
    expect(await rowsOf(path)).toMatchObject({
      sheet: "Data",
      rows: [{ line: 1, cells: [new Date(Date.UTC(2024, 0, 31, 12)), "Ø"] }],
    });
  });

  test("characters of several bytes survive wherever a part is cut", async () => {
    const texts = Array.from({ length: 30_000 }, (_, i) => `${"x".repeat(i % 7)}″µ😀${i}`);
    const cells = texts.map(
      (text, i) => `<row r="${i + 1}"><c r="A${i + 1}" t="inlineStr"><is><t>${text}</t></is></c></row>`,
    );
    const path = await fileOf("unicode.xlsx", archive(partsOf(sheetOf(cells.join("")))));
    const { rows } = await rowsOf(path);
    expect(rows.map(({ cells }) => cells[0])).toEqual(texts);
  });

  test("what the receiver throws passes through", async () => {
    const path = await workbook("throw.xlsx", (book) => book.addWorksheet("Data").addRow([1]));
    const reading = readXlsx(path, { limits: XLSX_LIMITS, sheet: null }, () =>
      Promise.reject(new RangeError("full")),
    );
    await expect(reading).rejects.toThrow(RangeError);
  });
});

describe("workbooks that are turned away", () => {
  const row = '<row r="1"><c r="A1"><v>1</v></c></row>';

  test("a bomb is refused by what its directory declares, before anything is unpacked", async () => {
    const zeros = Buffer.alloc(64 << 20);
    const path = await fileOf("bomb.xlsx", archive(partsOf("", { text: zeros })));
    await expect(rowsOf(path)).rejects.toThrow(/refused unread: part .* more than 200 times/);
  });

  test("what it may hold unpacked is a setting, which the refusal names", async () => {
    const path = await fileOf("half.xlsx", archive(partsOf(sheetOf(row.repeat(100)))));
    const file = { path, name: "half.xlsx" };
    const options = { zone: utc, mapping: null, rows: 1 };
    await expect(previewFile(file, { ...options, mostUnpackedBytes: 1000 })).rejects.toThrow(
      "more than 1,000 bytes (STEADYREST_MAX_UNPACKED_MB)",
    );
    expect((await previewFile(file, { ...options, mostUnpackedBytes: 1e6 })).header).toEqual(["1"]);
  });

  test("a directory that lies is found out at the first byte too many", async () => {
    const long = sheetOf(row.repeat(100_000));
    const path = await fileOf("liar.xlsx", archive(partsOf(long, { declared: 2_000 })));
    await expect(rowsOf(path)).rejects.toThrow(/size is not the one/);
    const short = await fileOf("short.xlsx", archive(partsOf(sheetOf(row), { declared: 5_000 })));
    await expect(rowsOf(short)).rejects.toThrow(/size is not the one/);
  });

  test("limits on parts, on size and on rows name themselves", async () => {
    const path = await fileOf(
      "limits.xlsx",
      archive(
        partsOf(sheetOf('<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2"><v>1</v></c></row>')),
      ),
    );
    await expect(rowsOf(path, { limits: { ...XLSX_LIMITS, entries: 3 } })).rejects.toThrow(
      "more than 3 parts",
    );
    await expect(rowsOf(path, { limits: { ...XLSX_LIMITS, totalSize: 100 } })).rejects.toThrow(
      "more than 100 bytes",
    );
    await expect(rowsOf(path, { limits: { ...XLSX_LIMITS, rows: 1 } })).rejects.toThrow(
      "Line 2: the sheet has more than 1 rows",
    );
  });

  test("a password, a cut off file, damaged packing, another archive", async () => {
    const good = archive(partsOf(sheetOf(row)));
    await expect(
      rowsOf(await fileOf("locked.xlsx", archive(partsOf(sheetOf(row), { flags: 1 })))),
    ).rejects.toThrow(/password/);
    await expect(rowsOf(await fileOf("cut.xlsx", good.subarray(0, good.length - 30)))).rejects.toThrow(
      /cut off/,
    );
    await expect(rowsOf(await fileOf("other.xlsx", archive([{ name: "a.txt", text: "a" }])))).rejects.toThrow(
      /no workbook/,
    );
    const damaged = Buffer.from(good);
    damaged.fill(0xff, 60, 120);
    await expect(rowsOf(await fileOf("damaged.xlsx", damaged))).rejects.toThrow(/damaged|cannot be read/);
  });

  test("entities of its own in XML are not expanded", async () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE w [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>${sheetOf('<row r="1"><c r="A1" t="str"><v>&b;</v></c></row>').slice(21)}`;
    await expect(rowsOf(await fileOf("entity.xlsx", archive(partsOf(bomb))))).rejects.toThrow(
      /cannot be read/,
    );
  });

  test("not XML at all", async () => {
    await expect(rowsOf(await fileOf("text.xlsx", archive(partsOf("good morning"))))).rejects.toThrow(
      /cannot be read|holds anything/,
    );
  });

  test("a workbook of the library itself is left as it was", async () => {
    const path = await workbook("untouched.xlsx", (book) => book.addWorksheet("Data").addRow([1]));
    const before = await readFile(path);
    await rowsOf(path);
    expect(await readFile(path)).toEqual(before);
  });
});
