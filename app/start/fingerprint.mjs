// @ts-check
import { lstatSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";

/**
 * A text that changes when any of the named files or folders changes: path, size and time of change
 * of every file. A deleted or an older file counts too, which a comparison of the newest times would miss.
 *
 * A name that does not exist is left out. Some hundred files take a few milliseconds; to make a digest of the list
 * would take another ten, for loading the cryptography at every start of the command line.
 *
 * @param {string} root
 * @param {readonly string[]} entries files and folders relative to the root
 * @param {readonly string[]} except files and folders to leave out, relative to the root
 */
export function fingerprint(root, entries, except = []) {
  const lines = [];
  for (const entry of entries) lines.push(...filesUnder(root, entry, new Set(except)));
  return lines.map(({ path, size, changed }) => `${path}\0${size}\0${changed}\n`).join("");
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
 * @returns {{ path: string, size: number, changed: number }[]}
 */
export function filesUnder(root, path, except) {
  if (except.has(path)) return [];
  const status = lstatSync(join(root, path), { throwIfNoEntry: false });
  if (!status) return [];
  if (!status.isDirectory()) return [{ path, size: status.size, changed: status.mtimeMs }];
  const names = readdirSync(join(root, path)).sort();
  return names.flatMap((name) => filesUnder(root, `${path}/${name}`, except));
}
