import type { IntakePreview } from "../../lib/intake/preview";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { runWorker } from "./run-worker";
import type { Task } from "./task";

const WITHIN_MS = 60_000;

/**
 * A look at a file in a thread of its own, outside the queue: a person who maps columns does not wait for
 * another's intake, and a hostile workbook hurts only that thread.
 *
 * @throws UnreadableFile when it cannot be read, or not within a minute
 */
export function lookInWorker(task: Task & { kind: "look" }): Promise<IntakePreview> {
  return new Promise((resolve, reject) => {
    let preview: IntakePreview | null = null;
    let refused: string | null = null;
    const worker = runWorker(
      { task, databasePath: "" },
      {
        onMessage(message) {
          if (message.say === "ended" && message.result.kind === "look") preview = message.result.preview;
          if (message.say === "refused" || message.say === "broken") refused = message.message;
        },
        onEnd(fault) {
          clearTimeout(patience);
          if (preview) resolve(preview);
          else
            reject(new UnreadableFile("unsupported", null, refused ?? `The file cannot be read: ${fault}.`));
        },
      },
    );
    const patience = setTimeout(() => {
      refused = "The file took more than a minute to look at. Save the measurements as CSV and try again.";
      worker.kill();
    }, WITHIN_MS);
  });
}
