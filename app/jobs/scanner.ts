import { parentPort, workerData } from "node:worker_threads";
import { type ScanDone, scanPlant } from "../../db/commands/drift";
import { openDatabase } from "../../db/connection";
import { PlantMemory } from "../../db/queries/plant-memory";
import { ScanMemory } from "../../lib/drift/scan-memory";
import type { ScanStep } from "../../lib/drift/scan-step";

/*
 * The source scan in a thread of its own that stays between scans, for what it read, and worked out for parts without
 * new measurements, serves the next one. It is bundled into .build/scanner.mjs; see scans.ts.
 */

/** One scan is asked for at a time; the plant's clock comes with the question. */
export type ScanOrder = { now: number };

export type ScannerMessage =
  | ({ say: "step" } & { step: ScanStep })
  | { say: "done"; done: ScanDone }
  | { say: "broken"; message: string };

const { databasePath } = workerData as { databasePath: string };
const memory = new ScanMemory();
const read = new PlantMemory();
const tell = (message: ScannerMessage) => parentPort?.postMessage(message);

parentPort?.on("message", ({ now }: ScanOrder) => void scan(now));

async function scan(now: number): Promise<void> {
  try {
    const database = await openDatabase(databasePath);
    try {
      const done = await scanPlant(database, {
        now,
        memory,
        read,
        onStep: (step) => tell({ say: "step", step }),
      });
      tell({ say: "done", done });
    } finally {
      await database.close();
    }
  } catch (error) {
    tell({ say: "broken", message: error instanceof Error ? error.message : String(error) });
  }
}
