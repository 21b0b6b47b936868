// @ts-check
import { existsSync } from "node:fs";
import { CannotGoOn } from "../app/start/refusal.mjs";
import { runProgram } from "../app/start/run-program.mjs";

const FOLDERS = ["/usr/bin", "/usr/local/bin", "/opt/homebrew/bin"];

const HOW_TO_GET_IT =
  "Install it (Debian, Ubuntu: apt-get install -y --no-install-recommends poppler-utils; macOS: brew install poppler).";

/**
 * One of the programs that read a PDF back; without it the tests of printed sheets fail, they are never left out.
 *
 * @param {"pdftotext" | "pdftoppm" | "pdffonts"} name
 */
export function poppler(name) {
  const found = FOLDERS.map((folder) => `${folder}/${name}`).find((path) => existsSync(path));
  if (found) return found;
  throw new CannotGoOn(
    `${name} of poppler-utils was not found, and printed sheets cannot be read back. ${HOW_TO_GET_IT}`,
  );
}

/**
 * Installs it first where that can be done without asking: as root on a system with apt-get.
 *
 * @param {string} root
 */
export async function popplerOrInstall(root) {
  if (FOLDERS.some((folder) => existsSync(`${folder}/pdftotext`))) return;
  if (process.getuid?.() !== 0 || !existsSync("/usr/bin/apt-get")) return;
  console.log("No poppler-utils here: installing them.");
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  const install = ["install", "-y", "--no-install-recommends", "poppler-utils"];
  const first = await runProgram("apt-get", install, { cwd: root, env });
  if (first.code === 0) return;
  await runProgram("apt-get", ["update"], { cwd: root, env });
  await runProgram("apt-get", install, { cwd: root, env, show: true });
}
