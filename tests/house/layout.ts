import type { Finding, SourceFile } from "./source-files";

/** A file longer than this holds more than one idea. */
const LONGEST = 420;

/** What stands at the top: the rooms, the two pages to read, and what a tool insists on finding there. */
const AT_THE_TOP = new Set([
  "README.md",
  "DEVELOPERS.md",
  "package.json",
  "package-lock.json",
  "app",
  "lib",
  "db",
  "seed",
  "tests",
  "public",
  ".ci",
  ".gitignore",
  ".npmrc",
  "biome.json",
  "drizzle.config.ts",
  "instrumentation.ts",
  "next.config.mjs",
  "proxy.ts",
  "tsconfig.json",
  "vitest.config.ts",
]);

/** Folders named after a technical kind say nothing about what is in them. */
const EMPTY_WORDS = new Set([
  "utils",
  "util",
  "helpers",
  "helper",
  "types",
  "hooks",
  "common",
  "shared",
  "misc",
]);

/**
 * Files that are too long, lie at the top without belonging there, or have a name in another manner.
 *
 * Next gives its own meaning to names such as [id] and _parts; test files end in .test.ts.
 */
export function misplacedFiles(files: readonly SourceFile[], top: readonly string[]): Finding[] {
  const atTop = top
    .filter((name) => !AT_THE_TOP.has(name))
    .map((name) => ({
      path: name,
      line: 1,
      says: "lies at the top; the rooms hold everything but configuration.",
    }));
  return [...atTop, ...files.flatMap((file) => [...tooLong(file), ...misnamed(file)])];
}

function tooLong({ path, text }: SourceFile): Finding[] {
  const lines = text.split("\n").length - (text.endsWith("\n") ? 1 : 0);
  if (!/\.(ts|tsx|css)$/.test(path) || lines <= LONGEST) return [];
  return [{ path, line: LONGEST, says: `has ${lines} lines; at most ${LONGEST} hold one idea.` }];
}

function misnamed({ path }: SourceFile): Finding[] {
  const parts = path.split("/");
  const name = parts.at(-1) ?? "";
  const folder = parts.slice(0, -1).find((part) => EMPTY_WORDS.has(part));
  if (folder)
    return [{ path, line: 1, says: `lies in a folder named ${folder}, which is no word of the trade.` }];
  if (!/^[a-z0-9]+(-[a-z0-9]+)*(\.[a-z]+)*\.(ts|tsx|mjs|css)$/.test(name)) {
    return [{ path, line: 1, says: "is not named in small letters with hyphens." }];
  }
  return [];
}

/** The entries of the top folder that git keeps, given those it is told to leave out. */
export function keptAtTop(entries: readonly string[], gitignore: string): string[] {
  const left = gitignore
    .split("\n")
    .map((line) => line.trim().replace(/\/$/, ""))
    .filter((line) => line !== "");
  const isLeftOut = (name: string) =>
    name === ".git" ||
    left.some((line) => (line.startsWith("*") ? name.endsWith(line.slice(1)) : name === line));
  return entries.filter((name) => !isLeftOut(name));
}
