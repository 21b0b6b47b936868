// @ts-check
import { existsSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fingerprint, isStamped, stamp } from "./fingerprint.mjs";
import { CannotGoOn } from "./refusal.mjs";
import { runProgram } from "./run-program.mjs";

/** What the pages are made from, relative to the root. */
const SOURCES = [
  "app",
  "lib",
  "db",
  "proxy.ts",
  "instrumentation.ts",
  "next.config.mjs",
  "tsconfig.json",
  "package-lock.json",
];

/** Changes here do not reach a page. */
const NOT_IN_PAGES = ["app/cli", "app/start", "app/start.mjs"];

const LAST_LINES = 40;

/** @param {string} root */
export function nextProgram(root) {
  return join(root, "node_modules", "next", "dist", "bin", "next");
}

/** @param {string} root */
export function pagesState(root) {
  const today = fingerprint(root, SOURCES, NOT_IN_PAGES);
  const built = existsSync(join(root, ".next", "BUILD_ID"));
  return { today, fresh: built && isStamped(join(root, ".build", "pages.stamp"), today) };
}

/**
 * Builds the pages for production when their sources have changed since the last build.
 *
 * @param {string} root
 * @returns {Promise<boolean>} whether anything had to be built
 */
export async function buildPages(root) {
  const { today, fresh } = pagesState(root);
  if (fresh) return false;

  const stampFile = join(root, ".build", "pages.stamp");
  rmSync(stampFile, { force: true });
  const log = join(root, ".build", "next-build.log");
  /** @type {NodeJS.ProcessEnv} */
  const env = { ...process.env, NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" };
  const { code, output, errors } = await runProgram(process.execPath, [nextProgram(root), "build"], {
    cwd: root,
    env,
    log,
  });
  if (code !== 0) {
    const last = `${output}\n${errors}`.trimEnd().split("\n").slice(-LAST_LINES).join("\n");
    throw new CannotGoOn(`The pages could not be built. The whole output: ${log}\n${last}`);
  }
  stamp(stampFile, today);
  return true;
}
