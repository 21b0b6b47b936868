import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import type { Server } from "../soak/server";
import { answered, type Target } from "./requests";

export const FEATURES_OF_A_PIECE = 50;
const FLOOR = "tests/bench/peers/posts.mjs";
const TICKS_A_SECOND = 100;

/** Posts a new piece at each call, each a second after the one before; milliseconds until it is answered. */
export function poster(
  target: Target,
  { path, secret, after, run }: { path: string; secret: string; after: number; run: string },
): () => Promise<number> {
  let piece = 0;
  const headers = { authorization: `Bearer ${secret}`, "content-type": "application/json" };
  return async () => {
    piece++;
    const body = JSON.stringify(bodyOf(piece, { after, run }));
    const { ms, text } = await answered({ ...target, path, headers, body });
    const { accepted } = JSON.parse(text) as { accepted: number };
    if (accepted !== FEATURES_OF_A_PIECE) throw new Error(`Of a piece, ${accepted} were taken: ${text}`);
    return ms;
  };
}

function bodyOf(piece: number, { after, run }: { after: number; run: string }) {
  return {
    piece: `${run}-${piece}`,
    taken_at: new Date(after + piece * 1000).toISOString(),
    part: "P-1",
    lot: `B-${Math.ceil(piece / 40)}`,
    fixture: `FX-${(piece % 6) + 1}`,
    gauge: "G-1",
    operator: "OP-1",
    measurements: Array.from({ length: FEATURES_OF_A_PIECE }, (_, j) => ({
      feature: `F${String(j + 1).padStart(3, "0")}`,
      value: Number((10 + j + 0.005 * Math.sin(piece * 1.7 + j)).toFixed(3)),
      unit: "mm",
      tool: `T-${(j % 5) + 1}/1`,
    })),
  };
}

export type BareServer = { address: string; pid: number; stop: () => Promise<void> };

/** The least that a server can do with a piece: `peers/posts.mjs` on an empty database. */
export async function bareServer(folder: string): Promise<BareServer> {
  const child: ChildProcess = spawn(process.execPath, [FLOOR, join(folder, "posts.db")], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const [port] = (await once(child.stdout!, "data")) as [Buffer];
  return {
    address: `http://127.0.0.1:${port.toString().trim()}`,
    pid: child.pid ?? 0,
    async stop() {
      const closed = once(child, "close");
      child.kill("SIGTERM");
      await closed;
    },
  };
}

/** Seconds of the processor that a process has used so far, all threads together; NaN where no /proc tells. */
export function processorOf(pid: number): number {
  try {
    // proc(5): the name in brackets may hold spaces; utime and stime are the 12th and 13th word after it.
    const words = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1)!.split(" ");
    return (Number(words[11]) + Number(words[12])) / TICKS_A_SECOND;
  } catch {
    return Number.NaN;
  }
}

const IDLE_WITHIN_S = 180;

/** A server that has just started may look for drifting sources first, which is not what is measured here. */
export async function untilIdle(server: Pick<Server, "pid">): Promise<void> {
  for (let second = 0; second < IDLE_WITHIN_S; second++) {
    const before = processorOf(server.pid() ?? 0);
    await pause(1_000);
    if (!(processorOf(server.pid() ?? 0) - before > 0.05)) return;
  }
  throw new Error(`The server is still at work ${IDLE_WITHIN_S} s after its start.`);
}
