import type { FileEncoding } from "./mapping";
import { UnreadableFile } from "./unreadable-file";

/** The byte order mark a file starts with, its length, and the encoding it announces. */
export type Mark = { bytes: number; label: "utf-8" | "utf-16le" | "utf-16be" };

const LONGEST_MARK = 3;

/** The byte order mark at the start of a file, or null. */
export function byteOrderMark(bytes: Uint8Array): Mark | null {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return { bytes: 3, label: "utf-8" };
  if (a === 0xff && b === 0xfe) return { bytes: 2, label: "utf-16le" };
  if (a === 0xfe && b === 0xff) return { bytes: 2, label: "utf-16be" };
  return null;
}

/**
 * Where the bytes [start, end) stop being UTF-8, or -1 when they are UTF-8 throughout.
 *
 * A character cut off by `end` counts as a fault at its first byte. Overlong forms, surrogates and code points
 * past U+10FFFF are faults. Source: RFC 3629, section 4 (from memory).
 */
export function utf8FaultAt(bytes: Uint8Array, start: number, end: number): number {
  let at = start;
  while (at < end) {
    const lead = bytes[at] as number;
    if (lead < 0x80) {
      at++;
      continue;
    }
    const more = lead < 0xc2 ? 0 : lead < 0xe0 ? 1 : lead < 0xf0 ? 2 : lead < 0xf5 ? 3 : 0;
    if (more === 0 || at + more >= end) return at;
    const next = bytes[at + 1] as number;
    const least = lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80;
    const most = lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf;
    if (next < least || next > most) return at;
    for (let k = 2; k <= more; k++) if (((bytes[at + k] as number) & 0xc0) !== 0x80) return at;
    at += more + 1;
  }
  return -1;
}

/**
 * The encoding a file is most likely in, judged by its first bytes: by the byte order mark, else UTF-8 when they
 * are UTF-8 (a character cut off at the end is no fault), else Windows-1252, which accepts anything.
 */
export function likelyEncoding(firstBytes: Uint8Array): FileEncoding {
  const mark = byteOrderMark(firstBytes);
  if (mark) return mark.label === "utf-8" ? "utf-8" : "utf-16";
  const fault = utf8FaultAt(firstBytes, 0, firstBytes.length);
  return fault === -1 || fault >= firstBytes.length - 3 ? "utf-8" : "windows-1252";
}

/**
 * Hands on a file's bytes as UTF-8 without byte order mark, chunk by chunk.
 *
 * UTF-8 passes through untouched (the reader checks it row by row, where it can name the line). A byte order
 * mark wins over the encoding that was chosen, since it cannot be there by accident.
 */
export class Utf8Stream {
  private head: Uint8Array | null = new Uint8Array(0);
  private decoder: TextDecoder | null = null;
  private readonly encoder = new TextEncoder();

  constructor(
    private readonly encoding: FileEncoding,
    private readonly out: (bytes: Uint8Array) => void,
  ) {}

  push(chunk: Uint8Array): void {
    if (this.head === null) {
      this.pass(chunk);
      return;
    }
    const head = new Uint8Array(this.head.length + chunk.length);
    head.set(this.head);
    head.set(chunk, this.head.length);
    this.head = head;
    if (head.length >= LONGEST_MARK) this.start();
  }

  end(): void {
    this.start();
    const tail = this.decoded();
    if (tail) this.out(this.encoder.encode(tail));
  }

  private start(): void {
    const head = this.head;
    if (head === null) return;
    this.head = null;
    const mark = byteOrderMark(head);
    const label = mark ? mark.label : this.encoding === "utf-16" ? "utf-16le" : this.encoding;
    if (label !== "utf-8") this.decoder = new TextDecoder(label, { fatal: true, ignoreBOM: true });
    const rest = head.subarray(mark ? mark.bytes : 0);
    if (rest.length > 0) this.pass(rest);
  }

  private pass(chunk: Uint8Array): void {
    if (this.decoder === null) this.out(chunk);
    else this.out(this.encoder.encode(this.decoded(chunk)));
  }

  private decoded(chunk?: Uint8Array): string {
    if (this.decoder === null) return "";
    try {
      return chunk ? this.decoder.decode(chunk, { stream: true }) : this.decoder.decode();
    } catch {
      throw new UnreadableFile(
        "encoding",
        null,
        "The text is not valid UTF-16: the file is damaged or cut off. Save it as UTF-8.",
      );
    }
  }
}
