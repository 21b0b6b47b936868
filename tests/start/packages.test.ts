import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { missingCompilerParts, packagesAreInstalled, whyNpmFailed } from "../../app/start/packages.mjs";

let root = "";
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "steadyrest-packages-"));
  mkdirSync(join(root, "node_modules"));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const lock = (packages: Record<string, object>) =>
  writeFileSync(
    join(root, "package-lock.json"),
    JSON.stringify({ packages: { "": { name: "x" }, ...packages } }),
  );
const installed = (packages: Record<string, object>) =>
  writeFileSync(join(root, "node_modules/.package-lock.json"), JSON.stringify({ packages }));

test("packages are installed when every one the lock file needs is there in its version", () => {
  lock({ "node_modules/a": { version: "1.0.0" }, "node_modules/b": { version: "2.0.0", optional: true } });
  expect(packagesAreInstalled(root)).toBe(false);
  installed({ "node_modules/a": { version: "1.0.0" } });
  expect(packagesAreInstalled(root)).toBe(true);
  installed({ "node_modules/a": { version: "1.0.1" } });
  expect(packagesAreInstalled(root)).toBe(false);
});

test("a package that was added to the lock file is missed", () => {
  installed({ "node_modules/a": { version: "1.0.0" } });
  lock({ "node_modules/a": { version: "1.0.0" }, "node_modules/c": { version: "1.0.0" } });
  expect(packagesAreInstalled(root)).toBe(false);
});

test("a missing compiler is named, whichever of its usual names is there", () => {
  expect(missingCompilerParts(() => false)).toEqual(["python3", "make", "g++"]);
  expect(missingCompilerParts((program) => ["python", "gmake", "clang++"].includes(program))).toEqual([]);
  expect(missingCompilerParts((program) => program !== "make" && program !== "gmake")).toEqual(["make"]);
});

test("a failed compilation says what is missing and how to install it", () => {
  const text = whyNpmFailed(["ci"], "npm error gyp ERR! not ok", "npm.log", ["make", "g++"]);
  expect(text).toContain("Not found here: make, g++.");
  expect(text).toContain("apt-get install -y python3 make g++");
  expect(text).toContain("npm.log");
});

test("another failure shows npm's own lines", () => {
  const text = whyNpmFailed(["ci"], "added 1\nnpm error code E404\nnpm error no such package", "npm.log", []);
  expect(text).toBe(
    "`npm ci` failed. The whole output: npm.log\nnpm error code E404\nnpm error no such package",
  );
});
