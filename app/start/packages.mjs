// @ts-check
import { accessSync, constants, existsSync, readFileSync } from "node:fs";
import { delimiter, dirname, join } from "node:path";
import { CannotGoOn } from "./refusal.mjs";
import { runProgram } from "./run-program.mjs";

const LOADS_THE_DRIVER = "new (require('better-sqlite3'))(':memory:').close()";

/**
 * Whether node_modules holds what the lock file asks for.
 *
 * npm writes node_modules/.package-lock.json last, so an interrupted installation does not pass. Packages
 * for other machines are optional in the lock file and absent here.
 *
 * @param {string} root
 */
export function packagesAreInstalled(root) {
  const hidden = join(root, "node_modules", ".package-lock.json");
  if (!existsSync(hidden)) return false;
  const wanted = packagesIn(join(root, "package-lock.json"));
  const present = packagesIn(hidden);
  return Object.entries(wanted).every(
    ([path, entry]) => path === "" || entry.optional || present[path]?.version === entry.version,
  );
}

/**
 * Whether the database driver loads in this Node. It does not when its compiled part is missing or was
 * compiled for another Node; the check runs in a child, since a wrong one may end the process.
 *
 * @param {string} root
 */
export async function driverLoads(root) {
  const { code } = await runProgram(process.execPath, ["-e", LOADS_THE_DRIVER], { cwd: root });
  return code === 0;
}

/**
 * Installs exactly what the lock file names.
 *
 * @param {string} root
 */
export async function installPackages(root) {
  await runNpm(root, ["ci"]);
}

/**
 * Compiles the database driver for this Node.
 *
 * @param {string} root
 */
export async function rebuildDriver(root) {
  await runNpm(root, ["rebuild", "better-sqlite3"]);
  if (await driverLoads(root)) return;
  throw new CannotGoOn(
    `The database driver was compiled, but does not load in Node ${process.versions.node} ` +
      `(module version ${process.versions.modules}).\n` +
      "Most likely npm's setting `nodedir` points at the headers of another Node: see `npm config get nodedir`.\n" +
      "Remove that setting, then start again.",
  );
}

/**
 * What somebody has to install before the database driver can be compiled; empty when all is there.
 *
 * @param {(program: string) => boolean} has
 */
export function missingCompilerParts(has = isOnPath) {
  const parts = [
    { name: "python3", programs: ["python3", "python"] },
    { name: "make", programs: ["make", "gmake"] },
    { name: "g++", programs: ["g++", "c++", "clang++"] },
  ];
  return parts.filter(({ programs }) => !programs.some(has)).map(({ name }) => name);
}

/**
 * @param {string} root
 * @param {readonly string[]} args
 */
async function runNpm(root, args) {
  const log = join(root, ".build", `npm-${args[0]}.log`);
  const [program, ...first] = npm();
  const env = { ...process.env, ...ownHeaders() };
  const { code, output, errors } = await runProgram(program, [...first, ...args], { cwd: root, env, log });
  if (code !== 0) throw new CannotGoOn(whyNpmFailed(args, `${output}\n${errors}`, log));
}

/**
 * @param {readonly string[]} args
 * @param {string} text what npm printed
 * @param {string} log
 */
export function whyNpmFailed(args, text, log, missing = missingCompilerParts()) {
  const command = `npm ${args.join(" ")}`;
  if (/gyp ERR!|node-gyp|prebuild-install/.test(text)) {
    const cause =
      missing.length > 0
        ? `Not found here: ${missing.join(", ")}.`
        : "A compiler is here, so the reason stands in the log.";
    return (
      `The database driver (better-sqlite3) has to be compiled on this machine, and that failed. ${cause}\n` +
      "It needs python3, make and a C++ compiler:\n" +
      "  Debian, Ubuntu   apt-get install -y python3 make g++\n" +
      "  Fedora           dnf install -y python3 make gcc-c++\n" +
      "  macOS            xcode-select --install\n" +
      `Then start again. The whole output of \`${command}\`: ${log}`
    );
  }
  const last = text
    .split("\n")
    .filter((line) => /^npm (error|ERR!)/.test(line))
    .slice(0, 12);
  return `\`${command}\` failed. The whole output: ${log}\n${last.join("\n")}`;
}

/**
 * The npm that started us, else the one beside this Node, else the one on the path. Called through Node
 * itself where possible, so that no shell and no command file is needed.
 *
 * @returns {[string, ...string[]]}
 */
function npm() {
  const beside = dirname(process.execPath);
  const candidates = [
    process.env.npm_execpath,
    join(beside, "..", "lib", "node_modules", "npm", "bin", "npm-cli.js"),
    join(beside, "node_modules", "npm", "bin", "npm-cli.js"),
  ];
  const script = candidates.find((path) => path?.endsWith("npm-cli.js") && existsSync(path));
  return script ? [process.execPath, script] : ["npm"];
}

/**
 * Points the compiler at the headers that came with this Node. Without it a left-over `nodedir` setting for
 * another Node makes a driver that compiles and then does not load.
 */
function ownHeaders() {
  const prefix = dirname(dirname(process.execPath));
  try {
    const header = readFileSync(join(prefix, "include", "node", "node_version.h"), "utf8");
    const version = /#define NODE_MODULE_VERSION (\d+)/.exec(header)?.[1];
    return version === process.versions.modules ? { npm_config_nodedir: prefix } : {};
  } catch {
    return {};
  }
}

/**
 * @param {string} file
 * @returns {Record<string, { version?: string; optional?: boolean }>}
 */
function packagesIn(file) {
  return JSON.parse(readFileSync(file, "utf8")).packages ?? {};
}

/** @param {string} program */
function isOnPath(program) {
  return (process.env.PATH ?? "").split(delimiter).some((folder) => {
    try {
      accessSync(join(folder, program), constants.X_OK);
      return true;
    } catch {
      return false;
    }
  });
}
