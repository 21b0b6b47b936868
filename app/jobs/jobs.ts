import { randomUUID } from "node:crypto";
import type { Job } from "./job";
import { type RunningWorker, runWorker } from "./run-worker";
import type { Task, TaskResult, WorkerMessage } from "./task";

/*
 * Long work, one piece at a time: two files at once would wait for each other's write lock anyway, and a
 * person sees what is before them in the queue.
 *
 * What is running is held outside the module, which a development server loads anew after each edit.
 */

type Entry = {
  job: Job;
  task: Task;
  databasePath: string;
  worker: RunningWorker | null;
  result: TaskResult | null;
  /** Called once when it has ended; may write to the database. */
  onEnd: (job: Job) => Promise<void>;
  /** Hears why `onEnd` failed. */
  onFault: (error: unknown) => void;
};

type Holder = { steadyrestJobs?: Map<string, Entry>; steadyrestJobsStopped?: boolean };
const holder = globalThis as Holder;

/** Ended jobs can be asked for this long, so that a page that was asleep learns how they ended. */
const REMEMBERED_MS = 3_600_000;

function entries(): Map<string, Entry> {
  holder.steadyrestJobs ??= new Map();
  const jobs = holder.steadyrestJobs;
  for (const [id, { job }] of jobs)
    if (job.endedAt !== null && Date.now() - job.endedAt > REMEMBERED_MS) jobs.delete(id);
  return jobs;
}

export type NewJob = Pick<Job, "kind" | "file" | "uploadId" | "accountId"> & {
  task: Task;
  databasePath: string;
  onEnd: (job: Job) => Promise<void>;
  onFault: (error: unknown) => void;
};

/** Puts a job into the queue and starts it when nothing else runs. */
export function startJob({ kind, file, uploadId, accountId, onEnd, onFault, ...work }: NewJob): Job {
  const job: Job = {
    id: randomUUID(),
    kind,
    file,
    uploadId,
    accountId,
    state: "waiting",
    ahead: 0,
    progress: null,
    intakeId: null,
    outcome: null,
    message: "",
    endedAt: null,
  };
  entries().set(job.id, { job, ...work, worker: null, result: null, onEnd, onFault });
  startNext();
  return jobById(job.id) ?? job;
}

/** Jobs in the order in which they were asked for. */
export function listJobs(): Job[] {
  let ahead = 0;
  return [...entries().values()].map(({ job }) => {
    const shown = { ...job, ahead: job.state === "waiting" ? ahead : 0 };
    if (job.endedAt === null) ahead++;
    return shown;
  });
}

export function jobById(id: string): Job | null {
  return listJobs().find((job) => job.id === id) ?? null;
}

/** Whether a job still has to read this upload. */
export function isAwaited(uploadId: string): boolean {
  return listJobs().some((job) => job.uploadId === uploadId && job.endedAt === null);
}

/** Stops a job; false when there is none or it has ended. One that is storing stops at the next feature. */
export function cancelJob(id: string): boolean {
  const entry = entries().get(id);
  if (!entry || entry.job.endedAt !== null) return false;
  if (entry.worker) entry.worker.cancel();
  else
    void end(entry, {
      state: "cancelled",
      message: "Cancelled before it was begun. Nothing of this file was stored.",
    });
  return true;
}

/**
 * For the end of the process: begins no further job and ends the thread of the one that runs, whose transaction is
 * rolled back; the next start says so in its history (failLeftIntakes).
 */
export function stopJobs(): void {
  holder.steadyrestJobsStopped = true;
  for (const { worker } of entries().values()) void worker?.kill();
}

/** Jobs that wait, and the one that runs. */
export function jobsNotEnded(): Job[] {
  return listJobs().filter(({ endedAt }) => endedAt === null);
}

function startNext(): void {
  if (holder.steadyrestJobsStopped) return;
  const all = [...entries().values()];
  if (all.some(({ job }) => job.state === "running")) return;
  const next = all.find(({ job }) => job.state === "waiting");
  if (!next) return;
  next.job.state = "running";
  try {
    next.worker = runWorker(next, {
      onMessage: (message) => hear(next, message),
      onEnd: (fault) => void finish(next, fault),
    });
  } catch (error) {
    void finish(next, error instanceof Error ? error.message : String(error));
  }
}

function hear(entry: Entry, message: WorkerMessage): void {
  const { job } = entry;
  if (message.say === "begun") job.intakeId = message.intakeId;
  if (message.say === "progress") job.progress = message.progress;
  if (message.say === "ended") entry.result = message.result;
  if (message.say === "refused" || message.say === "broken") job.message = message.message;
}

/** The thread is gone: either it has told its result, or it died. */
async function finish(entry: Entry, fault: string | null): Promise<void> {
  const { job, result } = entry;
  if (result?.kind === "take file") {
    job.outcome = result.outcome;
    job.intakeId = result.outcome.id;
    return end(entry, { state: result.outcome.state, message: result.outcome.message });
  }
  if (result?.kind === "undo")
    return end(entry, { state: result.done ? "done" : "failed", message: result.message });
  // Nothing is wrong with the file: one of the watched folder stays where it lies and is taken at the next start.
  if (holder.steadyrestJobsStopped) return;
  const reason = fault ?? (job.message || "its thread ended without a result");
  const what = job.kind === "undo" ? "Nothing was taken back" : "Nothing of this file was stored";
  return end(entry, {
    state: "failed",
    message: `${what}, through a fault of the program: ${reason}. Try it once more; if it happens again, ask for help with this message.`,
  });
}

async function end(entry: Entry, { state, message }: Pick<Job, "state" | "message">): Promise<void> {
  const { job } = entry;
  entry.worker = null;
  job.message = message;
  try {
    await entry.onEnd({ ...job, state });
  } catch (error) {
    entry.onFault(error);
  } finally {
    job.state = state;
    job.endedAt = Date.now();
    startNext();
  }
}
