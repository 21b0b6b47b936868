import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect } from "vitest";
import { runProgram } from "../../app/start/run-program.mjs";

const PROGRAM = join(import.meta.dirname, "../../app/cli/run.mjs");

export type Outcome = { code: number; output: string; errors: string };

/** Runs the command line as a person would, from a folder of its own that is gone afterwards. */
export function commandLine(): {
  run(...words: string[]): Promise<Outcome>;
  /** Runs with `--json` what must succeed, and gives back the one document it prints. */
  json<Document>(...words: string[]): Promise<Document>;
  file(name: string, content: string | Uint8Array): string;
  /** Where the database of these commands is. */
  database(): string;
} {
  let folder = "";
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "steadyrest-cli-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const run = (...words: string[]): Promise<Outcome> => {
    const env: NodeJS.ProcessEnv = { ...process.env, STEADYREST_DATA: join(folder, "data") };
    // Left over from the `npm test` around this, it would name another folder.
    delete env.npm_lifecycle_event;
    return runProgram(process.execPath, [PROGRAM, ...words], { cwd: folder, env });
  };

  return {
    run,
    async json<Document>(...words: string[]) {
      const { code, output, errors } = await run(...words, "--json");
      expect({ words, code, errors: code === 0 ? "" : errors }).toEqual({ words, code: 0, errors: "" });
      expect(output.endsWith("\n")).toBe(true);
      return JSON.parse(output) as Document;
    },
    file(name, content) {
      writeFileSync(join(folder, name), content);
      return name;
    },
    database: () => join(folder, "data", "steadyrest.db"),
  };
}
