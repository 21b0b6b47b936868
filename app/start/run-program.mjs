// @ts-check
import { spawn } from "node:child_process";
import { createWriteStream, mkdirSync } from "node:fs";
import { constants } from "node:os";
import { dirname } from "node:path";

/** @type {Set<import("node:child_process").ChildProcess>} */
const running = new Set();

/**
 * Runs a program to its end, without a shell, and gives its exit code and what it printed.
 *
 * @param {string} program
 * @param {readonly string[]} args
 * @param {{ cwd: string; env?: NodeJS.ProcessEnv; log?: string; show?: boolean }} options
 *   `log`: a file that receives the output; `show`: the output goes to this terminal and is not kept
 * @returns {Promise<{ code: number; output: string; errors: string }>} `output` is what went to stdout
 */
export function runProgram(program, args, { cwd, env = process.env, log, show = false }) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, [...args], {
      cwd,
      env,
      stdio: show ? "inherit" : ["ignore", "pipe", "pipe"],
    });
    running.add(child);

    if (log) mkdirSync(dirname(log), { recursive: true });
    const file = log ? createWriteStream(log) : undefined;
    let output = "";
    let errors = "";
    child.stdout?.setEncoding("utf8").on("data", (/** @type {string} */ text) => {
      output += text;
      file?.write(text);
    });
    child.stderr?.setEncoding("utf8").on("data", (/** @type {string} */ text) => {
      errors += text;
      file?.write(text);
    });

    child.once("error", (error) => {
      running.delete(child);
      file?.end();
      reject(error);
    });
    child.once("close", (code, signal) => {
      running.delete(child);
      file?.end();
      resolve({ code: code ?? 128 + (signal ? constants.signals[signal] : 0), output, errors });
    });
  });
}

/**
 * Passes a request to stop on to the programs that are running, then leaves with the customary code.
 * Call it once, before the first program starts.
 */
export function stopProgramsWithUs() {
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM", "SIGHUP"])) {
    process.on(signal, () => {
      for (const child of running) child.kill(signal);
      process.exit(128 + constants.signals[signal]);
    });
  }
}
