import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, utimesSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { ReadableStream } from "node:stream/web";
import { beforeEach, describe, expect, onTestFinished, test } from "vitest";
import {
  discard,
  KEPT_MS,
  keep,
  pathOf,
  receive,
  sweep,
  uploadById,
  uploadsOf,
} from "../../app/intake/uploads";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "steadyrest-uploads-"));
  const made = folder;
  onTestFinished(() => rmSync(made, { recursive: true, force: true }));
});

function bodyOf(...chunks: string[]): ReadableStream {
  return new ReadableStream({
    start(controller) {
      for (const chunk of chunks) controller.enqueue(new TextEncoder().encode(chunk));
      controller.close();
    },
  });
}

const file = { name: "friday.csv", accountId: 3, at: 1000, announcedBytes: null, mostBytes: 1000 };

describe("receiving a file", () => {
  test("keeps its bytes under a name of our own, and its name as a label", async () => {
    const upload = await receive(folder, bodyOf("a,b\n", "1,2\n"), { ...file, name: "../../evil.csv" });
    expect(readFileSync(pathOf(folder, upload.id), "utf8")).toBe("a,b\n1,2\n");
    expect(upload).toMatchObject({ name: "../../evil.csv", bytes: 8, accountId: 3 });
    expect(readdirSync(folder).every((name) => name.startsWith(upload.id))).toBe(true);
    expect(await uploadById(folder, upload.id)).toEqual(upload);
  });

  test("leaves nothing behind of a file that grows beyond the limit", async () => {
    const body = bodyOf("x".repeat(600), "x".repeat(600));
    await expect(receive(folder, body, file)).rejects.toMatchObject({ status: 413 });
    expect(readdirSync(folder)).toEqual([]);
  });

  test("refuses one that announces itself as too large before reading it", async () => {
    const announced = { ...file, announcedBytes: 5000 };
    await expect(receive(folder, bodyOf("x"), announced)).rejects.toMatchObject({ status: 413 });
  });

  test("refuses one of which a part is missing", async () => {
    const announced = { ...file, announcedBytes: 9 };
    await expect(receive(folder, bodyOf("a,b\n"), announced)).rejects.toThrow("4 of 9 bytes");
    expect(readdirSync(folder)).toEqual([]);
  });

  test("leaves nothing behind when the connection breaks", async () => {
    const broken = new ReadableStream({
      pull(controller) {
        controller.error(new Error("gone"));
      },
    });
    await expect(receive(folder, broken, file)).rejects.toThrow("gone");
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe("what was received", () => {
  test("is found by its person alone", async () => {
    const mine = await receive(folder, bodyOf("a"), file);
    await receive(folder, bodyOf("b"), { ...file, accountId: 4 });
    expect(await uploadsOf(folder, 3)).toEqual([mine]);
  });

  test.each(["", "..", "../steadyrest", "x".repeat(36)])("%j is no id", async (id) => {
    expect(await uploadById(folder, id)).toBeNull();
    expect(() => pathOf(folder, id)).toThrow();
  });

  test("goes when it is discarded", async () => {
    const { id } = await receive(folder, bodyOf("a"), file);
    await discard(folder, id);
    expect(readdirSync(folder)).toEqual([]);
  });

  test("goes an hour after the last look, unless a job still has to read it", async () => {
    const [old, looked, awaited] = await Promise.all(
      ["a", "b", "c"].map((text) => receive(folder, bodyOf(text), file)),
    );
    const then = new Date(Date.now() - KEPT_MS - 1000);
    for (const upload of [old, looked, awaited]) utimesSync(pathOf(folder, upload!.id), then, then);
    await keep(folder, looked!.id);
    const removed = await sweep(folder, { now: Date.now(), isAwaited: (id) => id === awaited!.id });
    expect(removed).toBe(1);
    expect(existsSync(pathOf(folder, old!.id))).toBe(false);
    expect((await uploadsOf(folder, 3)).map(({ id }) => id).sort()).toEqual([looked!.id, awaited!.id].sort());
  });
});
