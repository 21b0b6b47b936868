import { setPriority } from "node:os";
import { parentPort, workerData } from "node:worker_threads";
import { type ScanDone, scanPlant } from "../../db/commands/drift";
import { type Database, openDatabase } from "../../db/connection";
import { PlantMemory } from "../../db/queries/plant-memory";
import { ScanMemory } from "../../lib/drift/scan-memory";
import type { ScanStep } from "../../lib/drift/scan-step";
import { scatterBeside } from "./scatter-beside";

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

/*
 * Machines that post and people who wait come first where processors are short. On Linux this holds for the thread that
 * asks, elsewhere it would for the whole server.
 */
const LESS_URGENT = 10;
if (process.platform === "linux") setPriority(LESS_URGENT);

const { databasePath } = workerData as { databasePath: string };
const memory = new ScanMemory();
const read = new PlantMemory();
const askScatter = scatterBeside();
const tell = (message: ScannerMessage) => parentPort?.postMessage(message);

parentPort?.on("message", ({ now }: ScanOrder) => void scan(now));

/** It stays open, so that what was prepared and read of the file serves the next scan too. */
let opened: Promise<Database> | null = null;

async function scan(now: number): Promise<void> {
  try {
    opened ??= openDatabase(databasePath);
    const database = await opened;
    const onStep = (step: ScanStep) => tell({ say: "step", step });
    tell({ say: "done", done: await scanPlant(database, { now, memory, read, askScatter, onStep }) });
  } catch (error) {
    const broken = opened;
    opened = null;
    await broken?.then((database) => database.close()).catch(() => undefined);
    tell({ say: "broken", message: error instanceof Error ? error.message : String(error) });
  }
}
