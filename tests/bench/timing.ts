import { spawnSync } from "node:child_process";

/** Seconds of each run: by the clock, and of the processor with all threads (compiler and collector included). */
export type Timing = { label: string; processor: number[]; clock: number[] };

/**
 * Times work in this process. What `prepare` makes is not timed; it is made anew for each run, so that every run
 * does the same work.
 */
export async function timed<Made>(
  label: string,
  runs: number,
  { prepare, work }: { prepare: () => Made | Promise<Made>; work: (made: Made) => unknown },
): Promise<Timing> {
  const timing: Timing = { label, processor: [], clock: [] };
  for (let run = 0; run < runs; run++) {
    const made = await prepare();
    const processor = process.cpuUsage();
    const clock = performance.now();
    await work(made);
    timing.clock.push((performance.now() - clock) / 1e3);
    const { user, system } = process.cpuUsage(processor);
    timing.processor.push((user + system) / 1e6);
  }
  return timing;
}

/** `said` is what the last run wrote to its standard error. */
export type Outcome = { ok: true; timing: Timing; said: string } | { ok: false; reason: string };

/** Times a program from its start to its end; the shell tells the processor time of what it waited for. */
export function timedProgram(
  label: string,
  runs: number,
  command: readonly string[],
  env: Record<string, string> = {},
): Outcome {
  const timing: Timing = { label, processor: [], clock: [] };
  let said = "";
  for (let run = 0; run < runs; run++) {
    const clock = performance.now();
    const ended = spawnSync(
      "sh",
      ["-c", '"$@" >/dev/null; status=$?; times; exit $status', "sh", ...command],
      {
        encoding: "utf8",
        env: { ...process.env, LC_ALL: "C", ...env },
      },
    );
    if (ended.status !== 0) {
      const said = (ended.stderr || String(ended.error ?? "")).trim().split("\n").at(-1);
      return { ok: false, reason: `${label} did not run: ${said}` };
    }
    timing.clock.push((performance.now() - clock) / 1e3);
    timing.processor.push(secondsIn(ended.stdout.trim().split("\n").at(-1) ?? ""));
    said = ended.stderr;
  }
  return { ok: true, timing, said };
}

/** "0m1.48s 0m0.26s" */
function secondsIn(line: string): number {
  return [...line.matchAll(/(\d+)m([\d.]+)s/g)].reduce(
    (sum, [, minutes, seconds]) => sum + 60 * Number(minutes) + Number(seconds),
    0,
  );
}

export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
