import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { Agent, request } from "node:http";
import { createServer } from "node:net";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { buildPages, nextProgram } from "../../app/start/pages.mjs";
import { createAccount, createSession } from "../../db/commands/accounts";
import { openDatabase } from "../../db/connection";
import { createApiKey } from "../../db/people/api-keys";
import { listFeatures } from "../../db/queries/features";
import type { Bench, BenchResult } from "./benches";
import { plantOf, writeCsv } from "./drift-data";
import { timedProgram } from "./timing";

/*
 * What people at screens and machines at lines wait for: answers of the built server on a database of the size
 * asked for. Requests come one after another, but for the last figure, where sixteen callers post at once.
 */

const SEED = 20_260_105;
const ROWS = 1_000_000;
const FEATURES_OF_A_PART = 500;
const CLI = "app/cli/run.mjs";

const PAGES_ASKED = 60;
const POSTS_A_SECOND = 50;
const POST_SECONDS = 20;
const CALLERS = 16;
const SATURATED_SECONDS = 10;
const FEATURES_OF_A_PIECE = 50;

export const serving: Bench = {
  times: "the server's answers: shift board, feature page, pieces posted",
  async run({ rows, folder }): Promise<BenchResult> {
    const data = join(folder, "data");
    const plant = plantOf(rows ?? ROWS, {
      seed: SEED,
      lots: 60,
      featuresOfAPart: FEATURES_OF_A_PART,
      isCalm: true,
    });
    const csv = join(folder, "measurements.csv");
    await writeCsv(plant, csv);
    const taken = timedProgram("intake", 1, [process.execPath, CLI, "intake", csv], {
      STEADYREST_DATA: data,
    });
    if (!taken.ok) throw new Error(taken.reason);
    const { cookie, secret, feature } = await peopleAndKeys(join(data, "steadyrest.db"));
    await buildPages(process.cwd());

    const server = await started(data);
    const agent = new Agent({ keepAlive: true, maxSockets: CALLERS });
    try {
      const look = (path: string) => ({ ...server, path, agent, headers: { cookie } });
      const board = await asked(PAGES_ASKED, () => answered(look("/")));
      const page = await asked(PAGES_ASKED, () => answered(look(`/features/${feature}`)));
      const post = poster(server, agent, secret);
      const steady = await steadily(post);
      const most = await saturated(post);
      return {
        about: `${plant.rows.toLocaleString("en")} measurements of ${4 * FEATURES_OF_A_PART} features; ${PAGES_ASKED} requests a page, ${POST_SECONDS} s of ${POSTS_A_SECOND} posts a second of ${FEATURES_OF_A_PIECE} measurements`,
        timings: [],
        ratios: [
          ...quantiles("shift board, answered within", board, "p95 under 60 at 10M"),
          ...quantiles("feature page, answered within", page, "p95 under 120 at 1M of one feature"),
          ...quantiles("piece stored, judged and told, within", steady, "p99 under 50"),
          { label: `pieces a second from ${CALLERS} callers at once`, value: most },
        ],
        remarks: [],
      };
    } finally {
      agent.destroy();
      await server.stop();
    }
  },
};

function quantiles(label: string, milliseconds: readonly number[], bar: string) {
  const sorted = [...milliseconds].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)]!;
  return [
    { label: `${label}, ms, median`, value: at(0.5) },
    { label: `${label}, ms, p95`, value: at(0.95) },
    { label: `${label}, ms, p99`, value: at(0.99), bar },
  ];
}

async function peopleAndKeys(path: string) {
  const database = await openDatabase(path);
  try {
    const actor = { accountId: null, at: Date.now() };
    const entry = {
      login: "bench",
      name: "Bench",
      password: `${Math.random()} of the bench`,
      roles: ["engineer"] as const,
    };
    const account = await createAccount(database, { entry: { ...entry, roles: [...entry.roles] }, actor });
    if (!account.ok) throw new Error(account.message);
    const { token } = await createSession(database, { accountId: account.id, now: actor.at });
    const key = await createApiKey(database, {
      entry: { name: "bench", scopes: ["post-measurements"], expiresAt: null },
      actor,
    });
    if (!key.ok) throw new Error(key.message);
    const [first] = await listFeatures(database);
    return { cookie: `steadyrest-session=${token}`, secret: key.secret, feature: first?.id ?? 0 };
  } finally {
    await database.close();
  }
}

type Target = { hostname: string; port: number };
type Asked = Target & { path: string; agent: Agent; headers: Record<string, string>; body?: string };

/** Milliseconds until the whole answer is there. */
function answered({ body, ...target }: Asked): Promise<number> {
  const begun = performance.now();
  return new Promise((resolve, reject) => {
    const sent = request({ ...target, method: body === undefined ? "GET" : "POST" }, (answer) => {
      answer.on("data", () => {});
      answer.on("end", () =>
        answer.statusCode === 200
          ? resolve(performance.now() - begun)
          : reject(new Error(`${target.path} answered ${answer.statusCode}`)),
      );
    });
    sent.on("error", reject);
    sent.end(body);
  });
}

/** The first requests of a new server load code; they are made and not counted. */
async function asked(count: number, ask: () => Promise<number>): Promise<number[]> {
  for (let i = 0; i < 5; i++) await ask();
  const found: number[] = [];
  for (let i = 0; i < count; i++) found.push(await ask());
  return found;
}

function poster(server: Target, agent: Agent, secret: string): () => Promise<number> {
  let piece = 0;
  const begun = Date.UTC(2026, 6, 1);
  const headers = { authorization: `Bearer ${secret}`, "content-type": "application/json" };
  return () => {
    piece++;
    const measurements = Array.from({ length: FEATURES_OF_A_PIECE }, (_, j) => ({
      feature: `F${String(j + 1).padStart(3, "0")}`,
      value: Number((10 + j + 0.005 * Math.sin(piece * 1.7 + j)).toFixed(3)),
      unit: "mm",
      tool: `T-${(j % 5) + 1}/1`,
    }));
    const body = JSON.stringify({
      piece: `B${piece}`,
      taken_at: new Date(begun + piece * 1000).toISOString(),
      part: "P-1",
      lot: `B-${Math.ceil(piece / 40)}`,
      fixture: `FX-${(piece % 6) + 1}`,
      gauge: "G-1",
      operator: "OP-1",
      measurements,
    });
    return answered({ ...server, path: "/api/v1/measurements", agent, headers, body });
  };
}

/** At a steady pace, whatever the answers take; a late answer does not hold the next request back. */
async function steadily(post: () => Promise<number>): Promise<number[]> {
  await asked(20, post);
  const answers: Promise<number>[] = [];
  const begun = performance.now();
  for (let i = 0; i < POSTS_A_SECOND * POST_SECONDS; i++) {
    const wait = begun + (i * 1000) / POSTS_A_SECOND - performance.now();
    if (wait > 0) await pause(wait);
    answers.push(post());
  }
  return Promise.all(answers);
}

async function saturated(post: () => Promise<number>): Promise<number> {
  const until = performance.now() + SATURATED_SECONDS * 1000;
  let done = 0;
  const caller = async () => {
    while (performance.now() < until) {
      await post();
      done++;
    }
  };
  const begun = performance.now();
  await Promise.all(Array.from({ length: CALLERS }, caller));
  return (done * 1000) / (performance.now() - begun);
}

async function started(data: string): Promise<Target & { stop: () => Promise<void> }> {
  const port = await freePort();
  const hostname = "127.0.0.1";
  const args = [nextProgram(process.cwd()), "start", "--hostname", hostname, "--port", String(port)];
  const server = spawn(process.execPath, args, {
    env: { ...process.env, NODE_ENV: "production", STEADYREST_DATA: data },
    stdio: ["ignore", "ignore", "inherit"],
  });
  await untilItAnswers(server, { hostname, port });
  const stop = async () => {
    const ended = once(server, "close");
    server.kill("SIGTERM");
    await ended;
  };
  return { hostname, port, stop };
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

async function untilItAnswers(server: ChildProcess, { hostname, port }: Target): Promise<void> {
  while (server.exitCode === null) {
    try {
      await fetch(`http://${hostname}:${port}/`, { redirect: "manual" });
      return;
    } catch {
      await pause(50);
    }
  }
  throw new Error("The server ended before it answered.");
}
