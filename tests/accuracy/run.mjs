// @ts-check
import { mkdirSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

/* `npm run accuracy`: prints to how many digits the statistics agree with NIST's certified values. */

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "../..");
const bundled = join(ROOT, ".build", "accuracy.mjs");

mkdirSync(dirname(bundled), { recursive: true });
await build({
  absWorkingDir: ROOT,
  entryPoints: ["tests/accuracy/print.ts"],
  outfile: bundled,
  bundle: true,
  format: "esm",
  platform: "node",
  banner: {
    js: 'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);',
  },
  logLevel: "error",
});
await import(pathToFileURL(bundled).href);
