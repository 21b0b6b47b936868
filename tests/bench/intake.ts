import { existsSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import type { Bench, BenchOptions, BenchResult } from "./benches";
import { commandLine } from "./command-line";
import { plantOf, writeCsv } from "./drift-data";
import { medianOf, type Outcome, type Timing, timedProgram } from "./timing";

const SEED = 20_260_105;
const ROWS = 1_000_000;
const PEER = "tests/bench/peers/study.py";

/** Tells the most memory that a program held, on its way out. */
const TELLS_MEMORY =
  "data:text/javascript,process.on('exit',()=>console.error('held',process.resourceUsage().maxRSS))";

const FLAT_TABLE = `CREATE TABLE flat(piece TEXT, taken_at TEXT, part TEXT, feature TEXT, nominal REAL,
  lower_tolerance REAL, upper_tolerance REAL, unit TEXT, value REAL, lot TEXT, fixture TEXT, tool TEXT, machine TEXT,
  gauge TEXT, operator TEXT, part_temp_c REAL);`;

export const intake: Bench = {
  times: "a file of measurements into the database and through a study, beside a script and a bare import",
  async run(options): Promise<BenchResult> {
    const plant = plantOf(options.rows ?? ROWS, { seed: SEED, lots: 60 });
    const csv = join(options.folder, "measurements.csv");
    await writeCsv(plant, csv);
    const remarks: string[] = [];
    const timings: Timing[] = [];
    const keep = (outcome: Outcome): Timing | null => {
      if (outcome.ok) timings.push(outcome.timing);
      else remarks.push(outcome.reason);
      return outcome.ok ? outcome.timing : null;
    };

    const data = join(options.folder, "data");
    const stored = keep(eachAnew("intake, CSV to database", options.runs, data, commandLine("intake", csv)));
    remarks.push(
      `The database is ${megabytes(join(data, "steadyrest.db"))} MB, the file ${megabytes(csv)} MB.`,
    );
    const memory = timedProgram("intake, once more for its memory", 1, heldBy(csv, data));
    if (memory.ok)
      remarks.push(`Most memory held by the intake: ${memory.said.replace("held", "").trim()} kB.`);
    const studied = keep(
      timedProgram("study, CSV to JSON", options.runs, commandLine("study", csv, "--json")),
    );
    const floor = keep(importFloor(csv, options));
    const { study, store } = peersBeside(csv, options, keep);
    return {
      about: `${plant.rows.toLocaleString("en")} measurements, 300 features, ${megabytes(csv)} MB of CSV; medians of ${options.runs} runs`,
      timings,
      ratios: [
        ...ratio("intake / script that stores", stored, store, "under 1"),
        ...ratio("intake / bare import into a flat table", stored, floor, "at most 1.5"),
        ...ratio("study / script that does not store", studied, study, "at most 1"),
      ],
      remarks: [...remarks, "The script checks no row, and finds neither duplicates nor late measurements."],
    };
  },
};

function ratio(label: string, own: Timing | null, other: Timing | null, bar: string) {
  if (own === null || other === null) return [];
  return [
    { label: `processor time, ${label}`, value: medianOf(own.processor) / medianOf(other.processor), bar },
  ];
}

/** Into an empty database each time: the second time, everything would be there already. */
function eachAnew(label: string, runs: number, data: string, command: readonly string[]): Outcome {
  const timing: Timing = { label, processor: [], clock: [] };
  for (let run = 0; run < runs; run++) {
    rmSync(data, { recursive: true, force: true });
    const outcome = timedProgram(label, 1, command, { STEADYREST_DATA: data });
    if (!outcome.ok) return outcome;
    timing.processor.push(...outcome.timing.processor);
    timing.clock.push(...outcome.timing.clock);
  }
  return { ok: true, timing, said: "" };
}

function heldBy(csv: string, data: string): string[] {
  rmSync(data, { recursive: true, force: true });
  const [node, ...words] = commandLine("intake", csv);
  return ["env", `STEADYREST_DATA=${data}`, node as string, "--import", TELLS_MEMORY, ...words];
}

function importFloor(csv: string, { folder, runs }: BenchOptions): Outcome {
  const flat = join(folder, "flat.db");
  const script = `rm -f "$2"; printf '%s\\n.import --csv --skip 1 "%s" flat\\n' "$3" "$1" | sqlite3 -batch "$2"`;
  return timedProgram("floor, bare import into a flat table", runs, [
    "sh",
    "-c",
    script,
    "sh",
    csv,
    flat,
    FLAT_TABLE,
  ]);
}

/** A script of tables and arrays that does the same study of the same file: our own, or the one that `--peer` names. */
function peersBeside(
  csv: string,
  { peer = PEER, python, runs, folder }: BenchOptions,
  keep: (outcome: Outcome) => Timing | null,
): { study: Timing | null; store: Timing | null } {
  const out = join(folder, "peer.json");
  const command = [python, peer, csv, out];
  return {
    study: keep(timedProgram("script, without storing", runs, command)),
    store: keep(timedProgram("script, storing", runs, [...command, "--store", join(folder, "peer.db")])),
  };
}

function megabytes(path: string): number {
  return existsSync(path) ? Math.round(statSync(path).size / 1e6) : 0;
}
