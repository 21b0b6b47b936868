import { createReadStream } from "node:fs";
import { open, stat } from "node:fs/promises";
import type { FileNames, IntakeCounts, IntakeSink, Notice } from "../../lib/intake/batch";
import type { Cell } from "../../lib/intake/cells";
import { interpretCsv, interpretRows } from "../../lib/intake/interpret";
import type { Mapping } from "../../lib/intake/mapping";
import { type IntakePreview, type PreviewOptions, previewCsv, previewRows } from "../../lib/intake/preview";
import { BATCH_ROWS, type InterpretOptions } from "../../lib/intake/row-interpreter";
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
  /** Names and temperatures that the sink looks at; the others may hold anything. All of them when absent. */
  wanted?: InterpretOptions["wanted"];
  /** False leaves the digest empty: nobody asks for it when nothing is stored. */
  wantsDigest?: boolean;
} & WorkbookOptions;

export type WorkbookOptions = {
  /** The most that a workbook may hold unpacked; without it the usual limit. */
  mostUnpackedBytes?: number | undefined;
};

/**
 * Reads a measurement file, CSV, XLSX or QIF results, through its mapping into `sink`, in memory that does not grow with
 * the file. The digest is the SHA-256 of its bytes. A batch is filled again once `sink.batch` has returned.
 *
 * @throws UnreadableFile when it cannot be read at all; nothing that `sink` was given may be stored then
 */
export async function readMeasurementFile(
  file: { path: string; name: string },
  mapping: Mapping,
  options: ReadOptions,
  sink: IntakeSink,
): Promise<FileReading> {
  const read = { csv: readCsvFile, xlsx: readSheetFile, qif: readQifFile };
  return read[await kindOf(file)](file, mapping, options, sink);
}

async function readCsvFile(
  { path }: { path: string },
  mapping: Mapping,
  { zone, onProgress, onNames, wanted, wantsDigest = true }: ReadOptions,
  sink: IntakeSink,
): Promise<FileReading> {
  const total = (await stat(path)).size;
  const hash = wantsDigest ? await sha256() : null;
  // A small file needs no large piece of memory: a row takes two bytes and more.
  const batchRows = Math.min(BATCH_ROWS, total + 1);
  const reading = interpretCsv(mapping, { zone, batchRows, reusesBatch: true, wanted }, sink);
  onNames?.(reading.names);
  const handle = await open(path, "r");
  try {
    // One piece of memory for all chunks, where a stream takes a new one for each: the same for batches of rows.
    const chunk = Buffer.allocUnsafeSlow(Math.min(CHUNK_BYTES, total + 1));
    for (let done = 0; ; ) {
      const { bytesRead } = await handle.read(chunk, 0, chunk.length);
      if (bytesRead === 0) break;
      const bytes = chunk.subarray(0, bytesRead);
      hash?.update(bytes);
      reading.push(bytes);
      done += bytesRead;
      onProgress?.(done, total);
    }
  } finally {
    await handle.close();
  }
  reading.end();
  return { digest: hash?.digest("hex") ?? "", counts: { ...reading.counts } };
}

async function readSheetFile(
  { path }: { path: string },
  mapping: Mapping,
  { zone, onProgress, onNames, wantsDigest = true, mostUnpackedBytes }: ReadOptions,
  sink: IntakeSink,
): Promise<FileReading> {
  const { readXlsx, xlsxLimits } = await spreadsheets();
  const digest = wantsDigest ? await digestOf(path) : "";
  const reading = interpretRows(mapping, { zone }, sink);
  onNames?.(reading.names);
  await readXlsx(path, { limits: xlsxLimits(mostUnpackedBytes), sheet: null }, (line, cells) => {
    reading.push(line, cells);
    // A sheet does not tell its length beforehand.
    if (line % 1000 === 0) onProgress?.(line, 0);
  });
  reading.end();
  return { digest, counts: { ...reading.counts } };
}

async function readQifFile(
  { path }: { path: string },
  mapping: Mapping,
  { zone, onProgress, onNames, wantsDigest = true }: ReadOptions,
  sink: IntakeSink,
): Promise<FileReading> {
  const { QIF_LIMITS, readQif } = await results();
  const digest = wantsDigest ? await digestOf(path) : "";
  const reading = interpretRows(mapping, { zone }, sink);
  onNames?.(reading.names);
  let notices = 0;
  await readQif(path, QIF_LIMITS, {
    onRow(line, cells) {
      reading.push(line, cells);
      if (line % 1000 === 0) onProgress?.(line, 0);
    },
    onNotice(notice) {
      notices++;
      sink.notice(notice);
    },
  });
  reading.end();
  return { digest, counts: { ...reading.counts, notices: reading.counts.notices + notices } };
}

/** The spreadsheet library takes 0.2 s of processor time to load, which a CSV file need not wait for. */
const spreadsheets = () => import("./xlsx");

/** Cryptography and the reader of XML take 30 ms of processor time to load, which a study of a CSV file need not wait for. */
const sha256 = async () => (await import("node:crypto")).createHash("sha256");
const results = () => import("./qif");

/** SHA-256 of a file's bytes. */
export async function digestOf(path: string): Promise<string> {
  const hash = await sha256();
  for await (const chunk of createReadStream(path)) hash.update(chunk as Buffer);
  return hash.digest("hex");
}

/** A look at the start of a file: its header, its first rows, a mapping, and what would be taken and refused. */
export async function previewFile(
  file: { path: string; name: string },
  options: PreviewOptions & WorkbookOptions,
): Promise<IntakePreview> {
  const kind = await kindOf(file);
  if (kind === "csv") {
    const { bytes, whole } = await beginningOf(file.path, PREVIEW_BYTES);
    return previewCsv(bytes, { ...options, whole });
  }
  const rows: { line: number; cells: readonly Cell[] }[] = [];
  const notices: Notice[] = [];
  const onRow = (line: number, cells: readonly Cell[]) => {
    rows.push({ line, cells });
    if (rows.length >= PREVIEW_SHEET_ROWS) throw ENOUGH;
  };
  try {
    if (kind === "qif") {
      const { QIF_LIMITS, readQif } = await results();
      await readQif(file.path, QIF_LIMITS, { onRow, onNotice: (each) => notices.push(each) });
    } else {
      const { readXlsx, xlsxLimits } = await spreadsheets();
      const limits = xlsxLimits(options.mostUnpackedBytes);
      await readXlsx(file.path, { limits, sheet: null }, onRow);
    }
  } catch (error) {
    if (error !== ENOUGH) throw error;
  }
  const found = previewRows(rows, { ...options, whole: rows.length < PREVIEW_SHEET_ROWS });
  return { ...found, notices: [...notices, ...found.notices].slice(0, options.rows) };
}

/** Thrown to stop reading a sheet once there is enough for a preview. */
const ENOUGH = new Error("Enough rows for a preview.");

async function kindOf({ path, name }: { path: string; name: string }): Promise<"csv" | "xlsx" | "qif"> {
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
