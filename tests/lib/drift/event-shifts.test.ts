import { expect, test } from "vitest";
import { scanForDrift } from "../../../lib/drift/drift-scan";
import type { MeasuredFeature, SourceEvent } from "../../../lib/drift/measured-part";
import { emptySeries } from "../../../lib/measurements/series";
import { randomStream } from "../../../lib/random/random-stream";

const [LOTS, PIECES, FROM] = [40, 6, 25];
const BEGIN = 1_800_000_000_000;
const LOT_MS = 8 * 3_600_000;
const CALIBRATED: SourceEvent = {
  kind: "gauge",
  source: "GA-1",
  at: BEGIN + FROM * LOT_MS - 1,
  event: "calibrated",
};

/** A feature that two gauges read in the same lots; GA-1 reads `shift` mm more from lot 26 on. */
function feature(name: string, shift: number): MeasuredFeature {
  const noise = randomStream(9, name);
  const series = emptySeries(LOTS * PIECES);
  for (let i = 0; i < series.count; i++) {
    const lot = Math.floor(i / PIECES);
    const gauge = 1 + (i % 2);
    series.takenAt[i] = BEGIN + lot * LOT_MS + i;
    series.value[i] = 25 + 0.005 * noise.normal() + (gauge === 1 && lot >= FROM ? shift : 0);
    series.lot[i] = lot + 1;
    series.piece[i] = i + 1;
    series.gauge[i] = gauge;
  }
  return {
    name,
    kind: "size",
    nominal: 25,
    lower: 24.9,
    upper: 25.1,
    unit: "mm",
    resolution: 0.0001,
    series,
  };
}

function scanned(shift: number, events: SourceEvent[]) {
  const features = ["a", "b", "c", "d"].map((name) => feature(name, shift));
  const codeOf = (kind: string, id: number) => (id === 0 ? "" : kind === "lot" ? `L-${id}` : `GA-${id}`);
  return scanForDrift([{ part: "P", features }], { codeOf, events });
}

test("by hand: a calibration that shifts a gauge by 0.01 mm raises no flag and is said with its size", () => {
  const { flags, atEvents } = scanned(0.01, [CALIBRATED]);
  expect(flags).toEqual([]);
  expect(atEvents).toHaveLength(1);
  const [change] = atEvents;
  expect(change).toMatchObject({
    source: { kind: "gauge", id: "GA-1" },
    event: "calibrated",
    inScope: 4,
    unit: "mm",
  });
  expect(change?.features).toHaveLength(4);
  // 45 pieces after and 75 before it on GA-1, the same on GA-2, four features: a standard error of about
  // 0.005 √(2/45 + 2/75) / √4 = 0.0007 mm; three of them.
  expect(Math.abs((change?.shift ?? 0) - 0.01)).toBeLessThan(0.002);
});

test("law: an event at which nothing changed is not listed, nor a change without an event", () => {
  expect(scanned(0, [CALIBRATED]).atEvents).toEqual([]);
  const without = scanned(0.01, []);
  expect(without.atEvents).toEqual([]);
  expect(without.flags.length).toBeGreaterThan(0);
});
