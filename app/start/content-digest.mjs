// @ts-check
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { filesUnder } from "./fingerprint.mjs";

/**
 * Twelve hexadecimal digits that change when the text of any of these files changes, wherever and whenever they were
 * copied.
 *
 * @param {string} root
 * @param {readonly string[]} entries files and folders relative to the root
 */
export function contentDigest(root, entries) {
  const hash = createHash("sha256");
  for (const entry of entries) {
    for (const { path } of filesUnder(root, entry, new Set())) {
      hash.update(`${path}\0`).update(readFileSync(join(root, path)));
    }
  }
  return hash.digest("hex").slice(0, 12);
}
