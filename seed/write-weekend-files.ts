import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { weekendFiles } from "./demo/weekend-files";

/*
 * Writes the three files of the walk-through anew, in the project's folder:
 *
 *   npx esbuild seed/write-weekend-files.ts --bundle --platform=node --format=esm | node --input-type=module
 */
const folder = join(process.cwd(), "seed", "files");
mkdirSync(folder, { recursive: true });
for (const { name, text } of weekendFiles()) {
  writeFileSync(join(folder, name), text);
  process.stdout.write(`${name}: ${text.length} characters\n`);
}
