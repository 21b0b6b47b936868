import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, vi } from "vitest";
import { main } from "../../app/cli/main";
import { runProgram } from "../../app/start/run-program.mjs";

const PROGRAM = join(import.meta.dirname, "../../app/cli/run.mjs");

export type Outcome = { code: number; output: string; errors: string };

/** The command line, from a folder of its own that is gone afterwards. */
export function commandLine(): {
  /** Does the command in this process, which says the same in a tenth of the time. */
  run(...words: string[]): Promise<Outcome>;
  /** Starts the program as a person would: for what a process of its own is needed to see. */
  start(...words: string[]): Promise<Outcome>;
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

  const run = async (...words: string[]): Promise<Outcome> => {
    vi.stubEnv("STEADYREST_DATA", join(folder, "data"));
    vi.stubEnv("STEADYREST_CALLED_FROM", folder);
    const output = heard(process.stdout);
    const errors = heard(process.stderr);
    try {
      const code = await main(words);
      return { code, output: output.text, errors: errors.text };
    } finally {
      output.end();
      errors.end();
      vi.unstubAllEnvs();
    }
  };

  const start = (...words: string[]): Promise<Outcome> => {
    const env: NodeJS.ProcessEnv = { ...process.env, STEADYREST_DATA: join(folder, "data") };
    // Left over from the `npm test` around this, it would name another folder.
    delete env.npm_lifecycle_event;
    return runProgram(process.execPath, [PROGRAM, ...words], { cwd: folder, env });
  };

  return {
    run,
    start,
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

/** What is written to a stream from now to `end`, instead of where it goes. */
function heard(stream: NodeJS.WriteStream) {
  const said = { text: "", end: () => write.mockRestore() };
  const write = vi.spyOn(stream, "write").mockImplementation((chunk) => {
    said.text += chunk;
    return true;
  });
  return said;
}
