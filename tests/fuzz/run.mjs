// @ts-check
import { pathToFileURL } from "node:url";
import { bundled } from "../bundle-and-run.mjs";

/* `npm run fuzz -- --inputs 200000 --seed 1`: bundles the fuzzer with what it tests, and runs it. */

await import(pathToFileURL(await bundled("tests/fuzz/fuzz.ts", "fuzz")).href);
