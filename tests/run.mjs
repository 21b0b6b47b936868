// @ts-check
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";
import { buildPages, nextProgram } from "../app/start/pages.mjs";
import { preparePackages } from "../app/start/prepare.mjs";
import { CannotGoOn } from "../app/start/refusal.mjs";
import { runProgram, stopProgramsWithUs } from "../app/start/run-program.mjs";
import { chromiumOrInstall } from "./chromium.mjs";
import { popplerOrInstall } from "./poppler.mjs";
import { SCRIPT_BARS, scriptWeight } from "./script-weight.mjs";

/*
 * `npm test`: everything a change has to pass, quickest first. The last line is "N passed, N failed": one for
 * each test, and one for each of the checks around them.
 *
 * `npm test -- lint types lib db/queries` runs parts: lint, types, build, code, browser, or a folder of tests/.
 * `npm test -- code --seed 7 --laws 20` tries other examples in the laws than ever, and 20 times as many.
 */

const ROOT = resolve(dirname(fileURLToPath(import.meta.url)), "..");
const REPORTS = join(ROOT, "test-results");

/** @typedef {{ passed: number; failed: number }} Tally */

/** @type {Record<string, { heading: string; run: () => Promise<Tally> }>} */
const PARTS = {
  lint: { heading: "Format and lint", run: lint },
  types: { heading: "Types", run: types },
  code: { heading: "Unit, reference, database and house tests", run: () => vitest("code", []) },
  build: { heading: "Production build", run: build },
  browser: { heading: "Browser tests", run: browser },
};

process.env.NEXT_TELEMETRY_DISABLED = "1";
if (!process.stdout.isTTY) {
  // A log is read as text.
  process.env.NO_COLOR = "1";
  delete process.env.FORCE_COLOR;
}
stopProgramsWithUs();
const { values: laws, positionals } = parseArgs({
  options: { seed: { type: "string" }, laws: { type: "string" } },
  allowPositionals: true,
});
// tests/laws.ts reads them.
if (laws.seed) process.env.STEADYREST_LAW_SEED = laws.seed;
if (laws.laws) process.env.STEADYREST_LAW_TIMES = laws.laws;
process.exitCode = await main(positionals);

/** @param {readonly string[]} wanted */
async function main(wanted) {
  const begun = performance.now();
  const unknown = wanted.filter((name) => !PARTS[name] && !existsSync(join(ROOT, "tests", name)));
  if (unknown.length > 0) {
    const folders = readdirSync(join(ROOT, "tests"), { withFileTypes: true }).filter((entry) =>
      entry.isDirectory(),
    );
    const known = [...Object.keys(PARTS), ...folders.map((entry) => entry.name)].join(", ");
    console.error(`There is no part of the tests named ${unknown.join(", ")}. Parts: ${known}.`);
    return summed({ passed: 0, failed: unknown.length });
  }

  rmSync(REPORTS, { recursive: true, force: true });
  mkdirSync(REPORTS, { recursive: true });
  const total = { passed: 0, failed: 0 };
  const parts =
    wanted.length === 0 ? Object.values(PARTS) : wanted.map((name) => PARTS[name] ?? folder(name));
  const prepare = { heading: "Packages", run: packages };
  for (const { heading, run } of [prepare, ...parts]) {
    const { passed, failed } = await part(heading, run);
    total.passed += passed;
    total.failed += failed;
    if (run === packages && failed > 0) break;
  }
  console.log(`\nAll parts took ${secondsSince(begun)}.`);
  return summed(total);
}

/** @param {Tally} tally */
function summed({ passed, failed }) {
  console.log(`${passed} passed, ${failed} failed`);
  return failed > 0 ? 1 : 0;
}

/**
 * @param {string} heading
 * @param {() => Promise<Tally>} run
 */
async function part(heading, run) {
  console.log(`\n== ${heading}`);
  const begun = performance.now();
  /** @type {Tally} */
  let tally = { passed: 0, failed: 1 };
  try {
    tally = await run();
  } catch (error) {
    console.error(error instanceof CannotGoOn ? error.message : error);
  }
  console.log(`-- ${heading}: ${tally.passed} passed, ${tally.failed} failed, ${secondsSince(begun)}`);
  return tally;
}

/** @returns {Promise<Tally>} nothing counted when all is well: it is no check of the change */
async function packages() {
  await preparePackages(ROOT);
  return { passed: 0, failed: 0 };
}

async function lint() {
  const tally = await check("node_modules/@biomejs/biome/bin/biome", ["ci", "--error-on-warnings", "."]);
  if (tally.failed > 0) console.error("`npm run format` repairs what can be repaired without a decision.");
  return tally;
}

/** Next writes the types of pages and styles itself; without them a fresh clone does not check. */
async function types() {
  const routes = await runProgram(process.execPath, [nextProgram(ROOT), "typegen"], { cwd: ROOT });
  if (routes.code !== 0) throw new CannotGoOn(`next typegen failed.\n${routes.output}${routes.errors}`);
  return check("node_modules/typescript/bin/tsc", ["--noEmit"]);
}

async function build() {
  const built = await buildPages(ROOT);
  console.log(built ? "The pages build." : "The pages were built from these very sources before.");
  const tally = { passed: 1, failed: 0 };
  for (const { page, route, most } of SCRIPT_BARS) {
    const weight = scriptWeight(ROOT, route);
    const isLight = weight <= most;
    tally[isLight ? "passed" : "failed"]++;
    const figures = `The scripts of the ${page} are ${weight.toFixed(1)} kB compressed, of at most ${most}.`;
    if (isLight) console.log(figures);
    else console.error(`${figures} DEVELOPERS.md, "Scripts", says how to find what weighs.`);
  }
  return tally;
}

async function browser() {
  process.env.CHROMIUM = await chromiumOrInstall(ROOT);
  return vitest("browser", []);
}

/** @param {string} name a folder below tests/, or one of its files */
function folder(name) {
  const isBrowser = name === "app" || name.startsWith("app/");
  return {
    heading: `Tests in tests/${name}`,
    run: async () => {
      if (isBrowser) process.env.CHROMIUM = await chromiumOrInstall(ROOT);
      return vitest(isBrowser ? "browser" : "code", [`tests/${name}`]);
    },
  };
}

/**
 * @param {string} script
 * @param {readonly string[]} args
 * @returns {Promise<Tally>}
 */
async function check(script, args) {
  const { code } = await runProgram(process.execPath, [join(ROOT, script), ...args], {
    cwd: ROOT,
    show: true,
  });
  return code === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

/**
 * Runs one project of vitest.config.ts and counts from its report. A test that did not run is not a pass: a
 * skipped one fails here, and so does a run without any test.
 *
 * @param {string} project
 * @param {readonly string[]} filters
 * @returns {Promise<Tally>}
 */
async function vitest(project, filters) {
  await popplerOrInstall(ROOT);
  const file = join(REPORTS, `${project}-${filters.join("-").replaceAll("/", "-") || "all"}.json`);
  const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${file}`];
  const args = [
    join(ROOT, "node_modules/vitest/vitest.mjs"),
    "run",
    "--project",
    project,
    ...reporters,
    ...filters,
  ];
  const { code } = await runProgram(process.execPath, args, { cwd: ROOT, show: true });
  if (!existsSync(file)) throw new CannotGoOn(`vitest ended with code ${code} and left no report.`);

  const report = JSON.parse(readFileSync(file, "utf8"));
  const passed = report.numPassedTests;
  const notRun = report.numTotalTests - report.numPassedTests - report.numFailedTests;
  if (notRun > 0) console.error(`${notRun} tests did not run; each counts as failed.`);
  const failed = report.numFailedTests + notRun;
  // A file that does not load, an error outside a test, or no test at all has no failed test of its own.
  return { passed, failed: failed === 0 && (code !== 0 || passed === 0) ? 1 : failed };
}

/** @param {number} begun */
function secondsSince(begun) {
  return `${((performance.now() - begun) / 1000).toFixed(1)} s`;
}
