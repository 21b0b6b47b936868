import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll } from "vitest";
import { runProgram } from "../../app/start/run-program.mjs";

const PROGRAM = join(import.meta.dirname, "../../app/cli/run.mjs");

export type Outcome = { code: number; output: string; errors: string };

/** Runs the command line as a person would, from a folder of its own that is gone afterwards. */
export function commandLine(): {
  run(...words: string[]): Promise<Outcome>;
  file(name: string, text: string): string;
} {
  let folder = "";
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "steadyrest-cli-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  return {
    run: (...words) => {
      const env: NodeJS.ProcessEnv = { ...process.env, STEADYREST_DATA: join(folder, "data") };
      // Left over from the `npm test` around this, it would name another folder.
      delete env.npm_lifecycle_event;
      return runProgram(process.execPath, [PROGRAM, ...words], { cwd: folder, env });
    },
    file(name, text) {
      writeFileSync(join(folder, name), text);
      return name;
    },
  };
}
