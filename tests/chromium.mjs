// @ts-check
import { existsSync } from "node:fs";
import { CannotGoOn } from "../app/start/refusal.mjs";
import { runProgram } from "../app/start/run-program.mjs";

const USUAL_PLACES = [
  "/usr/bin/chromium",
  "/usr/bin/chromium-browser",
  "/snap/bin/chromium",
  "/usr/bin/google-chrome",
  "/Applications/Chromium.app/Contents/MacOS/Chromium",
  "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
];

/** Without a sandbox so that it runs in a container, and without the traffic a browser starts by itself. */
export const CHROMIUM_FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const HOW_TO_GET_ONE =
  "Install one (Debian, Ubuntu: apt-get install -y --no-install-recommends chromium), " +
  "or name the one you have: CHROMIUM=/path/to/chromium npm test";

/** The browser that drives the pages, or undefined; CHROMIUM in the environment comes first. */
export function chromium(env = process.env, exists = existsSync) {
  if (env.CHROMIUM) {
    if (exists(env.CHROMIUM)) return env.CHROMIUM;
    throw new CannotGoOn(`CHROMIUM names ${env.CHROMIUM}, but there is no such file. ${HOW_TO_GET_ONE}`);
  }
  return USUAL_PLACES.find((path) => exists(path));
}

/**
 * The browser, installed first where that can be done without asking: as root on a system with apt-get.
 * Without a browser the browser tests fail; they are never left out.
 *
 * @param {string} root
 */
export async function chromiumOrInstall(root) {
  const found = chromium();
  if (found) return found;
  if (process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    console.log("No Chromium here: installing it.");
    const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
    const install = ["install", "-y", "--no-install-recommends", "chromium"];
    const first = await runProgram("apt-get", install, { cwd: root, env });
    if (first.code !== 0) {
      await runProgram("apt-get", ["update"], { cwd: root, env });
      await runProgram("apt-get", install, { cwd: root, env, show: true });
    }
    const installed = chromium();
    if (installed) return installed;
  }
  throw new CannotGoOn(`No Chromium was found, and the browser tests need one. ${HOW_TO_GET_ONE}`);
}
