// @ts-check
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join } from "node:path";
import { fingerprint, isStamped, stamp } from "./fingerprint.mjs";
import { CannotGoOn } from "./refusal.mjs";

/** What the command line and the worker are made from, relative to the root. */
const SOURCES = ["app/cli", "app/jobs", "lib", "db", "seed", "app/start/bundle.mjs", "package-lock.json"];

/** What figures come from: our own arithmetic, and the versions of the packages below it. */
const COMPUTES = ["lib", "package-lock.json"];

const ENTRIES = {
  cli: "app/cli/process.ts",
  worker: "app/jobs/worker.ts",
  scanner: "app/jobs/scanner.ts",
  "scatter-thread": "app/jobs/scatter-thread.ts",
};

const IN_THE_BUNDLE = /^(@stdlib\/|simple-statistics$)/;

const REQUIRE_FOR_BUNDLED_PACKAGES =
  'import { createRequire } from "node:module"; const require = createRequire(import.meta.url);';

const AN_HOUR = 3_600_000;

/** @param {string} root */
export function bundleState(root) {
  const today = fingerprint(root, SOURCES);
  const fresh =
    isStamped(join(root, ".build", "bundle.stamp"), today) && existsSync(join(root, ".build", "cli.mjs"));
  return { today, fresh };
}

/**
 * Bundles the command line and, once it exists, the worker for long jobs into .build/, when their sources
 * have changed. Each verb is a chunk of its own that loads when it is used.
 *
 * The arithmetic packages go into the bundle: they are some hundred small files, and to find them one by one
 * took 50 ms of processor time of each command (`constants 5`: 60 against 140 ms). Others stay outside.
 *
 * Files are put in place by renaming, chunks before the entries that name them, so that a command running at
 * the same moment never reads half a file.
 *
 * @param {string} root
 * @returns {Promise<boolean>} whether anything had to be built
 */
export async function bundle(root) {
  const { today, fresh } = bundleState(root);
  if (fresh) return false;

  const { build } = await import("esbuild");
  const { contentDigest } = await import("./content-digest.mjs");
  const entries = Object.entries(ENTRIES).filter(([, path]) => existsSync(join(root, path)));
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: Object.fromEntries(entries),
    outdir: join(root, ".build"),
    outExtension: { ".js": ".mjs" },
    chunkNames: "chunks/[name]-[hash]",
    bundle: true,
    splitting: true,
    format: "esm",
    platform: "node",
    target: "node20",
    external: packagesOutside(root),
    define: { COMPUTATION: JSON.stringify(contentDigest(root, COMPUTES)) },
    banner: { js: REQUIRE_FOR_BUNDLED_PACKAGES },
    sourcemap: true,
    logLevel: "silent",
    write: false,
  }).catch((error) => {
    throw new CannotGoOn(`The command line could not be bundled. ${error.message}`);
  });

  const chunksFirst = outputFiles.toSorted((a, b) => rank(a.path) - rank(b.path));
  for (const { path, contents } of chunksFirst) replaceFile(path, contents);
  removeOldChunks(join(root, ".build", "chunks"), new Set(outputFiles.map(({ path }) => basename(path))));
  stamp(join(root, ".build", "bundle.stamp"), today);
  return true;
}

/** @param {string} root */
function packagesOutside(root) {
  const { dependencies } = JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  return Object.keys(dependencies).filter((name) => !IN_THE_BUNDLE.test(name));
}

/** @param {string} path */
function rank(path) {
  return basename(dirname(path)) === "chunks" ? 0 : 1;
}

/**
 * @param {string} path
 * @param {Uint8Array} contents
 */
function replaceFile(path, contents) {
  mkdirSync(dirname(path), { recursive: true });
  const beside = `${path}.${process.pid}`;
  writeFileSync(beside, contents);
  renameSync(beside, path);
}

/**
 * Chunks of earlier builds stay for an hour, in case a long command still needs to load one.
 *
 * @param {string} folder
 * @param {Set<string>} current
 */
function removeOldChunks(folder, current) {
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    if (!current.has(name) && Date.now() - statSync(path).mtimeMs > AN_HOUR) rmSync(path, { force: true });
  }
}
