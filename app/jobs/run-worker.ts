import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { MessageChannel, Worker } from "node:worker_threads";
import type { Task, WorkerMessage } from "./task";

/** A file that lies about its size must not take the server with it. Measured: 300,000 rows of 200 features took 110 MB. */
const MOST_MEMORY_MB = 1024;

export type RunningWorker = {
  /** Asks the task to stop; it says so itself when it has. */
  cancel(): void;
  /** Ends the thread at once; a transaction it was in is rolled back. */
  kill(): Promise<unknown>;
};

/**
 * Runs a task in a thread of its own. `onMessage` gets what it says; `onEnd` is called once, when the thread
 * is gone, with the fault that killed it or null.
 *
 * The path is put together at run time: a bundler that sees it would take the worker apart.
 */
export function runWorker(
  { task, databasePath }: { task: Task; databasePath: string },
  {
    onMessage,
    onEnd,
  }: { onMessage: (message: WorkerMessage) => void; onEnd: (fault: string | null) => void },
): RunningWorker {
  const { port1: orders, port2 } = new MessageChannel();
  const path = [process.cwd(), ".build", "worker.mjs"];
  const worker = new Worker(pathToFileURL(join(...(path as [string, string, string]))), {
    workerData: { task, databasePath, orders: port2 },
    transferList: [port2],
    resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB },
  });
  let fault: string | null = null;
  worker.on("message", onMessage);
  worker.on("error", (error: NodeJS.ErrnoException) => {
    fault =
      error.code === "ERR_WORKER_OUT_OF_MEMORY"
        ? `it needed more than ${MOST_MEMORY_MB} MB of memory`
        : error.message;
  });
  worker.on("exit", (code) => {
    orders.close();
    onEnd(fault ?? (code === 0 ? null : `its thread ended with code ${code}`));
  });
  return {
    cancel: () => orders.postMessage("cancel"),
    kill: () => worker.terminate(),
  };
}
