// @ts-check
import { mkdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

/* `npm run drift:score`: bundles the scorer with the scan it scores, and runs it. */

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const OUT = join(ROOT, ".build", "drift-score.mjs");

mkdirSync(dirname(OUT), { recursive: true });
await build({
  absWorkingDir: ROOT,
  entryPoints: ["tests/drift/score.ts"],
  outfile: OUT,
  bundle: true,
  format: "esm",
  platform: "node",
  target: "node20",
  banner: {
    js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
  },
  logLevel: "warning",
});
await import(pathToFileURL(OUT).href);
