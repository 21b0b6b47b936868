// @ts-check
import { mkdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
import { bundle } from "../../app/start/bundle.mjs";
import { buildPages } from "../../app/start/pages.mjs";

/* `npm run soak`: builds what is out of date, bundles the soak with the functions it checks with, and runs it. */

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const OUT = join(ROOT, ".build", "soak.mjs");

await bundle(ROOT);
await buildPages(ROOT);
mkdirSync(dirname(OUT), { recursive: true });
await build({
  absWorkingDir: ROOT,
  entryPoints: ["tests/soak/soak.ts"],
  outfile: OUT,
  bundle: true,
  format: "esm",
  platform: "node",
  target: "node20",
  packages: "external",
  logLevel: "warning",
});
await import(pathToFileURL(OUT).href);
