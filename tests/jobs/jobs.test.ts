import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, onTestFinished, test } from "vitest";
import type { Job } from "../../app/jobs/job";
import { cancelJob, isAwaited, jobById, listJobs, startJob } from "../../app/jobs/jobs";
import { lookInWorker } from "../../app/jobs/look";
import { bundle } from "../../app/start/bundle.mjs";
import { failIntake, failLeftIntakes } from "../../db/commands/intakes";
import { type Database, openDatabase } from "../../db/connection";
import { importFile } from "../../db/intake/import-file";
import { migrate } from "../../db/migrate";
import { featuresOfIntake, intakeById, listIntakes } from "../../db/queries/intakes";
import { emptyMapping, type Mapping } from "../../lib/intake/mapping";
import { utc } from "../../lib/intake/zone";

/** The worker is a bundle of its own, as in the running program. */
beforeAll(() => bundle(join(import.meta.dirname, "../..")));

const actor = { accountId: null, at: Date.UTC(2026, 0, 5, 8) };

const mapping: Mapping = {
  ...emptyMapping("three columns"),
  columns: {
    ...emptyMapping("").columns,
    feature: { column: "feature" },
    taken_at: { column: "taken_at" },
    value: { column: "value" },
  },
};

async function plantInFile(): Promise<{ database: Database; folder: string }> {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-jobs-"));
  const database = await openDatabase(join(folder, "steadyrest.db"));
  onTestFinished(async () => {
    await database.close();
    rmSync(folder, { recursive: true, force: true });
  });
  await migrate(database);
  return { database, folder };
}

function fileOf(
  folder: string,
  { name, rows, features = 1 }: { name: string; rows: number; features?: number },
) {
  const lines = Array.from({ length: rows }, (_, i) => {
    const at = new Date(Date.UTC(2026, 0, 1) + i * 1000).toISOString();
    return `f${i % features},${at},${(10 + (i % 7) / 100).toFixed(2)}`;
  });
  const path = join(folder, name);
  writeFileSync(path, `feature,taken_at,value\n${lines.join("\n")}\n`);
  return path;
}

function start(database: Database, path: string, ended: (job: Job) => void = () => {}): Job {
  return startJob({
    kind: "take file",
    file: path.split("/").at(-1) ?? "",
    uploadId: path,
    accountId: null,
    databasePath: database.path,
    task: {
      kind: "take file",
      path,
      fileName: path,
      from: "file",
      mapping,
      zone: "UTC",
      subgroupSize: null,
      actor,
    },
    onEnd: async (job) => ended(job),
    onFault: (error) => {
      throw error;
    },
  });
}

async function end(id: string): Promise<Job> {
  for (;;) {
    const job = jobById(id);
    if (!job) throw new Error("The job was forgotten.");
    if (job.endedAt !== null) return job;
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

describe("jobs in the queue", () => {
  test("a file is taken in on another thread, and every measurement of it is stored", async () => {
    const { database, folder } = await plantInFile();
    const path = fileOf(folder, { name: "a.csv", rows: 500, features: 4 });
    const job = start(database, path);
    expect(job.state).toBe("running");
    expect(isAwaited(path)).toBe(true);

    const ended = await end(job.id);
    expect(ended).toMatchObject({ state: "done", outcome: { accepted: 500, refused: 0 } });
    expect(isAwaited(path)).toBe(false);
    expect(await intakeById(database, ended.intakeId ?? 0)).toMatchObject({ state: "done", accepted: 500 });
    const touched = await featuresOfIntake(database, ended.intakeId ?? 0);
    expect(touched.map(({ name, added }) => [name, added])).toEqual(
      ["f0", "f1", "f2", "f3"].map((name) => [name, 125]),
    );
  });

  test("one runs at a time, the others know how many come before them", async () => {
    const { database, folder } = await plantInFile();
    const jobs = ["a", "b", "c"].map((name) =>
      start(database, fileOf(folder, { name: `${name}.csv`, rows: 50 })),
    );
    const mine = listJobs().filter(({ id }) => jobs.some((job) => job.id === id));
    expect(mine.map(({ state, ahead }) => [state, ahead])).toEqual([
      ["running", 0],
      ["waiting", 1],
      ["waiting", 2],
    ]);
    for (const job of jobs) expect((await end(job.id)).state).toBe("done");
    const ids = (await listIntakes(database, { limit: 9 })).map(({ file }) => file.split("/").at(-1));
    expect(ids).toEqual(["c.csv", "b.csv", "a.csv"]);
  });

  test("one that waits is cancelled before it is begun, and leaves no trace in the history", async () => {
    const { database, folder } = await plantInFile();
    const first = start(database, fileOf(folder, { name: "a.csv", rows: 50 }));
    const second = start(database, fileOf(folder, { name: "b.csv", rows: 50 }));
    expect(cancelJob(second.id)).toBe(true);
    expect((await end(second.id)).state).toBe("cancelled");
    await end(first.id);
    expect(await listIntakes(database, { limit: 9 })).toHaveLength(1);
    expect(cancelJob(second.id)).toBe(false);
  });

  test("one that runs is cancelled in the middle, and nothing of it is stored", async () => {
    const { database, folder } = await plantInFile();
    const job = start(database, fileOf(folder, { name: "long.csv", rows: 200_000, features: 40 }));
    while (jobById(job.id)?.progress === null) await new Promise((resolve) => setTimeout(resolve, 5));
    cancelJob(job.id);
    const ended = await end(job.id);
    expect(ended.state).toBe("cancelled");
    expect(await intakeById(database, ended.intakeId ?? 0)).toMatchObject({
      state: "cancelled",
      accepted: 0,
    });
    expect(await featuresOfIntake(database, ended.intakeId ?? 0)).toEqual([]);
  });

  test("a file that is gone ends as failed, with a message and in the history", async () => {
    const { database, folder } = await plantInFile();
    const ended = await end(start(database, join(folder, "gone.csv")).id);
    expect(ended.state).toBe("failed");
    expect(ended.message).toContain("Nothing of this file was stored");
    expect((await listIntakes(database, { limit: 1 }))[0]).toMatchObject({ state: "failed" });
  });

  test("what has to be done afterwards is done before the job counts as ended, and the queue goes on", async () => {
    const { database, folder } = await plantInFile();
    const told: string[] = [];
    const first = start(database, fileOf(folder, { name: "a.csv", rows: 5 }), ({ state }) =>
      told.push(state),
    );
    await end(first.id);
    expect(told).toEqual(["done"]);
  });
});

test("a look at a file goes beside the queue and stores nothing", async () => {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-look-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const path = fileOf(folder, { name: "a.csv", rows: 5 });
  const look = { kind: "look", path, fileName: "a.csv", zone: "UTC", mapping: null, rows: 3 } as const;
  expect((await lookInWorker(look)).header).toEqual(["feature", "taken_at", "value"]);
  writeFileSync(path, "%PDF-1.7 not a table");
  await expect(lookInWorker(look)).rejects.toThrow("PDF");
});

describe("intakes whose reader died", () => {
  /** As the history stands in the middle of a reading: the importer is asked before it reads. */
  async function leftRunning(): Promise<{ database: Database; id: number }> {
    const { database, folder } = await plantInFile();
    const other = await openDatabase(join(folder, "steadyrest.db"));
    const path = fileOf(folder, { name: "a.csv", rows: 5 });
    const id = await new Promise<number>((resolve) => {
      void importFile(other, {
        path,
        fileName: "a.csv",
        mapping,
        zone: utc,
        newFeatures: { subgroupSize: null },
        actor,
        onBegin(intakeId) {
          resolve(intakeId);
          // The thread is killed here: it never comes back to its work.
          throw new Error("killed");
        },
      }).catch(() => other.close());
    });
    return { database, id };
  }

  test("one is ended as failed with the reason, once", async () => {
    const { database, id } = await leftRunning();
    expect(await intakeById(database, id)).toMatchObject({ state: "running" });
    const at = actor.at + 1000;
    expect(await failIntake(database, { id, message: "Its thread died.", at })).toBe(true);
    expect(await intakeById(database, id)).toMatchObject({
      state: "failed",
      message: "Its thread died.",
      endedAt: at,
    });
    expect(await failIntake(database, { id, message: "again", at })).toBe(false);
  });

  test("all are ended when the server starts anew", async () => {
    const { database, id } = await leftRunning();
    expect(await failLeftIntakes(database, { at: actor.at })).toBe(1);
    expect((await intakeById(database, id))?.message).toContain("nothing of it was stored");
    expect(await failLeftIntakes(database, { at: actor.at })).toBe(0);
  });
});
