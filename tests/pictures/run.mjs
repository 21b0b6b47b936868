// @ts-check
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { bundle } from "../../app/start/bundle.mjs";
import { buildPages } from "../../app/start/pages.mjs";
import { bundled } from "../bundle-and-run.mjs";
import { chromiumOrInstall } from "../chromium.mjs";

/* `npm run pictures`: builds what is out of date and takes README's pictures of the demo anew. */

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "../..");

process.env.STEADYREST_LOG_LEVEL = "warn";
process.env.CHROMIUM = await chromiumOrInstall(ROOT);
await bundle(ROOT);
await buildPages(ROOT);
const program = await bundled("tests/pictures/pictures.ts", "pictures", ["playwright-core"]);
const { takePictures } = await import(pathToFileURL(program).href);
await takePictures(join(ROOT, "seed", "pictures"));
