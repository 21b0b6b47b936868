import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { scanForDrift } from "../../lib/drift/drift-scan";
import { plantOf, writeCsv } from "./drift-data";
import { medianOf, timed, timedProgram } from "./timing";

describe("a program that is timed", () => {
  test("is timed from its start to its end, by the clock and of the processor", () => {
    const spin = "const end = Date.now() + 200; while (Date.now() < end);";
    const outcome = timedProgram("spin", 1, [process.execPath, "-e", spin]);
    if (!outcome.ok) throw new Error(outcome.reason);
    expect(outcome.timing.clock[0]).toBeGreaterThan(0.2);
    expect(outcome.timing.processor[0]).toBeGreaterThan(0.02);
  });

  test("that fails says so with its last words", () => {
    const outcome = timedProgram("broken", 1, [
      process.execPath,
      "-e",
      "console.error('no data'); process.exit(3)",
    ]);
    expect(outcome).toEqual({ ok: false, reason: "broken did not run: no data" });
  });
});

test("what is prepared is made anew for every run and not timed", async () => {
  const made: number[] = [];
  const timing = await timed("count", 3, { prepare: () => made.push(0), work: (count) => made.push(count) });
  expect(made).toEqual([0, 1, 0, 3, 0, 5]);
  expect(timing.clock).toHaveLength(3);
});

test("by hand: medians of an odd and an even number of runs", () =>
  expect([medianOf([3, 1, 2]), medianOf([4, 1, 2, 3])]).toEqual([2, 2.5]));

describe("the plant whose scan is timed", () => {
  const plant = plantOf(108_000, { seed: 7, lots: 60 });

  test("has the fixture that was knocked, and nothing else", () => {
    // Six pieces a lot, one of each fixture; it moves a third of the features by one sigma from lot 31 on.
    const { flags } = scanForDrift(plant.parts.slice(0, 1), { codeOf: plant.codeOf });
    expect(flags.map(({ source }) => source)).toEqual([{ kind: "fixture", id: "FX-3" }]);
  });

  test("is the same in its file: one row for each measurement", async () => {
    const folder = mkdtempSync(join(tmpdir(), "steadyrest-test-"));
    try {
      const small = plantOf(1, { seed: 7, lots: 2 });
      await writeCsv(small, join(folder, "m.csv"));
      const lines = readFileSync(join(folder, "m.csv"), "utf8").trim().split("\n");
      expect(lines).toHaveLength(1 + small.rows);
      const { series } = small.parts[0]!.features[0]!;
      expect(lines[1]!.split(",")[8]).toBe(series.value[0]!.toFixed(3));
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});
