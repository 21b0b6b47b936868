// @ts-check
import { mkdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

/* `npm run bench -- [NAME …]`: bundles the timings with the code they time, and runs them. */

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const OUT = join(ROOT, ".build", "bench.mjs");

mkdirSync(dirname(OUT), { recursive: true });
await build({
  absWorkingDir: ROOT,
  entryPoints: ["tests/bench/bench.ts"],
  outfile: OUT,
  bundle: true,
  // Packages stay where they are: some have parts that cannot be bundled.
  packages: "external",
  format: "esm",
  platform: "node",
  target: "node20",
  logLevel: "warning",
});
process.chdir(ROOT);
await import(pathToFileURL(OUT).href);
