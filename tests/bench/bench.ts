import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { BENCHES } from "./benches";
import { medianOf, type Timing } from "./timing";

/*
 * Times the program, side by side with peers where they are to be had:
 *
 *   npm run bench -- [NAME…] [--list] [--runs N] [--rows N] [--json FILE] [--peer FILE] [--python PROGRAM]
 *     [--keep FOLDER]
 *
 * Without a name all of them run, and their figures go into .build/bench.json too. With --keep, databases that take
 * long to make stay in that folder and are found there the next time. Compare ratios of figures that were taken in the same minutes, first of
 * processor time, then of the clock: a busy machine stretches both.
 */

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    list: { type: "boolean" },
    runs: { type: "string" },
    rows: { type: "string" },
    json: { type: "string" },
    peer: { type: "string" },
    python: { type: "string" },
    keep: { type: "string" },
  },
});

const unknown = positionals.filter((name) => !(name in BENCHES));
if (values.list || unknown.length > 0) {
  for (const name of unknown) console.error(`There is no bench named ${name}.`);
  console.log("Benches:");
  for (const [name, { times }] of Object.entries(BENCHES)) console.log(`  ${name.padEnd(10)} ${times}`);
  process.exit(unknown.length > 0 ? 2 : 0);
}

const runs = numberFrom(values.runs, "runs") ?? 3;
const rows = numberFrom(values.rows, "rows");
const isWhole = positionals.length === 0;
const json = values.json ?? (isWhole ? join(".build", "bench.json") : undefined);
const results: Record<string, unknown> = {};
for (const name of isWhole ? Object.keys(BENCHES) : positionals) {
  // A folder each: a database left by the bench before would be measured along.
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-bench-"));
  try {
    const result = await BENCHES[name]!.run({
      folder,
      runs,
      rows,
      kept: values.keep ?? null,
      peer: values.peer ?? process.env[`STEADYREST_PEER_${name.toUpperCase()}`],
      python: values.python ?? process.env.PYTHON ?? "python3",
    });
    results[name] = { ...result, processors: cpus().length, load: loadavg()[0] };
    print(name, result.about, result.timings);
    for (const { label, value, bar } of result.ratios) {
      console.log(`  ${label}: ${value.toFixed(2)}${bar === undefined ? "" : ` (${bar})`}`);
    }
    for (const remark of result.remarks) console.log(`  ${remark}`);
  } catch (error) {
    // The others are still worth their time.
    const reason = error instanceof Error ? error.message : String(error);
    results[name] = { failed: reason };
    console.error(`\n${name} did not run: ${reason}`);
    process.exitCode = 1;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
if (json !== undefined) {
  writeFileSync(json, `${JSON.stringify(results, null, 2)}\n`);
  console.log(`\nFigures in ${json}`);
}

function numberFrom(word: string | undefined, name: string): number | undefined {
  if (word === undefined) return undefined;
  const number = Number(word);
  if (Number.isInteger(number) && number > 0) return number;
  console.error(`--${name} takes a whole number above 0, not “${word}”.`);
  process.exit(2);
}

function print(name: string, about: string, timings: readonly Timing[]): void {
  console.log(`\n${name}: ${about}; load ${loadavg()[0]!.toFixed(1)} on ${cpus().length} processors\n`);
  if (timings.length === 0) return;
  const width = Math.max(...timings.map(({ label }) => label.length));
  console.log(`  ${"".padEnd(width)}  processor s  clock s  clock, each run`);
  for (const { label, processor, clock } of timings) {
    const each = clock.map((seconds) => seconds.toFixed(2)).join(" ");
    console.log(
      `  ${label.padEnd(width)}  ${medianOf(processor).toFixed(2).padStart(11)}  ${medianOf(clock).toFixed(2).padStart(7)}  ${each}`,
    );
  }
  console.log();
}
