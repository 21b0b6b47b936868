import { type FileHandle, open } from "node:fs/promises";
import { Readable } from "node:stream";
import { createInflateRaw } from "node:zlib";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import {
  emptyZipEnd,
  LOCAL_HEADER_SIZE,
  storedLocalHeader,
  ZIP_TAIL,
  type ZipEntry,
  type ZipLimits,
  zipDataAt,
  zipDirectoryAt,
  zipEntries,
} from "../../lib/intake/zip-directory";

const SHARED_STRINGS = "xl/sharedStrings.xml";
const NO_STRINGS = new TextEncoder().encode(
  '<?xml version="1.0"?><sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>',
);

/** Parts that rows need, in the order in which they are needed; sheets come after them. */
const FIRST_PARTS = ["xl/_rels/workbook.xml.rels", "xl/workbook.xml", "xl/styles.xml", SHARED_STRINGS];
const SHEET = /^xl\/worksheets\/sheet(\d+)\.xml$/;

/** Some programs write part names with a leading or a backward slash. */
function partName(name: string): string {
  return name.replaceAll("\\", "/").replace(/^\//, "");
}

/**
 * The parts of a workbook that rows need, as a new archive in which they are stored in reading order.
 *
 * A reader that goes through an archive once must meet formats and shared strings before the sheets, but programs
 * write them in any order. Unpacking here also holds every part to the size its directory declares, and leaves
 * out whatever a directory does not name, so that no part can grow beyond the limits.
 *
 * @throws UnreadableFile, also while the stream is read
 */
export async function workbookParts(path: string, limits: ZipLimits): Promise<Readable> {
  const file = await open(path, "r");
  try {
    const parts = neededParts(await directoryOf(file, limits));
    return Readable.from(archive(file, parts), { objectMode: false });
  } catch (problem) {
    await file.close();
    throw problem;
  }
}

async function directoryOf(file: FileHandle, limits: ZipLimits): Promise<ZipEntry[]> {
  const { size: fileSize } = await file.stat();
  const tail = await readAt(file, {
    at: Math.max(0, fileSize - ZIP_TAIL),
    length: Math.min(fileSize, ZIP_TAIL),
  });
  const { offset, size } = zipDirectoryAt(tail, { fileSize });
  return zipEntries(await readAt(file, { at: offset, length: size }), limits);
}

function neededParts(entries: readonly ZipEntry[]): ZipEntry[] {
  const byName = new Map(
    entries.map((entry) => [partName(entry.name), { ...entry, name: partName(entry.name) }]),
  );
  const sheets = [...byName.values()]
    .map((entry) => ({ entry, number: Number(SHEET.exec(entry.name)?.[1] ?? Number.NaN) }))
    .filter(({ number }) => !Number.isNaN(number))
    .sort((a, b) => a.number - b.number)
    .map(({ entry }) => entry);
  if (!byName.has("xl/workbook.xml") || sheets.length === 0) {
    throw new UnreadableFile(
      "archive",
      null,
      "This archive is no workbook with sheets. Export the measurements as XLSX or CSV.",
    );
  }
  return [...FIRST_PARTS.flatMap((name) => byName.get(name) ?? []), ...sheets].filter(({ size }) => size > 0);
}

async function* archive(file: FileHandle, parts: readonly ZipEntry[]): AsyncGenerator<Uint8Array> {
  try {
    const hasStrings = parts.some(({ name }) => name === SHARED_STRINGS);
    if (!hasStrings) {
      yield storedLocalHeader({ name: SHARED_STRINGS, size: NO_STRINGS.length, crc: 0 });
      yield NO_STRINGS;
    }
    for (const part of parts) {
      yield storedLocalHeader(part);
      yield* unpacked(file, part);
    }
    yield emptyZipEnd();
  } finally {
    await file.close();
  }
}

/**
 * The bytes of a part: exactly as many as its directory declares.
 *
 * Chunks end between characters: the library turns each chunk into text on its own, and a character cut in two
 * would come out as two wrong ones.
 */
async function* unpacked(file: FileHandle, part: ZipEntry): AsyncGenerator<Uint8Array> {
  const start = zipDataAt(await readAt(file, { at: part.offset, length: LOCAL_HEADER_SIZE }), part);
  const packed = packedBytes(file, { start, end: start + part.packed });
  const source = part.method === "stored" ? packed : Readable.from(packed).pipe(createInflateRaw());
  let size = 0;
  let held: Uint8Array = new Uint8Array(0);
  try {
    for await (const chunk of source as AsyncIterable<Uint8Array>) {
      size += chunk.length;
      if (size > part.size) break;
      const bytes = held.length === 0 ? chunk : Buffer.concat([held, chunk]);
      const cut = lastCharacterStart(bytes);
      if (cut > 0) yield bytes.subarray(0, cut);
      held = bytes.subarray(cut);
    }
    if (held.length > 0 && size === part.size) yield held;
  } catch (problem) {
    if (problem instanceof UnreadableFile) throw problem;
    throw damaged(part, "its packed bytes are not readable");
  }
  if (size !== part.size) throw damaged(part, "its size is not the one that the directory declares");
}

/** Where the last character starts if it may be incomplete, else the length. */
function lastCharacterStart(bytes: Uint8Array): number {
  let at = bytes.length;
  while (at > 0 && bytes.length - at < 4) {
    const byte = bytes[--at] as number;
    if (byte < 0x80) return bytes.length;
    if (byte >= 0xc0) return at;
  }
  return bytes.length;
}

async function* packedBytes(file: FileHandle, { start, end }: { start: number; end: number }) {
  const most = 1 << 16;
  for (let at = start; at < end; at += most)
    yield await readAt(file, { at, length: Math.min(most, end - at) });
}

async function readAt(file: FileHandle, { at, length }: { at: number; length: number }): Promise<Uint8Array> {
  const bytes = new Uint8Array(length);
  let filled = 0;
  while (filled < length) {
    const { bytesRead } = await file.read(bytes, filled, length - filled, at + filled);
    if (bytesRead === 0)
      throw new UnreadableFile("archive", null, "The workbook is cut off. Save or copy it again.");
    filled += bytesRead;
  }
  return bytes;
}

function damaged(part: ZipEntry, why: string): UnreadableFile {
  return new UnreadableFile(
    "archive",
    null,
    `The workbook is damaged at part “${part.name}”: ${why}. Save it again.`,
  );
}
