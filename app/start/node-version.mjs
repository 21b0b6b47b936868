// @ts-check
import { CannotGoOn } from "./refusal.mjs";

/**
 * Whether a Node version satisfies a range such as "^20.19.0 || >=24.0.0".
 *
 * Only the two forms that package.json's `engines` uses: `^` keeps the major version, `>=` does not.
 * Nothing may be imported for this, since it runs before anything is installed.
 *
 * @param {string} version
 * @param {string} range
 */
export function satisfies(version, range) {
  const have = numbersOf(version);
  return range.split("||").some((part) => {
    const text = part.trim();
    const least = numbersOf(text.replace(/^(\^|>=)/, ""));
    if (text.startsWith("^") && have[0] !== least[0]) return false;
    return compare(have, least) >= 0;
  });
}

/**
 * Refuses to go on with a Node that the database driver does not load in.
 *
 * @param {string} range the `engines.node` of package.json
 * @param {string} version
 */
export function requireNode(range, version = process.versions.node) {
  if (satisfies(version, range)) return;
  throw new CannotGoOn(
    `Steadyrest needs Node ${range.replaceAll("||", "or")}; this is Node ${version}.\n` +
      "The database driver (better-sqlite3 12) has no version for other Nodes: it would fail to build or to load.\n" +
      "Install Node 20, 22 or 24, then start again. Packages installed by another Node are rebuilt by themselves.",
  );
}

/** @param {string} version */
function numbersOf(version) {
  return version.split(".").map(Number);
}

/**
 * @param {number[]} a
 * @param {number[]} b
 */
function compare(a, b) {
  for (let i = 0; i < 3; i++) {
    const difference = (a[i] ?? 0) - (b[i] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
