import { setPriority } from "node:os";
import { type MessagePort, workerData } from "node:worker_threads";
import { type ScatterOrder, scatterHere } from "../../lib/drift/scatter";
import type { ScatterMessage } from "./scatter-beside";

/*
 * Works out how pieces scatter, beside the thread that scans (scatter-beside.ts), in the order in which it is asked. It
 * is bundled into .build/scatter-thread.mjs.
 */

const LESS_URGENT = 10;
if (process.platform === "linux") setPriority(LESS_URGENT);

const { port, told } = workerData as { port: MessagePort; told: Int32Array };

port.on("message", ({ id, order }: { id: number; order: ScatterOrder }) => {
  try {
    const { correlations, spread } = scatterHere(order);
    tell({ id, correlations: correlations() });
    tell({ id, spread: spread() });
  } catch (error) {
    tell({ id, broken: error instanceof Error ? error.message : String(error) });
  }
});

function tell(message: ScatterMessage): void {
  port.postMessage(message);
  Atomics.add(told, 0, 1);
  Atomics.notify(told, 0);
}
