import { expect, test } from "vitest";
import { scanForDrift } from "../../../lib/drift/drift-scan";
import type { MeasuredFeature } from "../../../lib/drift/measured-part";
import { emptySeries } from "../../../lib/measurements/series";
import { randomStream } from "../../../lib/random/random-stream";

const MM_PER_INCH = 25.4;
const SHIFT = 0.006;
const [LOTS, PIECES, MOVED_FROM] = [30, 6, 20];

/** A feature read by the one gauge, with a scatter of 0.005 mm; the gauge reads 0.006 mm more from a lot on. */
function feature(name: string, unit: "mm" | "in"): MeasuredFeature {
  const noise = randomStream(4, name);
  const scale = unit === "in" ? MM_PER_INCH : 1;
  const series = emptySeries(LOTS * PIECES);
  for (let i = 0; i < series.count; i++) {
    const lot = Math.floor(i / PIECES);
    series.takenAt[i] = 1_800_000_000_000 + i * 60_000 + lot * 3_600_000;
    series.value[i] = (25 + 0.005 * noise.normal() + (lot >= MOVED_FROM ? SHIFT : 0)) / scale;
    series.lot[i] = lot + 1;
    series.piece[i] = i + 1;
    series.gauge[i] = 1;
    series.fixture[i] = 1 + (i % 2);
  }
  const [nominal, half] = [25 / scale, 0.05 / scale];
  const resolution = unit === "in" ? 0.00001 : 0.0001;
  return {
    name,
    kind: "size",
    nominal,
    lower: nominal - half,
    upper: nominal + half,
    unit,
    resolution,
    series,
  };
}

test("by hand: features in mm and in inches read by one gauge moved by the same length, told in mm", () => {
  const units = ["mm", "in", "mm", "in", "mm", "mm"] as const;
  const features = units.map((unit, i) => feature(`F${i}`, unit));
  const codeOf = (kind: string, id: number) =>
    kind === "lot" ? `L-${String(id).padStart(3, "0")}` : id === 0 ? "" : `${kind} ${id}`;
  const { flags } = scanForDrift([{ part: "P", features }], { codeOf });
  const flag = flags[0];
  // Nothing but the gauge is common to all: it, or what cannot be told from it, moved.
  expect(flag?.features).toHaveLength(units.length);
  for (const { unit, shift } of flag?.features ?? []) {
    expect(Math.abs(shift * (unit === "in" ? MM_PER_INCH : 1) - SHIFT)).toBeLessThan(0.002);
  }
  expect(flag?.magnitude.unit).toBe("mm");
  // The planted 0.006 mm; lots of one sigma would be 0.005/√6, so 0.002 is three standard errors of ten lots at most.
  expect(Math.abs((flag?.magnitude.value ?? 0) - SHIFT)).toBeLessThan(0.002);
  expect(flag?.magnitude.shareOfTolerance).toBeCloseTo((flag?.magnitude.value ?? 0) / 0.1, 6);
});
