import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { beforeAll, expect, onTestFinished, test } from "vitest";
import { cancelScan, followSources, hurryScan, type ScanNow, scanNow } from "../../app/jobs/scans";
import { bundle } from "../../app/start/bundle.mjs";
import { openDatabase } from "../../db/connection";
import { migrate } from "../../db/migrate";
import { latestScan } from "../../db/queries/drift";
import { scanForDrift } from "../../lib/drift/drift-scan";
import { bringIn, type Row, tidyFile } from "../db/plant";
import { scenario } from "../drift/scenario";

/** The scanner is a bundle of its own, as in the running program. */
beforeAll(() => bundle(join(import.meta.dirname, "../..")));

const BEGIN = Date.UTC(2026, 0, 5, 6);
const HOUR = 3_600_000;

function lots(count: number): Row[] {
  return Array.from({ length: 8 * count }, (_, i) => ({
    piece: `P-${i}`,
    takenAt: BEGIN + i * HOUR,
    feature: "bore",
    value: (10 + 0.01 * Math.sin(7 * i)).toFixed(4),
    lot: `L-${String(Math.floor(i / 8)).padStart(3, "0")}`,
    fixture: `FX-${1 + (i % 2)}`,
  }));
}

async function until(holds: (now: ScanNow) => boolean | Promise<boolean>): Promise<void> {
  const end = Date.now() + 20_000;
  while (!(await holds(scanNow()))) {
    if (Date.now() > end) throw new Error(`still ${JSON.stringify(scanNow())}`);
    await pause(2);
  }
}

test("a cancelled scan leaves nothing behind, rests until something is new, and begins when asked", async () => {
  const folder = mkdtempSync(join(tmpdir(), "steadyrest-scans-"));
  const database = await openDatabase(join(folder, "steadyrest.db"));
  await migrate(database);
  await bringIn(database, tidyFile(lots(10)));
  expect(cancelScan({ by: "Nobody", at: 1 })).toBe(false);
  const faults: unknown[] = [];
  const stop = followSources(database, { onFault: (error) => faults.push(error) });
  onTestFinished(async () => {
    await stop();
    await database.close();
    rmSync(folder, { recursive: true, force: true });
  });

  await until(({ step }) => step !== null);
  expect(cancelScan({ by: "Demo engineer", at: 42 })).toBe(true);
  await until(({ step }) => step === null);
  expect(scanNow()).toEqual({ step: null, fault: null, cancelled: { by: "Demo engineer", at: 42 } });
  expect(await latestScan(database)).toBeNull();

  hurryScan();
  await until(async () => (await latestScan(database)) !== null);
  await until(({ step, cancelled }) => step === null && cancelled === null);

  // Cancelled once more, it begins by itself as soon as there is another lot.
  await bringIn(database, tidyFile(lots(12).slice(80)));
  hurryScan();
  await until(({ step }) => step !== null);
  cancelScan({ by: "Demo engineer", at: 43 });
  await until(({ step }) => step === null);
  const before = (await latestScan(database))!.measurements;
  await bringIn(database, tidyFile(lots(14).slice(96)));
  await until(async () => (await latestScan(database))!.measurements > before);
  expect((await latestScan(database))!.measurements).toBe(8 * 14);
  expect(faults).toEqual([]);
});

test("a scan says what it is about, its share grows with every step and never reaches the end", () => {
  const shop = scenario({ seed: 4116, layout: "twoparts", faults: ["fixture_step"], severity: 3 });
  const steps: { say: string; share: number }[] = [];
  const { flags } = scanForDrift(shop.parts, {
    codeOf: shop.codeOf,
    onStep: (step) => steps.push(step),
  });
  expect(flags.length).toBeGreaterThan(0);
  const [first, ...later] = steps;
  expect(first).toEqual({ say: "laying out part 1 of 2", share: 0 });
  for (const [i, { share }] of later.entries()) expect(share).toBeGreaterThan(steps[i]!.share);
  expect(steps.map(({ say }) => say)).toEqual(
    expect.arrayContaining([
      "comparing sources, part 2 of 2",
      "comparing once more without what was found, part 1 of 2",
    ]),
  );
  expect(steps.at(-1)!.say).toBe("describing what was found");
  expect(steps.at(-1)!.share).toBeLessThan(1);
});
