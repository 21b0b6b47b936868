import { runWorker } from "./run-worker";
import type { Task, TaskResult } from "./task";

/**
 * One answer of a thread of its own, outside the queue of jobs: for work that a page waits for and that would hold up
 * everybody else's pages on the server's own thread.
 *
 * @throws Error when the thread breaks or gives no answer within `withinMs`
 */
export function askWorker<Kind extends TaskResult["kind"]>(
  task: Task & { kind: Kind },
  { databasePath, withinMs }: { databasePath: string; withinMs: number },
): Promise<TaskResult & { kind: Kind }> {
  return new Promise((resolve, reject) => {
    let result: TaskResult | null = null;
    let refused: string | null = null;
    const worker = runWorker(
      { task, databasePath },
      {
        onMessage(message) {
          if (message.say === "ended") result = message.result;
          if (message.say === "refused" || message.say === "broken") refused = message.message;
        },
        onEnd(fault) {
          clearTimeout(patience);
          if (result?.kind === task.kind) resolve(result as TaskResult & { kind: Kind });
          else reject(new Error(`${task.kind}: ${refused ?? fault ?? "no answer"}`));
        },
      },
    );
    const patience = setTimeout(() => {
      refused = `no answer within ${Math.round(withinMs / 1000)} s`;
      void worker.kill();
    }, withinMs);
  });
}
