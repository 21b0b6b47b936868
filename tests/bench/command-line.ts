import { readFileSync } from "node:fs";

/** The command line as `npm run cli` starts it, with its settings of V8, but without npm's own 0.15 s. */
export function commandLine(...words: string[]): string[] {
  const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: { cli: string } };
  const [program, ...settings] = scripts.cli.split(" ");
  if (program !== "node") throw new Error(`The script "cli" of package.json starts ${program}, not node.`);
  return [process.execPath, ...settings, ...words];
}
