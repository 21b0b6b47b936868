import { awaitedAs, type Ticket } from "./awaited";
import { runWorker } from "./run-worker";
import type { Task, TaskResult } from "./task";

/** The work was given up by whoever waited for it; nothing of it was stored. */
class GivenUp extends Error {
  override name = "GivenUp";
}

/** Null in place of work that was given up. */
export async function unlessGivenUp<T>(work: Promise<T>): Promise<T | null> {
  try {
    return await work;
  } catch (error) {
    if (error instanceof GivenUp) return null;
    throw error;
  }
}

/**
 * One answer of a thread of its own, outside the queue of jobs: for work that a page waits for and that would hold up
 * everybody else's pages on the server's own thread.
 *
 * Under a `ticket` the page sees how far it has come and can give it up. `signal` ends the thread at once, for work
 * that stores nothing.
 *
 * @throws GivenUp when it was given up before it was done
 * @throws Error when the thread breaks or gives no answer within `withinMs`
 */
export function askWorker<Kind extends TaskResult["kind"]>(
  task: Task & { kind: Kind },
  {
    databasePath,
    withinMs,
    ticket,
    signal,
  }: { databasePath: string; withinMs: number; ticket?: Ticket | null; signal?: AbortSignal },
): Promise<TaskResult & { kind: Kind }> {
  return new Promise((resolve, reject) => {
    let result: TaskResult | null = null;
    let refused: string | null = null;
    let isGivenUp = false;
    const worker = runWorker(
      { task, databasePath },
      {
        onMessage(message) {
          if (message.say === "ended") result = message.result;
          if (message.say === "share") awaited?.goesOn(message.share);
          if (message.say === "refused" || message.say === "broken") refused = message.message;
        },
        onEnd(fault) {
          clearTimeout(patience);
          awaited?.end();
          // What was done before the word to stop came is done, and said so.
          if (result?.kind === task.kind) resolve(result as TaskResult & { kind: Kind });
          else if (isGivenUp) reject(new GivenUp());
          else reject(new Error(`${task.kind}: ${refused ?? fault ?? "no answer"}`));
        },
      },
    );
    const awaited = ticket
      ? awaitedAs(ticket, () => {
          isGivenUp = true;
          worker.cancel();
        })
      : null;
    const leave = () => {
      isGivenUp = true;
      void worker.kill();
    };
    if (signal?.aborted) leave();
    else signal?.addEventListener("abort", leave);
    const patience = setTimeout(() => {
      refused = `no answer within ${Math.round(withinMs / 1000)} s`;
      void worker.kill();
    }, withinMs);
  });
}
