// @ts-check
import { mkdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "..");

/**
 * Bundles a program of tests/ with what it tests, so that it starts in milliseconds; gives its path.
 *
 * @param {string} entry relative to the root
 * @param {string} name of the bundle
 * @param {string[]} external packages that do not let themselves be bundled
 */
export async function bundled(entry, name, external = ["better-sqlite3", "exceljs"]) {
  const outfile = join(ROOT, ".build", `${name}.mjs`);
  mkdirSync(dirname(outfile), { recursive: true });
  await build({
    absWorkingDir: ROOT,
    entryPoints: [entry],
    outfile,
    bundle: true,
    format: "esm",
    platform: "node",
    target: "node20",
    external,
    banner: {
      js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
    },
    logLevel: "warning",
  });
  return outfile;
}
