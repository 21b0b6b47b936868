// @ts-check
import { spawn } from "node:child_process";
import { mkdirSync } from "node:fs";
import { createServer } from "node:net";
import { constants } from "node:os";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { bundle } from "./start/bundle.mjs";
import { buildPages, nextProgram, pagesState } from "./start/pages.mjs";
import { preparePackages, requireSpace } from "./start/prepare.mjs";
import { CannotGoOn } from "./start/refusal.mjs";
import { runProgram, stopProgramsWithUs } from "./start/run-program.mjs";
import { step } from "./start/steps.mjs";

/*
 * `npm start`: from a fresh clone to a running dashboard, doing only what is not done yet.
 *
 * Plain JavaScript, and nothing is imported from node_modules before it is installed.
 *
 *   PORT              the port to answer on, 3000 when not given
 *   STEADYREST_HOST   the address to answer on, this machine alone (127.0.0.1) when not given
 *   STEADYREST_DATA   the folder of the database, ./data when not given
 *   STEADYREST_MAX_UPLOAD_MB   the largest file Intake receives, 2048 when not given
 *   --empty           leaves an empty database empty instead of loading the demo
 *   --dev             serves the sources themselves and reloads on a change
 */

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "..");

/** Measured: a build of the pages leaves up to 0.3 GB behind. */
const TO_BUILD_MB = 500;

/** Below this a database that is being written may fail in the middle of a shift. */
const TO_RUN_MB = 200;

const ANSWER_WITHIN_MS = 60_000;

try {
  await main(process.argv.slice(2));
} catch (error) {
  if (!(error instanceof CannotGoOn)) throw error;
  console.error(`\n${error.message}`);
  process.exitCode = 1;
}

/** @param {readonly string[]} args */
async function main(args) {
  const dev = args.includes("--dev");
  const host = process.env.STEADYREST_HOST || "127.0.0.1";
  const port = portFrom(process.env.PORT);
  const data = resolve(process.env.STEADYREST_DATA || join(ROOT, "data"));
  Object.assign(process.env, { STEADYREST_DATA: data, NEXT_TELEMETRY_DISABLED: "1" });

  stopProgramsWithUs();
  await requireFreePort(host, port);
  await preparePackages(ROOT);
  await step("bundle the command line", () => bundle(ROOT));
  if (!dev) {
    if (!pagesState(ROOT).fresh) requireSpace(ROOT, TO_BUILD_MB, "to build the pages");
    await step("build the pages", () => buildPages(ROOT));
  }

  mkdirSync(data, { recursive: true });
  requireSpace(data, TO_RUN_MB, "to keep the database running");
  await runVerb("bring the database up to date", ["migrate"]);
  if (args.includes("--empty")) await runVerb("look whether there is an account", ["set-up", "--if-needed"]);
  else await runVerb("load the demo if the database is empty", ["demo", "--if-empty"]);

  await requireFreePort(host, port);
  await serve({ dev, host, port, data });
}

/** @param {string | undefined} text */
function portFrom(text) {
  const port = text === undefined || text === "" ? 3000 : Number(text);
  if (Number.isInteger(port) && port > 0 && port < 65_536) return port;
  throw new CannotGoOn(`PORT is ${JSON.stringify(text)}, but a port is a whole number from 1 to 65535.`);
}

/**
 * Found out at once, not after minutes of building.
 *
 * @param {string} host
 * @param {number} port
 */
async function requireFreePort(host, port) {
  const code = await new Promise((settle) => {
    const probe = createServer();
    probe.once("error", (/** @type {NodeJS.ErrnoException} */ error) => settle(error.code));
    probe.listen(port, host, () => probe.close(() => settle(undefined)));
  });
  if (code === undefined) return;
  const reasons = {
    EADDRINUSE:
      `Port ${port} is taken by another program, perhaps by a Steadyrest that is already running.\n` +
      `Open http://localhost:${port} to see, or choose another port: PORT=${port === 65_535 ? 3000 : port + 1} npm start`,
    EACCES: `Port ${port} is reserved by the system. Choose one above 1023: PORT=3000 npm start`,
    EADDRNOTAVAIL: `${host} is not an address of this machine. Correct STEADYREST_HOST, or leave it away.`,
    ENOTFOUND: `${host} is not known here. Correct STEADYREST_HOST, or leave it away.`,
  };
  throw new CannotGoOn(
    reasons[/** @type {keyof typeof reasons} */ (code)] ??
      `Port ${port} on ${host} cannot be opened: ${code}.`,
  );
}

/**
 * @param {string} name
 * @param {readonly string[]} args
 */
async function runVerb(name, args) {
  const { output, errors } = await step(name, async () => {
    const result = await runProgram(process.execPath, [join(ROOT, ".build", "cli.mjs"), ...args], {
      cwd: ROOT,
    });
    if (result.code !== 0) {
      throw new CannotGoOn(
        `Could not ${name}.\n${result.errors.trimEnd() || `It ended with code ${result.code}.`}`,
      );
    }
    return result;
  });
  // The first start prints things somebody has to read, such as the link that sets up the first account.
  for (const line of `${output}${errors}`.split("\n")) if (line.trim() !== "") console.log(`    ${line}`);
}

/**
 * Serves until it is told to stop, passes the request on, and waits until open pages have been let go.
 *
 * @param {{ dev: boolean; host: string; port: number; data: string }} settings
 */
async function serve({ dev, host, port, data }) {
  const args = [nextProgram(ROOT), dev ? "dev" : "start", "--hostname", host, "--port", String(port)];
  const env = { ...process.env, NODE_ENV: /** @type {const} */ (dev ? "development" : "production") };
  const child = spawn(process.execPath, args, { cwd: ROOT, env, stdio: ["ignore", "pipe", "inherit"] });

  let asked = false;
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM", "SIGHUP"])) {
    process.removeAllListeners(signal);
    process.on(signal, () => {
      asked = true;
      child.kill(signal);
    });
  }
  const ended = new Promise((settle) => {
    child.once("error", () => settle(1));
    child.once("close", (code, signal) => settle(code ?? 128 + (signal ? constants.signals[signal] : 0)));
  });

  // What Next prints while it starts says less than the three lines below; a contributor wants all of it.
  if (dev) child.stdout.pipe(process.stdout);
  else child.stdout.resume();
  await step("serve", () => answers(host, port, ended));
  if (!dev) child.stdout.pipe(process.stdout);
  const shown =
    host === "0.0.0.0" || host === "127.0.0.1" || host === "::1" || host === "::" ? "localhost" : host;
  console.log(`
Steadyrest answers at http://${shown}:${port}
First: open it, sign in with an account named on the sign-in page, and read the shift board from the top.
Then: drop measurement files on Intake. Everything is kept in ${data}; Ctrl+C stops the server.`);

  const code = await ended;
  if (asked) {
    console.log("Stopped. Nothing is lost: everything saved is in the database.");
    return;
  }
  throw new CannotGoOn(`The server ended by itself with code ${code}. Its reason stands above.`);
}

/**
 * @param {string} host
 * @param {number} port
 * @param {Promise<unknown>} ended
 */
async function answers(host, port, ended) {
  let over = false;
  void ended.then(() => {
    over = true;
  });
  const address =
    host === "0.0.0.0" ? "127.0.0.1" : host.includes(":") ? `[${host === "::" ? "::1" : host}]` : host;
  const limit = Date.now() + ANSWER_WITHIN_MS;
  while (!over && Date.now() < limit) {
    try {
      await fetch(`http://${address}:${port}/`, {
        redirect: "manual",
        signal: AbortSignal.timeout(ANSWER_WITHIN_MS),
      });
      return;
    } catch {
      await new Promise((settle) => setTimeout(settle, 100));
    }
  }
  throw new CannotGoOn(
    over
      ? "The server ended before it answered. Its reason stands above."
      : "The server did not answer within a minute.",
  );
}
