import { UnreadableFile } from "./unreadable-file";

/** One file inside an archive, as its directory declares it. */
export type ZipEntry = {
  name: string;
  method: "stored" | "deflated";
  packed: number;
  size: number;
  crc: number;
  /** Where its local header starts in the archive. */
  offset: number;
};

export type ZipLimits = {
  entries: number;
  /** Bytes of all entries together, unpacked. */
  totalSize: number;
  /** Unpacked bytes for each packed one. Sheets of measurements reach some 30, a file of zeros 1,030. */
  ratio: number;
};
export const ZIP_LIMITS: ZipLimits = { entries: 2_000, totalSize: 1 << 30, ratio: 200 };

/** An entry may be this large whatever its ratio: a small bomb is no bomb. */
const HARMLESS_SIZE = 1 << 22;

const END_SIGNATURE = 0x06054b50;
const ENTRY_SIGNATURE = 0x02014b50;
const LOCAL_SIGNATURE = 0x04034b50;
const END_SIZE = 22;
const ENTRY_SIZE = 46;
export const LOCAL_HEADER_SIZE = 30;

/** The end of an archive that is sure to hold its end record: its comment may have 65,535 bytes. */
export const ZIP_TAIL = END_SIZE + 65_535;

/**
 * Where the directory of an archive lies, from the archive's last `ZIP_TAIL` bytes (or all, if it has fewer).
 *
 * Source: PKWARE, .ZIP File Format Specification, section 4.3 (from memory); this page's other functions too.
 *
 * @throws UnreadableFile when there is no end record, as in a file that was cut off
 */
export function zipDirectoryAt(
  tail: Uint8Array,
  { fileSize }: { fileSize: number },
): { offset: number; size: number } {
  const view = viewOf(tail);
  for (let at = tail.length - END_SIZE; at >= 0; at--) {
    if (view.getUint32(at, true) !== END_SIGNATURE) continue;
    const size = view.getUint32(at + 12, true);
    const offset = view.getUint32(at + 16, true);
    if (size === 0xffffffff || offset === 0xffffffff)
      throw tooLarge("it needs the format for more than 4 GB");
    if (offset + size <= fileSize - tail.length + at) return { offset, size };
  }
  throw new UnreadableFile(
    "archive",
    null,
    "The workbook is damaged or cut off: it has no directory. Save or copy it again.",
  );
}

/**
 * The entries of an archive's directory, refused as a whole when it declares more than the limits: unpacking would
 * fill memory or disk. What it declares must be held to while unpacking, since a directory can lie.
 *
 * @throws UnreadableFile for too many entries, too large or too dense ones, encryption, or another compression
 */
export function zipEntries(directory: Uint8Array, limits: ZipLimits): ZipEntry[] {
  const view = viewOf(directory);
  const entries: ZipEntry[] = [];
  const names = new Set<string>();
  const decoder = new TextDecoder();
  let total = 0;
  let at = 0;
  while (at + ENTRY_SIZE <= directory.length && view.getUint32(at, true) === ENTRY_SIGNATURE) {
    if (entries.length === limits.entries)
      throw tooLarge(`it holds more than ${shown(limits.entries)} parts`);
    const flags = view.getUint16(at + 8, true);
    const method = view.getUint16(at + 10, true);
    const nameLength = view.getUint16(at + 28, true);
    const name = decoder.decode(directory.subarray(at + ENTRY_SIZE, at + ENTRY_SIZE + nameLength));
    if ((flags & 1) !== 0) {
      throw new UnreadableFile(
        "archive",
        null,
        "The workbook is protected by a password. Save it without one.",
      );
    }
    if ((method !== 0 && method !== 8) || names.has(name)) {
      throw new UnreadableFile(
        "archive",
        null,
        `The workbook is damaged: part “${name}” is doubled or packed in an unknown way. Save it again.`,
      );
    }
    names.add(name);
    const entry: ZipEntry = {
      name,
      method: method === 0 ? "stored" : "deflated",
      crc: view.getUint32(at + 16, true),
      packed: view.getUint32(at + 20, true),
      size: view.getUint32(at + 24, true),
      offset: view.getUint32(at + 42, true),
    };
    total += entry.size;
    if (total > limits.totalSize)
      throw tooLarge(`it unpacks to more than ${shown(limits.totalSize)} bytes (STEADYREST_MAX_UNPACKED_MB)`);
    if (entry.size > HARMLESS_SIZE && entry.size > entry.packed * limits.ratio) {
      throw tooLarge(
        `part “${name}” unpacks ${shown(entry.packed)} bytes to ${shown(entry.size)}, more than ${limits.ratio} times as many`,
      );
    }
    entries.push(entry);
    at += ENTRY_SIZE + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  if (entries.length === 0)
    throw new UnreadableFile(
      "archive",
      null,
      "The workbook is empty or damaged: its directory names no part.",
    );
  return entries;
}

/** Where an entry's packed bytes start, from the `LOCAL_HEADER_SIZE` bytes at its offset. */
export function zipDataAt(localHeader: Uint8Array, entry: ZipEntry): number {
  const view = viewOf(localHeader);
  if (localHeader.length < LOCAL_HEADER_SIZE || view.getUint32(0, true) !== LOCAL_SIGNATURE) {
    throw new UnreadableFile(
      "archive",
      null,
      `The workbook is damaged at part “${entry.name}”. Save or copy it again.`,
    );
  }
  return entry.offset + LOCAL_HEADER_SIZE + view.getUint16(26, true) + view.getUint16(28, true);
}

/** The local header of an entry that is stored, not deflated: what must stand before its bytes in an archive. */
export function storedLocalHeader({
  name,
  size,
  crc,
}: {
  name: string;
  size: number;
  crc: number;
}): Uint8Array {
  const nameBytes = new TextEncoder().encode(name);
  const header = new Uint8Array(LOCAL_HEADER_SIZE + nameBytes.length);
  const view = viewOf(header);
  view.setUint32(0, LOCAL_SIGNATURE, true);
  view.setUint16(4, 20, true);
  view.setUint32(14, crc, true);
  view.setUint32(18, size, true);
  view.setUint32(22, size, true);
  view.setUint16(26, nameBytes.length, true);
  header.set(nameBytes, LOCAL_HEADER_SIZE);
  return header;
}

/** The end record of an archive without directory, enough for a reader that goes from part to part. */
export function emptyZipEnd(): Uint8Array {
  const end = new Uint8Array(END_SIZE);
  viewOf(end).setUint32(0, END_SIGNATURE, true);
  return end;
}

function viewOf(bytes: Uint8Array): DataView {
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
}

function tooLarge(why: string): UnreadableFile {
  return new UnreadableFile(
    "archive",
    null,
    `The workbook is refused unread: ${why}. Export the measurements as CSV.`,
  );
}

function shown(count: number): string {
  return count.toLocaleString("en-US");
}
