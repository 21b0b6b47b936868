import { byteOrderMark } from "./encoding";

/** What a file is by its first bytes, and for a file that intake does not read, why and what to do. */
export type FileKind =
  | { kind: "csv" }
  | { kind: "xlsx" }
  | { kind: "qif" }
  | { kind: "unsupported"; reason: string };

const EXPORT = "Export the measurements as CSV, XLSX or QIF results.";

/** First bytes of files that people drop by mistake (signatures from memory). */
const SIGNATURES: readonly { bytes: readonly number[]; reason: string }[] = [
  {
    bytes: [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1],
    reason:
      "This is an old spreadsheet (.xls) or a workbook protected by a password. Save it as XLSX without password, or as CSV.",
  },
  {
    bytes: [0x25, 0x50, 0x44, 0x46],
    reason: `This is a PDF; measurements cannot be read from it. ${EXPORT}`,
  },
  { bytes: [0x89, 0x50, 0x4e, 0x47], reason: `This is a picture (PNG), not a measurement file. ${EXPORT}` },
  { bytes: [0xff, 0xd8, 0xff], reason: `This is a picture (JPEG), not a measurement file. ${EXPORT}` },
  { bytes: [0x47, 0x49, 0x46, 0x38], reason: `This is a picture (GIF), not a measurement file. ${EXPORT}` },
  { bytes: [0x1f, 0x8b], reason: "This file is compressed (gzip). Unpack it first." },
  { bytes: [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c], reason: "This is an archive (7z). Unpack it first." },
  { bytes: [0x52, 0x61, 0x72, 0x21], reason: "This is an archive (RAR). Unpack it first." },
  { bytes: [0x50, 0x4b, 0x05, 0x06], reason: "This is an empty archive: there is nothing to read in it." },
];

const ZIP = [0x50, 0x4b, 0x03, 0x04];

/**
 * Judges a file by its first bytes (a few hundred are enough); the name only tells a workbook from other archives.
 *
 * A name proves nothing: spreadsheets exported as ".xls" are often CSV, and a renamed one must not be parsed.
 */
export function sniffFile(firstBytes: Uint8Array, name: string): FileKind {
  if (firstBytes.length === 0) return unsupported("The file is empty: 0 bytes. Export it again.");
  if (startsWith(firstBytes, ZIP)) {
    if (/\.(xlsx|xlsm)$/i.test(name)) return { kind: "xlsx" };
    return unsupported("This is an archive (ZIP). Unpack it first; a workbook must be named .xlsx.");
  }
  for (const { bytes, reason } of SIGNATURES) if (startsWith(firstBytes, bytes)) return unsupported(reason);
  const mark = byteOrderMark(firstBytes);
  if ((mark === null || mark.label === "utf-8") && firstBytes.includes(0)) {
    return unsupported(`This is not a text file: it holds zero bytes. ${EXPORT}`);
  }
  if (/\.(xlsx|xlsm)$/i.test(name)) {
    return unsupported("The file is named .xlsx but is not a workbook. Save it again from the spreadsheet.");
  }
  const label = mark?.label ?? "utf-8";
  const start = new TextDecoder(label).decode(firstBytes.subarray(0, 4_096)).trimStart().toLowerCase();
  if (/^(<\?xml.*)?<(\w+:)?qifdocument\b/s.test(start)) return { kind: "qif" };
  if (start.startsWith("<"))
    return unsupported(`This is XML or a web page, and no QIF results document. ${EXPORT}`);
  if (start.startsWith("{") || start.startsWith("[{"))
    return unsupported(`This is JSON, not a table of measurements. ${EXPORT}`);
  return { kind: "csv" };
}

function unsupported(reason: string): FileKind {
  return { kind: "unsupported", reason };
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, index) => bytes[index] === byte);
}
