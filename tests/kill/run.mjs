// @ts-check
import { pathToFileURL } from "node:url";
import { bundled } from "../bundle-and-run.mjs";

/* `npm run kill-test -- --kills 200 --seed 1`: bundles the two programs, and runs the one that kills. */

await bundled("tests/kill/victim.ts", "kill-victim");
await import(pathToFileURL(await bundled("tests/kill/kill.ts", "kill-test")).href);
