// @ts-check
import { createHash } from "node:crypto";
import { lstatSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

/**
 * A short text that changes when any of the named files or folders changes: path, size and time of change
 * of every file. A deleted or an older file counts too, which a comparison of the newest times would miss.
 *
 * A name that does not exist is left out. Some hundred files take a few milliseconds.
 *
 * @param {string} root
 * @param {readonly string[]} entries files and folders relative to the root
 * @param {readonly string[]} except files and folders to leave out, relative to the root
 */
export function fingerprint(root, entries, except = []) {
  const hash = createHash("sha1");
  for (const entry of entries) visit(root, entry, new Set(except), hash);
  return hash.digest("hex");
}

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
    visit(root, entry, new Set(), {
      update: (line) => {
        const path = /** @type {string} */ (line.split("\0")[0]);
        hash.update(`${path}\0`).update(readFileSync(join(root, path)));
      },
    });
  }
  return hash.digest("hex").slice(0, 12);
}

/**
 * Whether the work that left this stamp behind was done from the very files of today.
 *
 * @param {string} stampFile
 * @param {string} today
 */
export function isStamped(stampFile, today) {
  try {
    return readFileSync(stampFile, "utf8") === today;
  } catch {
    return false;
  }
}

/**
 * @param {string} stampFile
 * @param {string} value
 */
export function stamp(stampFile, value) {
  mkdirSync(dirname(stampFile), { recursive: true });
  writeFileSync(stampFile, value);
}

/**
 * @param {string} root
 * @param {string} path
 * @param {Set<string>} except
 * @param {{ update: (line: string) => unknown }} hash
 */
function visit(root, path, except, hash) {
  if (except.has(path)) return;
  const status = lstatSync(join(root, path), { throwIfNoEntry: false });
  if (!status) return;
  if (!status.isDirectory()) {
    hash.update(`${path}\0${status.size}\0${status.mtimeMs}\n`);
    return;
  }
  for (const name of readdirSync(join(root, path)).sort()) visit(root, `${path}/${name}`, except, hash);
}
