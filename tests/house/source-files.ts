import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** A file of the project: its path from the root, with slashes, and its text. */
export type SourceFile = { path: string; text: string };

/** What a house check found: where, and what is wrong in a sentence. */
export type Finding = { path: string; line: number; says: string };

export const ROOT = join(import.meta.dirname, "../..");

const ROOMS = ["app", "lib", "db", "seed", "tests"];
const CODE = /\.(ts|tsx|mjs|css)$/;

/** Every code file of the rooms, and the configuration beside them, read once. */
export function sourceFiles(): SourceFile[] {
  const inRooms = ROOMS.flatMap((room) => filesBelow(room));
  const beside = readdirSync(ROOT).filter((name) => CODE.test(name) && name !== "next-env.d.ts");
  return [...inRooms, ...beside]
    .filter((path) => CODE.test(path))
    .map((path) => ({ path, text: readFileSync(join(ROOT, path), "utf8") }));
}

/** Everything that is written by hand, prose and data included: what is committed but for pictures. */
export function writtenFiles(): SourceFile[] {
  const prose = ["README.md", "DEVELOPERS.md", "package.json", ".npmrc", ".gitignore", ".ci/run"];
  const paths = [
    ...ROOMS.flatMap((room) => filesBelow(room)),
    ...readdirSync(ROOT).filter((name) => CODE.test(name)),
  ];
  const text = /\.(ts|tsx|mjs|css|md|json|sql|csv|txt|xml|py|r|R)$/;
  const present = new Set(readdirSync(ROOT));
  return [
    ...paths.filter((path) => text.test(path)),
    ...prose.filter((path) => present.has(path.split("/")[0]!)),
  ].map((path) => ({ path, text: readFileSync(join(ROOT, path), "utf8") }));
}

/** The findings as lines for the message of a failing test. */
export function listed(findings: readonly Finding[]): string[] {
  return findings.map(({ path, line, says }) => `${path}:${line} ${says}`);
}

/** The line of a position in a text, counted from 1. */
export function lineOf(text: string, position: number): number {
  return text.slice(0, position).split("\n").length;
}

function filesBelow(folder: string): string[] {
  try {
    return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
      const path = `${folder}/${entry.name}`;
      return entry.isDirectory() ? filesBelow(path) : [path];
    });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return [];
    throw error;
  }
}
