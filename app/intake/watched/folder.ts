import {
  copyFile,
  link,
  lstat,
  mkdir,
  open,
  readdir,
  readFile,
  rename,
  unlink,
  writeFile,
} from "node:fs/promises";
import { join, parse } from "node:path";

/*
 * The watched folder as the file system has it. Whoever measures puts files into it; each is taken in and then
 * moved to `done` or `refused` inside it, so what still lies in the folder itself has not been stored.
 */

export type End = "done" | "refused";

export type LyingFile = { name: string; size: number; changedAt: number };

/** Hidden files, and names under which programs write what is not complete yet. */
const NOT_YET = /^[.~]|\.(part|partial|tmp|temp|crdownload|filepart)$|~$/i;

/** Files that lie in the folder, by name; those that say by their name that they are still written are left out. */
export async function lyingIn(folder: string): Promise<LyingFile[]> {
  const files: LyingFile[] = [];
  for (const name of (await readdir(folder)).sort()) {
    if (NOT_YET.test(name)) continue;
    const found = await lstat(join(folder, name)).catch(() => null);
    // A link may point anywhere; only files themselves are taken.
    if (found?.isFile()) files.push({ name, size: found.size, changedAt: found.mtimeMs });
  }
  return files;
}

/**
 * Those files that nobody writes to any more: as large and as old as at the look before. A file that was copied
 * with the time of its original would look finished at once, so age alone does not tell.
 */
export function settledSince(before: readonly LyingFile[], now: readonly LyingFile[]): LyingFile[] {
  const known = new Map(before.map((file) => [file.name, file]));
  return now.filter(({ name, size, changedAt }) => {
    const earlier = known.get(name);
    return earlier !== undefined && earlier.size === size && earlier.changedAt === changedAt;
  });
}

/**
 * Moves a file to `done` or `refused`, under its own name or, when there is one of that name, with a number, and
 * lays beside it what there is to say. Gives the new name.
 *
 * It is gone from the folder only when all that is there. Whoever is stopped in between finds it again and goes on.
 */
export async function moveTo(
  folder: string,
  name: string,
  end: End,
  beside: readonly { suffix: string; text: string }[],
): Promise<string> {
  const from = join(folder, name);
  const target = join(folder, end);
  await mkdir(target, { recursive: true });
  const { name: stem, ext } = parse(name);
  for (let n = 1; ; n++) {
    const free = n === 1 ? name : `${stem}-${n}${ext}`;
    if (!(await isPutAt(from, join(target, free)))) continue;
    for (const { suffix, text } of beside) await writeFile(join(target, `${free}${suffix}`), text);
    await unlink(from);
    return free;
  }
}

/** Gives the file its new name beside the old one; false when another file has that name. */
async function isPutAt(from: string, to: string): Promise<boolean> {
  try {
    // Made only where nothing lies, so two files never get one name and nothing is written over.
    await link(from, to);
    return true;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === "ENOENT") throw error;
    if (code === "EEXIST") return isSameFile(from, to);
    return isCopiedTo(from, to);
  }
}

async function isSameFile(one: string, other: string): Promise<boolean> {
  const [a, b] = [await lstat(one), await lstat(other)];
  return a.ino === b.ino && a.dev === b.dev;
}

/** A network share may know no links. The name is taken first, empty, and the whole copy then put in its place. */
async function isCopiedTo(from: string, to: string): Promise<boolean> {
  try {
    await (await open(to, "wx")).close();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
  await copyFile(from, `${to}.part`);
  await rename(`${to}.part`, to);
  return true;
}

/** The suffix of the text that says why a file was refused. */
export const WHY = ".why.txt";

export type RefusedFile = { name: string; why: string };

/** The latest refused files with their reasons, and how many lie in each place. */
export async function folderState(
  folder: string,
  { most }: { most: number },
): Promise<{ waiting: number; done: number; refused: number; latestRefused: RefusedFile[] }> {
  const waiting = (await lyingIn(folder)).length;
  const [done, refused] = [await dataFilesIn(folder, "done"), await dataFilesIn(folder, "refused")];
  const latest = refused.sort((a, b) => b.changedAt - a.changedAt).slice(0, most);
  const latestRefused = await Promise.all(
    latest.map(async ({ name }) => ({
      name,
      why: await readFile(join(folder, "refused", name + WHY), "utf8").catch(() => ""),
    })),
  );
  return { waiting, done: done.length, refused: refused.length, latestRefused };
}

/** Without the files that lie beside others to tell of them. */
async function dataFilesIn(folder: string, end: End): Promise<LyingFile[]> {
  const all = await lyingIn(join(folder, end)).catch(() => []);
  const names = new Set(all.map(({ name }) => name));
  return all.filter(({ name }) => {
    const of = /^(.*)(\.why\.txt|\.refusals\.csv)$/.exec(name)?.[1];
    return of === undefined || !names.has(of);
  });
}
