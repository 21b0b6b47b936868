import "server-only";
import { join } from "node:path";
import { isAwaited } from "../jobs/jobs";
import { sweep } from "./uploads";

const USUAL_MOST_MB = 2048;
const SWEEP_EVERY_MS = 600_000;

type Holder = { steadyrestSweeping?: NodeJS.Timeout };
const holder = globalThis as Holder;

/** The folder of uploads beside the database. The first call begins the sweeping of what was forgotten there. */
export function uploadFolder(): string {
  const folder = join(process.env.STEADYREST_DATA ?? "data", "uploads");
  if (!holder.steadyrestSweeping) {
    const sweepNow = () => void sweep(folder, { now: Date.now(), isAwaited });
    holder.steadyrestSweeping = setInterval(sweepNow, SWEEP_EVERY_MS).unref();
    sweepNow();
  }
  return folder;
}

/** The largest file this server takes, in bytes: STEADYREST_MAX_UPLOAD_MB, 2048 when it is not given. */
export function mostUploadBytes(): number {
  const given = Number(process.env.STEADYREST_MAX_UPLOAD_MB);
  return (given > 0 ? given : USUAL_MOST_MB) * 1024 * 1024;
}
