import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { nextProgram } from "../../app/start/pages.mjs";

const ANSWER_WITHIN_MS = 60_000;

export type Server = {
  address: string;
  start(): Promise<void>;
  /** Ends it as a power cut does: at once, whatever it was doing. */
  kill(): Promise<void>;
  stop(): Promise<void>;
  /** Memory it holds, in MB; null where the system does not tell. */
  memory(): number | null;
  /** Of the process that runs now; null when none does. */
  pid(): number | null;
};

/** The built program on a free port, to be killed and started again on the same data. */
export async function serverOn(dataFolder: string): Promise<Server> {
  const port = await freePort();
  const address = `http://127.0.0.1:${port}`;
  let child: ChildProcess | null = null;

  async function end(signal: NodeJS.Signals): Promise<void> {
    if (!child || child.exitCode !== null) return;
    const closed = once(child, "close");
    child.kill(signal);
    await closed;
  }

  return {
    address,
    async start() {
      const args = [nextProgram(process.cwd()), "start", "--hostname", "127.0.0.1", "--port", String(port)];
      const env = {
        ...process.env,
        NODE_ENV: "production" as const,
        NEXT_TELEMETRY_DISABLED: "1",
        STEADYREST_DATA: dataFolder,
      };
      child = spawn(process.execPath, args, {
        cwd: process.cwd(),
        env,
        stdio: ["ignore", "ignore", "inherit"],
      });
      const limit = Date.now() + ANSWER_WITHIN_MS;
      while (Date.now() < limit) {
        const answer = await fetch(`${address}/sign-in`, { redirect: "manual" }).catch(() => null);
        if (answer) return;
        await new Promise((resolve) => setTimeout(resolve, 50));
      }
      throw new Error("The server did not answer within a minute.");
    },
    kill: () => end("SIGKILL"),
    stop: () => end("SIGTERM"),
    pid: () => child?.pid ?? null,
    memory() {
      try {
        const status = readFileSync(join("/proc", String(child?.pid), "status"), "utf8");
        return Math.round(Number(/^VmRSS:\s+(\d+)/m.exec(status)?.[1]) / 1024);
      } catch {
        return null;
      }
    },
  };
}

async function freePort(): Promise<number> {
  const probe = createServer().listen(0, "127.0.0.1");
  await once(probe, "listening");
  const found = probe.address();
  probe.close();
  await once(probe, "close");
  if (found === null || typeof found === "string") throw new Error("No free port was given.");
  return found.port;
}
