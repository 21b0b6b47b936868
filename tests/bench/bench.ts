import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { BENCHES } from "./benches";
import { medianOf, type Timing } from "./timing";

/*
 * Times the program, side by side with peers where they are to be had:
 *
 *   npm run bench -- NAME… [--runs N] [--rows N] [--json FILE] [--peer FILE] [--python PROGRAM]
 *
 * Without a name the benches are listed. Compare ratios of figures that were taken in the same minutes, first of
 * processor time, then of the clock: a busy machine stretches both.
 */

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    runs: { type: "string" },
    rows: { type: "string" },
    json: { type: "string" },
    peer: { type: "string" },
    python: { type: "string" },
  },
});

const unknown = positionals.filter((name) => !(name in BENCHES));
if (positionals.length === 0 || unknown.length > 0) {
  for (const name of unknown) console.error(`There is no bench named ${name}.`);
  console.log("Benches:");
  for (const [name, { times }] of Object.entries(BENCHES)) console.log(`  ${name.padEnd(10)} ${times}`);
  process.exit(unknown.length > 0 ? 2 : 0);
}

const folder = mkdtempSync(join(tmpdir(), "steadyrest-bench-"));
const results: Record<string, unknown> = {};
try {
  for (const name of positionals) {
    const bench = BENCHES[name]!;
    const result = await bench.run({
      folder,
      runs: numberFrom(values.runs, "runs") ?? 3,
      rows: numberFrom(values.rows, "rows"),
      peer: values.peer ?? process.env[`STEADYREST_PEER_${name.toUpperCase()}`],
      python: values.python ?? process.env.PYTHON ?? "python3",
    });
    results[name] = { ...result, processors: cpus().length, load: loadavg()[0] };
    print(name, result.about, result.timings);
    for (const { label, value, bar } of result.ratios) {
      console.log(`  ${label}: ${value.toFixed(2)}${bar === undefined ? "" : ` (${bar})`}`);
    }
    for (const remark of result.remarks) console.log(`  ${remark}`);
  }
  if (values.json !== undefined) writeFileSync(values.json, `${JSON.stringify(results, null, 2)}\n`);
} finally {
  rmSync(folder, { recursive: true, force: true });
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
