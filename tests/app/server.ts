import { spawn } from "node:child_process";
import { once } from "node:events";
import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { inject } from "vitest";
import type { TestProject } from "vitest/node";
import { bundle } from "../../app/start/bundle.mjs";
import { buildPages, nextProgram } from "../../app/start/pages.mjs";
import { runProgram } from "../../app/start/run-program.mjs";

declare module "vitest" {
  interface ProvidedContext {
    /** A folder whose database holds the demo; servers of tests start on copies of it. */
    demoFolder: string;
  }
}

const ROOT = join(import.meta.dirname, "../..");
const ANSWER_WITHIN_MS = 30_000;
const STOP_WITHIN_MS = 5_000;

/**
 * Builds what is out of date and loads the demo, once for all browser tests, so `npx vitest --project browser`
 * is enough. Each file then has a server and a copy of that database of its own (plant.ts): no test meets what
 * the tests of another file left, and files can run side by side.
 */
export default async function prepare(project: TestProject): Promise<() => void> {
  await bundle(ROOT);
  await buildPages(ROOT);
  const demoFolder = mkdtempSync(join(tmpdir(), "steadyrest-demo-"));
  const env = environment(demoFolder);
  await verb(["migrate"], env);
  await verb(["demo", "--if-empty"], env);
  project.provide("demoFolder", demoFolder);
  return () => rmSync(demoFolder, { recursive: true, force: true });
}

export type TestServer = {
  address: string;
  dataFolder: string;
  /** Tells it to stop as a system does (SIGTERM) and waits for its end; its folder stays. */
  end: () => Promise<void>;
  /** The same, and its folder goes. */
  stop: () => Promise<void>;
};

/**
 * The built application on a free port of this machine, with a copy of the demo as its own database. With
 * `largestFileMb` the system lets it write no file beyond that size (RLIMIT_FSIZE, POSIX): to it, the disk is full.
 */
export async function startServer({
  largestFileMb = null,
}: {
  largestFileMb?: number | null;
} = {}): Promise<TestServer> {
  const dataFolder = ownFolder();
  cpSync(inject("demoFolder"), dataFolder, { recursive: true });
  return serve(dataFolder, { largestFileMb });
}

/** What becomes of a server on a folder that cannot be served: how it ended, and what it said. */
export async function refusedServer(dataFolder: string): Promise<{ code: number | null; said: string }> {
  const server = spawn(process.execPath, serving(await freePort()), {
    cwd: ROOT,
    env: environment(dataFolder),
    stdio: ["ignore", "pipe", "pipe"],
  });
  const patience = setTimeout(() => server.kill("SIGKILL"), ANSWER_WITHIN_MS);
  let said = "";
  for (const stream of [server.stdout, server.stderr])
    stream.setEncoding("utf8").on("data", (text: string) => {
      said += text;
    });
  const [code] = (await once(server, "close")) as [number | null];
  clearTimeout(patience);
  return { code, said };
}

/** The same as an empty plant, behind a proxy that it trusts. `printed` is what `npm start -- --empty` shows of the command that looks for accounts. */
export async function startEmptyServer(): Promise<TestServer & { printed: string }> {
  const dataFolder = ownFolder();
  await verb(["migrate"], environment(dataFolder));
  const printed = await verb(["set-up", "--if-needed"], environment(dataFolder));
  return { ...(await serve(dataFolder, { env: { STEADYREST_TRUST_PROXY: "1" } })), printed };
}

function ownFolder(): string {
  return mkdtempSync(join(tmpdir(), "steadyrest-browser-"));
}

function serving(port: number): string[] {
  return [nextProgram(ROOT), "start", "--hostname", "127.0.0.1", "--port", String(port)];
}

async function serve(
  dataFolder: string,
  { largestFileMb = null, env = {} }: { largestFileMb?: number | null; env?: Record<string, string> } = {},
): Promise<TestServer> {
  const port = await freePort();
  // In blocks of 512 bytes, as POSIX has it.
  const limit = largestFileMb === null ? "true" : `ulimit -S -f ${largestFileMb * 2048}`;
  const args = ["-c", `${limit} && exec "$0" "$@"`, process.execPath, ...serving(port)];
  const server = spawn("sh", args, {
    cwd: ROOT,
    env: { ...environment(dataFolder), ...env },
    stdio: ["ignore", "ignore", "inherit"],
  });
  const ended = once(server, "close");

  const address = `http://127.0.0.1:${port}`;
  await untilItAnswers(address, () => server.exitCode !== null);
  const end = async () => {
    server.kill("SIGTERM");
    const patience = setTimeout(() => server.kill("SIGKILL"), STOP_WITHIN_MS);
    await ended;
    clearTimeout(patience);
  };
  const stop = async () => {
    await end();
    rmSync(dataFolder, { recursive: true, force: true });
  };
  return { address, dataFolder, end, stop };
}

function environment(dataFolder: string): NodeJS.ProcessEnv {
  return {
    ...process.env,
    NODE_ENV: "production",
    NEXT_TELEMETRY_DISABLED: "1",
    STEADYREST_DATA: dataFolder,
    STEADYREST_LOG_LEVEL: "warn",
  };
}

/** What the command prints. */
async function verb(words: string[], env: NodeJS.ProcessEnv): Promise<string> {
  const { code, output, errors } = await runProgram(
    process.execPath,
    [join(ROOT, ".build", "cli.mjs"), ...words],
    {
      cwd: ROOT,
      env,
    },
  );
  if (code !== 0) throw new Error(`\`${words.join(" ")}\` ended with code ${code}: ${errors}`);
  return output;
}

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, "127.0.0.1");
  await once(probe, "listening");
  const address = probe.address();
  probe.close();
  await once(probe, "close");
  if (address === null || typeof address === "string") throw new Error("No free port was given.");
  return address.port;
}

async function untilItAnswers(address: string, hasEnded: () => boolean): Promise<void> {
  const limit = Date.now() + ANSWER_WITHIN_MS;
  while (Date.now() < limit && !hasEnded()) {
    try {
      await fetch(address, { redirect: "manual", signal: AbortSignal.timeout(ANSWER_WITHIN_MS) });
      return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
  throw new Error(hasEnded() ? "The server ended before it answered." : "The server did not answer in time.");
}
