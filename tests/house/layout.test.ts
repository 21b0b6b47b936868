import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { keptAtTop, misplacedFiles } from "./layout";
import { listed, ROOT, sourceFiles } from "./source-files";

test("every file has its place, its manner of name and a readable length", () => {
  const top = keptAtTop(readdirSync(ROOT), readFileSync(join(ROOT, ".gitignore"), "utf8"));
  expect(listed(misplacedFiles(sourceFiles(), top))).toEqual([]);
});

test("the lock file names packages by their digest, not by the place they came from", () => {
  const text = readFileSync(join(ROOT, "package-lock.json"), "utf8");
  expect(addressesIn(text)).toEqual([]);
});

describe("the check itself finds", () => {
  test("a stray file at the top", () => {
    expect(misplacedFiles([], ["lib", "notes.txt"])).toHaveLength(1);
  });
  test("a long file", () => {
    expect(misplacedFiles([{ path: "lib/x.ts", text: "x\n".repeat(421) }], [])).toHaveLength(1);
    expect(misplacedFiles([{ path: "lib/x.ts", text: "x\n".repeat(420) }], [])).toEqual([]);
  });
  test("a name in another manner", () => {
    expect(misplacedFiles([{ path: "app/PartCard.tsx", text: "" }], [])).toHaveLength(1);
    expect(misplacedFiles([{ path: "app/part-card.module.css", text: "" }], [])).toEqual([]);
    expect(misplacedFiles([{ path: "app/features/[id]/page.tsx", text: "" }], [])).toEqual([]);
  });
  test("a folder that says nothing", () => {
    expect(misplacedFiles([{ path: "lib/utils/x.ts", text: "" }], [])).toHaveLength(1);
  });
  test("the address of a package", () => {
    expect(addressesIn('"version": "1.0.0",\n"resolved": "https://example.org/x.tgz",')).toHaveLength(1);
  });
  test("what git leaves out, and nothing else", () => {
    expect(keptAtTop([".git", "data", "a.tsbuildinfo", "lib", "x"], "data/\n*.tsbuildinfo\n")).toEqual([
      "lib",
      "x",
    ]);
  });
});

function addressesIn(lockFile: string): string[] {
  return lockFile.match(/"resolved":[^\n]*/g) ?? [];
}
