import { type MessagePort, parentPort, receiveMessageOnPort, workerData } from "node:worker_threads";
import { freezeStatement } from "../../db/commands/statements";
import { undoIntake } from "../../db/commands/undo-intake";
import { type Database, openDatabase } from "../../db/connection";
import { importFile } from "../../db/intake/import-file";
import { previewFile } from "../../db/intake/read-file";
import { recomputeStatement } from "../../db/queries/recompute-statement";
import { statementById, statementReadings } from "../../db/queries/statements";
import { modelStudy, plainModelStudy } from "../../lib/capability/models/model-study";
import { writeMarksOf } from "../../lib/format/marks";
import { counted } from "../../lib/format/numbers";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { zoneTable } from "../../lib/intake/zone";
import { COMPUTED_BY } from "../../lib/software-version";
import { marksAsSigned } from "../../lib/statement/said-in";
import { WORDS } from "../../lib/words/words";
import type { Task, TaskResult, WorkerMessage } from "./task";
import { mostUnpackedBytes } from "./unpacked-limit";

/*
 * One task in a thread of its own, with a database connection of its own. It is bundled into
 * .build/worker.mjs, for the server's bundle must not take it in: see run-worker.ts.
 */

/** `orders` receives one message of any kind when the person cancels. */
export type WorkerInput = { task: Task; databasePath: string; orders: MessagePort };

const { task, databasePath, orders } = workerData as WorkerInput;
const say = (message: WorkerMessage) => parentPort?.postMessage(message);

try {
  say({ say: "ended", result: await perform(task) });
} catch (error) {
  const message = error instanceof Error ? error.message : String(error);
  say({ say: error instanceof UnreadableFile ? "refused" : "broken", message });
} finally {
  orders.close();
}

async function perform(asked: Task): Promise<TaskResult> {
  switch (asked.kind) {
    case "look": {
      const { path, fileName, mapping, rows } = asked;
      const zone = zoneTable(asked.zone);
      return {
        kind: "look",
        preview: await previewFile(
          { path, name: fileName },
          { zone, mapping, rows, mostUnpackedBytes: mostUnpackedBytes() },
        ),
      };
    }
    case "fit": {
      const study = modelStudy(asked.input);
      return { kind: "fit", study: study.ok ? { ok: true, value: plainModelStudy(study.value) } : study };
    }
    case "freeze":
      return onDatabase(async (database) => ({
        kind: "freeze",
        frozen: await freezeStatement(database, asked.draft, { actor: asked.actor, onProgress: shareSaid }),
      }));
    case "recompute":
      return onDatabase(async (database) => ({
        kind: "recompute",
        features: await recomputeStatement(database, asked.statementId, {
          onProgress: shareSaid,
          words: WORDS[asked.language].statements.recomputed,
        }),
        computedBy: COMPUTED_BY,
      }));
    case "sheet":
      return onDatabase(async (database) => ({ kind: "sheet", bytes: await sheetOf(database, asked) }));
    case "take file":
      return takeFile(asked);
    case "undo":
      return undo(asked);
  }
}

/** Called between features, where nothing has been stored yet: there work can be given up. */
function shareSaid(done: number, total: number): void {
  if (receiveMessageOnPort(orders)) throw new Error("given up");
  say({ say: "share", share: { done, total } });
}

async function takeFile(asked: Task & { kind: "take file" }): Promise<TaskResult> {
  const { path, fileName, from, mapping, subgroupSize, actor } = asked;
  const cancelled = new AbortController();
  const database = await openDatabase(databasePath);
  try {
    const outcome = await importFile(database, {
      path,
      fileName,
      kind: from,
      mapping,
      zone: zoneTable(asked.zone),
      newFeatures: { subgroupSize },
      actor,
      mostUnpackedBytes: mostUnpackedBytes(),
      signal: cancelled.signal,
      onBegin: (intakeId) => say({ say: "begun", intakeId }),
      onProgress(progress) {
        // Storing is one transaction without a pause in which a message could arrive by itself.
        if (receiveMessageOnPort(orders)) cancelled.abort();
        say({ say: "progress", progress });
      },
    });
    return { kind: "take file", outcome };
  } finally {
    await database.close();
  }
}

async function undo({ intakeId, actor }: Task & { kind: "undo" }): Promise<TaskResult> {
  const database = await openDatabase(databasePath);
  try {
    const undone = await undoIntake(database, { id: intakeId, actor });
    if (!undone.ok) return { kind: "undo", done: false, message: undone.message };
    const restored =
      undone.restored > 0 ? ` ${counted(undone.restored, "corrected value")} came back as before.` : "";
    const message = `Undone. ${counted(undone.removed, "measurement")} taken back.${restored} The features were judged anew.`;
    return { kind: "undo", done: true, message };
  } finally {
    await database.close();
  }
}

/** Loads what makes the sheet only when one is asked for. */
async function sheetOf(
  database: Database,
  { statementId, form, language }: Task & { kind: "sheet" },
): Promise<Uint8Array | null> {
  const statement = await statementById(database, statementId);
  if (!statement) return null;
  const printed = { ...statement, readings: await statementReadings(database, statementId) };
  const words = WORDS[language];
  // This thread makes one sheet, and nothing in it is stored.
  writeMarksOf(() => marksAsSigned(language));
  switch (form) {
    case "xlsx":
      return (await import("./statement-sheet/xlsx")).statementXlsx(printed, words);
    case "csv":
      return (await import("./statement-sheet/csv")).statementCsv(printed);
    default:
      return (await import("./statement-sheet/pdf")).statementPdf(printed, { paper: form, words });
  }
}

async function onDatabase<T>(work: (database: Database) => Promise<T>): Promise<T> {
  const database = await openDatabase(databasePath);
  try {
    return await work(database);
  } finally {
    await database.close();
  }
}
