import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { contentDigest } from "../../app/start/content-digest.mjs";
import { fingerprint, isStamped, stamp } from "../../app/start/fingerprint.mjs";

let root = "";
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), "steadyrest-fingerprint-"));
  mkdirSync(join(root, "lib/inner"), { recursive: true });
  writeFileSync(join(root, "lib/a.ts"), "one");
  writeFileSync(join(root, "lib/inner/b.ts"), "two");
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

const now = () => fingerprint(root, ["lib", "absent"], ["lib/left-out"]);

describe("the fingerprint changes", () => {
  test.each<[string, () => void]>([
    ["when a file is written", () => writeFileSync(join(root, "lib/inner/b.ts"), "three")],
    ["when a file is added", () => writeFileSync(join(root, "lib/c.ts"), "")],
    ["when a file is deleted", () => rmSync(join(root, "lib/inner/b.ts"))],
    ["when a file becomes older", () => utimesSync(join(root, "lib/a.ts"), 1_000_000, 1_000_000)],
    ["when what was absent comes", () => writeFileSync(join(root, "absent"), "")],
  ])("%s", (_, change) => {
    const before = now();
    change();
    expect(now()).not.toBe(before);
  });
});

test("it stays when nothing changed, or only what is left out", () => {
  const before = now();
  expect(now()).toBe(before);
  writeFileSync(join(root, "lib/left-out"), "x");
  expect(now()).toBe(before);
});

test("a stamp is true only of the value it was made with", () => {
  const file = join(root, ".build/x.stamp");
  expect(isStamped(file, "a")).toBe(false);
  stamp(file, "a");
  expect(isStamped(file, "a")).toBe(true);
  expect(isStamped(file, "b")).toBe(false);
});

test("a digest of the text stays when files are copied or touched, and changes with a letter or a name", () => {
  const digest = () => contentDigest(root, ["lib", "absent"]);
  const before = digest();
  expect(before).toMatch(/^[0-9a-f]{12}$/);
  utimesSync(join(root, "lib/a.ts"), 1_000_000, 1_000_000);
  expect(digest()).toBe(before);
  writeFileSync(join(root, "lib/a.ts"), "onf");
  expect(digest()).not.toBe(before);
  writeFileSync(join(root, "lib/a.ts"), "one");
  expect(digest()).toBe(before);
  writeFileSync(join(root, "lib/c.ts"), "");
  expect(digest()).not.toBe(before);
});
