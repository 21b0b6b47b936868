import { randomUUID } from "node:crypto";
import {
  mkdir,
  open,
  readdir,
  readFile,
  rename,
  rm,
  stat,
  statfs,
  utimes,
  writeFile,
} from "node:fs/promises";
import { join } from "node:path";
import { Readable, Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { ReadableStream } from "node:stream/web";

/*
 * Files that people have sent and not yet committed. They lie in one folder under names of our own making;
 * what the browser calls a file is only a label. An hour after the last look at it a file is removed.
 */

export type Upload = { id: string; name: string; bytes: number; accountId: number; at: number };

export const KEPT_MS = 3_600_000;

/** Left free on the disk whatever people send, so that the database can go on. */
const LEAVE_FREE_BYTES = 300 * 1024 * 1024;

const ID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** The file cannot be received; `status` is the HTTP answer, the message is for the person. */
export class NotReceived extends Error {
  override name = "NotReceived";

  constructor(
    readonly status: 411 | 413 | 422 | 507,
    message: string,
  ) {
    super(message);
  }
}

export type Receiving = {
  name: string;
  accountId: number;
  at: number;
  /** As the request announces it; null when it does not. */
  announcedBytes: number | null;
  mostBytes: number;
};

/**
 * Writes a request's body to the folder as it arrives; it is never held in memory. Nothing is left behind
 * when it is too large, when the disk is too full, or when the connection ends early.
 *
 * @throws NotReceived
 */
export async function receive(folder: string, body: ReadableStream, file: Receiving): Promise<Upload> {
  const { name, accountId, at, announcedBytes, mostBytes } = file;
  if (announcedBytes !== null && announcedBytes > mostBytes) throw tooLarge(announcedBytes, mostBytes);
  await mkdir(folder, { recursive: true }).catch((error: unknown) => {
    throw notKept(error) ?? error;
  });
  const { bavail, bsize } = await statfs(folder);
  if (bavail * bsize < (announcedBytes ?? 0) + LEAVE_FREE_BYTES) {
    throw new NotReceived(
      507,
      `Nothing received: the server's disk has ${megabytes(bavail * bsize)} left, too little for this file. Ask whoever runs the server to make room.`,
    );
  }

  const id = randomUUID();
  const arriving = join(folder, `${id}.arriving`);
  let bytes = 0;
  const count = new Transform({
    transform(chunk: Buffer, _encoding, done) {
      bytes += chunk.length;
      done(bytes > mostBytes ? tooLarge(bytes, mostBytes) : null, chunk);
    },
  });
  try {
    // Opened before anything can go wrong: a stream that opens its file by itself may do so after it was discarded.
    const place = await open(arriving, "wx");
    await pipeline(Readable.fromWeb(body), count, place.createWriteStream());
    if (announcedBytes !== null && bytes !== announcedBytes) {
      throw new NotReceived(
        422,
        `Nothing received: ${bytes} of ${announcedBytes} bytes arrived. Send the file again.`,
      );
    }
    const upload: Upload = { id, name, bytes, accountId, at };
    await writeFile(cardOf(folder, id), JSON.stringify(upload));
    await rename(arriving, pathOf(folder, id));
    return upload;
  } catch (error) {
    await discard(folder, id).catch(() => undefined);
    throw notKept(error) ?? error;
  }
}

/** Where an upload's bytes are. */
export function pathOf(folder: string, id: string): string {
  return join(folder, `${requireId(id)}.file`);
}

/** Null when there is none, or no longer. */
export async function uploadById(folder: string, id: string): Promise<Upload | null> {
  if (!ID.test(id)) return null;
  try {
    return JSON.parse(await readFile(cardOf(folder, id), "utf8")) as Upload;
  } catch {
    return null;
  }
}

/** What a person has sent and neither committed nor discarded, oldest first. */
export async function uploadsOf(folder: string, accountId: number): Promise<Upload[]> {
  const ids = (await names(folder)).flatMap((name) => (name.endsWith(".card") ? [name.slice(0, -5)] : []));
  const uploads = await Promise.all(ids.map((id) => uploadById(folder, id)));
  return uploads
    .filter((upload): upload is Upload => upload?.accountId === accountId)
    .sort((a, b) => a.at - b.at || a.name.localeCompare(b.name));
}

/** Starts its hour anew: somebody is working with it. */
export async function keep(folder: string, id: string): Promise<void> {
  const now = new Date();
  await utimes(pathOf(folder, id), now, now);
}

export async function discard(folder: string, id: string): Promise<void> {
  const paths = [pathOf(folder, id), cardOf(folder, id), join(folder, `${id}.arriving`)];
  await Promise.all(paths.map((path) => rm(path, { force: true })));
}

/** Removes what nobody has looked at for an hour, but for what `isAwaited` names; says how many files went. */
export async function sweep(
  folder: string,
  { now, isAwaited }: { now: number; isAwaited: (id: string) => boolean },
): Promise<number> {
  let removed = 0;
  for (const name of await names(folder)) {
    const id = name.slice(0, name.lastIndexOf("."));
    if (name.endsWith(".card") || !ID.test(id) || isAwaited(id)) continue;
    const status = await stat(join(folder, name)).catch(() => null);
    if (!status || now - status.mtimeMs < KEPT_MS) continue;
    await discard(folder, id);
    removed++;
  }
  return removed;
}

async function names(folder: string): Promise<string[]> {
  return readdir(folder).catch(() => []);
}

function cardOf(folder: string, id: string): string {
  return join(folder, `${requireId(id)}.card`);
}

function requireId(id: string): string {
  if (!ID.test(id)) throw new Error("pathOf requires an id that receive() gave.");
  return id;
}

/** What the disk says to a file that it does not take; null for another fault. */
function notKept(error: unknown): NotReceived | null {
  const code = (error as { code?: unknown } | null)?.code;
  const why =
    code === "ENOSPC" || code === "EDQUOT" || code === "EFBIG"
      ? "the server's disk is full. Ask whoever runs the server to make room"
      : code === "EROFS" || code === "EACCES"
        ? "the server may only read the folder of its data. Ask whoever runs the server to let it write there"
        : null;
  return why === null ? null : new NotReceived(507, `Nothing received: ${why}, then send the file again.`);
}

function tooLarge(bytes: number, most: number): NotReceived {
  return new NotReceived(
    413,
    `Nothing received: the file has ${bytes > most ? "more than " : ""}${megabytes(most)}, the most this server takes. Split it, or have STEADYREST_MAX_UPLOAD_MB raised.`,
  );
}

function megabytes(bytes: number): string {
  return `${Math.floor(bytes / 1024 / 1024)} MB`;
}
