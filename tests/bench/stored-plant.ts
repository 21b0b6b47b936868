import { existsSync, mkdirSync, renameSync, rmSync } from "node:fs";
import { join } from "node:path";
import { commandLine } from "./command-line";
import { type Plant, writeCsv } from "./drift-data";
import { timedProgram } from "./timing";

/** A data folder into which the measurements of made-up plants were taken; one that is there already is left alone. */
export async function storedOnce(data: string, plants: readonly (() => Plant)[]): Promise<string> {
  if (existsSync(data)) return data;
  const making = `${data}.making`;
  rmSync(making, { recursive: true, force: true });
  mkdirSync(making, { recursive: true });
  for (const make of plants) {
    const csv = join(making, "measurements.csv");
    await writeCsv(make(), csv);
    const command = commandLine("intake", csv);
    const taken = timedProgram("intake", 1, command, { STEADYREST_DATA: making });
    if (!taken.ok) throw new Error(taken.reason);
    rmSync(csv);
  }
  renameSync(making, data);
  return data;
}
