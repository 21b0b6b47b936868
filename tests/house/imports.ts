import { posix } from "node:path";
import { type Finding, lineOf, type SourceFile } from "./source-files";

/**
 * Who may import whom.
 *
 * The rooms stand in a row, app → db → lib, with seed beside db; nothing is imported against that direction.
 * A client component runs in a browser: it may know the types of db, never its code.
 */
const ROOMS_OPEN_TO: Record<string, readonly string[]> = {
  lib: ["lib"],
  db: ["db", "lib"],
  seed: ["seed", "db", "lib"],
  "app/cli": ["app/cli", "app/jobs", "app/start", "db", "lib", "seed"],
  "app/jobs": ["app/jobs", "db", "lib", "seed"],
  // The lesson shows what was planted beside what was found.
  "app/lesson": ["app", "app/jobs", "app/lesson", "db", "lib", "seed"],
  "app/start": ["app/start"],
  app: ["app", "app/jobs", "db", "lib"],
  tests: ["tests", "app", "app/cli", "app/jobs", "app/start", "db", "lib", "seed", ""],
};

/** Packages of the arithmetic. Each is called from one place, after its results were checked. */
const PACKAGES_OF_LIB = /^(@stdlib\/|simple-statistics$)/;

/** Packages that know SQL. */
const PACKAGES_OF_DB = /^(better-sqlite3|drizzle-orm)(\/|$)/;

const IMPORT =
  /(?:^|[\s;])(import|export)\s+(type\s+)?([^"'`;]*?\bfrom\s*)?["']([^"']+)["']|\bimport\(\s*["']([^"']+)["']\s*\)/g;

type Import = { from: string; typeOnly: boolean; line: number };

/** Every import that goes against the direction, or takes a package that its room has no business with. */
export function strayImports(files: readonly SourceFile[]): Finding[] {
  const clients = new Set(files.filter(isClient).map(({ path }) => path));
  return files
    .filter(({ path }) => /\.(ts|tsx|mjs)$/.test(path))
    .flatMap((file) =>
      importsOf(file.text).flatMap((found) => {
        const says = whyStray(file.path, found, clients.has(file.path));
        return says === undefined ? [] : [{ path: file.path, line: found.line, says }];
      }),
    );
}

function whyStray(path: string, { from, typeOnly }: Import, isClientFile: boolean): string | undefined {
  const room = roomOf(path);
  if (!from.startsWith(".")) return whyStrayPackage(room, from);

  const target = posix.join(posix.dirname(path), from);
  const targetRoom = roomOf(target);
  if (/\.(ts|tsx)$/.test(from)) return `imports ${from} with its extension.`;
  const open = ROOMS_OPEN_TO[room];
  if (open && !open.includes(targetRoom))
    return `imports ${target}: ${room} may not know ${targetRoom || "the root"}.`;
  if (isClientFile && targetRoom === "db" && !typeOnly) {
    return `runs in the browser and imports ${target}; only its types may be imported there.`;
  }
  return undefined;
}

function whyStrayPackage(room: string, from: string): string | undefined {
  if (room === "lib" && !PACKAGES_OF_LIB.test(from)) return `imports ${from}: lib is arithmetic only.`;
  if (room !== "db" && room !== "tests" && PACKAGES_OF_DB.test(from))
    return `imports ${from}: only db knows SQL.`;
  return undefined;
}

function importsOf(text: string): Import[] {
  const code = withoutComments(text);
  return [...code.matchAll(IMPORT)].flatMap((match) => {
    const [, keyword, type, clause, plain, lazy] = match;
    const from = plain ?? lazy;
    if (from === undefined) return [];
    if (keyword === "export" && clause === undefined) return [];
    const typeOnly = type !== undefined || isOnlyTypes(clause);
    return [{ from, typeOnly, line: lineOf(code, match.index + match[0].search(/\S/)) }];
  });
}

/** `{ type A, type B } from`: nothing of it is left at run time. */
function isOnlyTypes(clause: string | undefined): boolean {
  const names = /^\s*\{([^}]*)\}\s*from/.exec(clause ?? "")?.[1];
  if (names === undefined) return false;
  const each = names.split(",").filter((name) => name.trim() !== "");
  return each.length > 0 && each.every((name) => /^\s*type\s/.test(name));
}

function isClient({ text }: SourceFile): boolean {
  return /^\s*["']use client["']/.test(withoutComments(text));
}

/** Comments blanked out, with every line in its place. */
function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\/|(^|\s)\/\/[^\n]*/g, (comment) => comment.replace(/[^\n]/g, " "));
}

function roomOf(path: string): string {
  const [first = "", second = ""] = path.split("/");
  if (path === "app/start.mjs") return "app/start";
  if (first === "app" && ["cli", "jobs", "lesson", "start"].includes(second)) return `app/${second}`;
  return first in ROOMS_OPEN_TO ? first : "";
}
