import { createHash } from "node:crypto";
import { createReadStream } from "node:fs";
import { open, stat } from "node:fs/promises";
import type { FileNames, IntakeCounts, IntakeSink } from "../../lib/intake/batch";
import type { Cell } from "../../lib/intake/cells";
import { interpretCsv, interpretRows } from "../../lib/intake/interpret";
import type { Mapping } from "../../lib/intake/mapping";
import { type IntakePreview, type PreviewOptions, previewCsv, previewRows } from "../../lib/intake/preview";
import { sniffFile } from "../../lib/intake/sniff-file";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import type { ZoneOffset } from "../../lib/intake/zone";

/** Enough of a file to tell its kind, its layout and its first rows. */
const PREVIEW_BYTES = 256 * 1024;
const PREVIEW_SHEET_ROWS = 200;
const CHUNK_BYTES = 1 << 20;

export type FileReading = { digest: string; counts: IntakeCounts };

export type ReadOptions = {
  /** Zone of times that state none: the plant's. */
  zone: ZoneOffset;
  /** Called now and then with the bytes read so far and the size of the file; throwing stops the reading. */
  onProgress?: (done: number, total: number) => void;
  /** Given the names as soon as reading begins; they grow while it goes on. */
  onNames?: (names: FileNames) => void;
  /** False leaves the digest empty: nobody asks for it when nothing is stored. */
  wantsDigest?: boolean;
};

/**
 * Reads a measurement file, CSV or XLSX, through its mapping into `sink`, in memory that does not grow with
 * the file. The digest is the SHA-256 of its bytes.
 *
 * @throws UnreadableFile when it cannot be read at all; nothing that `sink` was given may be stored then
 */
export async function readMeasurementFile(
  file: { path: string; name: string },
  mapping: Mapping,
  options: ReadOptions,
  sink: IntakeSink,
): Promise<FileReading> {
  return (await kindOf(file)) === "csv"
    ? readCsvFile(file, mapping, options, sink)
    : readSheetFile(file, mapping, options, sink);
}

async function readCsvFile(
  { path }: { path: string },
  mapping: Mapping,
  { zone, onProgress, onNames, wantsDigest = true }: ReadOptions,
  sink: IntakeSink,
): Promise<FileReading> {
  const total = (await stat(path)).size;
  const hash = wantsDigest ? createHash("sha256") : null;
  const reading = interpretCsv(mapping, { zone }, sink);
  onNames?.(reading.names);
  let done = 0;
  for await (const chunk of createReadStream(path, { highWaterMark: CHUNK_BYTES })) {
    const bytes = chunk as Buffer;
    hash?.update(bytes);
    reading.push(bytes);
    done += bytes.length;
    onProgress?.(done, total);
  }
  reading.end();
  return { digest: hash?.digest("hex") ?? "", counts: { ...reading.counts } };
}

async function readSheetFile(
  { path }: { path: string },
  mapping: Mapping,
  { zone, onProgress, onNames, wantsDigest = true }: ReadOptions,
  sink: IntakeSink,
): Promise<FileReading> {
  const { readXlsx, XLSX_LIMITS } = await spreadsheets();
  const digest = wantsDigest ? await digestOf(path) : "";
  const reading = interpretRows(mapping, { zone }, sink);
  onNames?.(reading.names);
  await readXlsx(path, { limits: XLSX_LIMITS, sheet: null }, (line, cells) => {
    reading.push(line, cells);
    // A sheet does not tell its length beforehand.
    if (line % 1000 === 0) onProgress?.(line, 0);
  });
  reading.end();
  return { digest, counts: { ...reading.counts } };
}

/** The spreadsheet library takes 0.2 s of processor time to load, which a CSV file need not wait for. */
const spreadsheets = () => import("./xlsx");

/** SHA-256 of a file's bytes. */
export async function digestOf(path: string): Promise<string> {
  const hash = createHash("sha256");
  for await (const chunk of createReadStream(path)) hash.update(chunk as Buffer);
  return hash.digest("hex");
}

/** A look at the start of a file: its header, its first rows, a mapping, and what would be taken and refused. */
export async function previewFile(
  file: { path: string; name: string },
  options: PreviewOptions,
): Promise<IntakePreview> {
  if ((await kindOf(file)) === "csv") {
    const { bytes, whole } = await beginningOf(file.path, PREVIEW_BYTES);
    return previewCsv(bytes, { ...options, whole });
  }
  const { readXlsx, XLSX_LIMITS } = await spreadsheets();
  const rows: { line: number; cells: Cell[] }[] = [];
  try {
    await readXlsx(file.path, { limits: XLSX_LIMITS, sheet: null }, (line, cells) => {
      rows.push({ line, cells });
      if (rows.length >= PREVIEW_SHEET_ROWS) throw ENOUGH;
    });
  } catch (error) {
    if (error !== ENOUGH) throw error;
  }
  return previewRows(rows, { ...options, whole: rows.length < PREVIEW_SHEET_ROWS });
}

/** Thrown to stop reading a sheet once there is enough for a preview. */
const ENOUGH = new Error("Enough rows for a preview.");

async function kindOf({ path, name }: { path: string; name: string }): Promise<"csv" | "xlsx"> {
  const { bytes } = await beginningOf(path, 4096);
  const kind = sniffFile(bytes, name);
  if (kind.kind === "unsupported") throw new UnreadableFile("unsupported", null, kind.reason);
  return kind.kind;
}

async function beginningOf(path: string, length: number): Promise<{ bytes: Uint8Array; whole: boolean }> {
  const handle = await open(path, "r");
  try {
    const { size } = await handle.stat();
    const bytes = new Uint8Array(Math.min(length, size));
    await handle.read(bytes, 0, bytes.length, 0);
    return { bytes, whole: size <= length };
  } finally {
    await handle.close();
  }
}
