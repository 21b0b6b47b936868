import { createHash } from "node:crypto";
import { deflateSync, inflateSync } from "node:zlib";
import type { StatedReadings, StatementContent } from "../lib/statement/content";

/** A statement's two parts as they are kept: packed JSON, and the digest of the JSON itself. */
export type Packed = { packed: Buffer; digest: string };

export function packed(part: StatementContent | readonly StatedReadings[]): Packed {
  const text = Buffer.from(JSON.stringify(part));
  return { packed: deflateSync(text), digest: createHash("sha256").update(text).digest("hex") };
}

export function unpackedContent(buffer: Buffer): StatementContent {
  return JSON.parse(inflateSync(buffer).toString()) as StatementContent;
}

export function unpackedReadings(buffer: Buffer): StatedReadings[] {
  return JSON.parse(inflateSync(buffer).toString()) as StatedReadings[];
}

/** Digest of the JSON behind a packed part, for whoever checks that it is the one that was signed. */
export function digestOf(buffer: Buffer): string {
  return createHash("sha256").update(inflateSync(buffer)).digest("hex");
}

/** A token of a link as it is kept: 256 random bits need no salt and no slow hash. */
export function tokenDigest(token: string): string {
  return createHash("sha256").update(token).digest("hex");
}
