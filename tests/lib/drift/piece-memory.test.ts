import { describe, expect, test } from "vitest";
import { fitStatics } from "../../../lib/drift/fit";
import { hypothesesOn } from "../../../lib/drift/hypotheses";
import type { CodeOf } from "../../../lib/drift/measured-part";
import { memoryFactors } from "../../../lib/drift/piece-memory";
import { ScanMemory } from "../../../lib/drift/scan-memory";
import { emptySeries } from "../../../lib/measurements/series";
import { Random } from "../../drift/random";

const LOTS = 30;
const IN_LOT = 12;
const codeOf: CodeOf = (kind, id) => `${kind}-${String(id).padStart(3, "0")}`;

/** Pieces that resemble the one before by `likeness`; fixtures take turns, operators measure six in a row. */
function factorsFor(likeness: number): Map<string, number> {
  const features = Array.from({ length: 12 }, (_, j) => {
    const random = new Random(400 + j);
    const series = emptySeries(LOTS * IN_LOT);
    const course = random.chain(series.count, likeness);
    for (let i = 0; i < series.count; i++) {
      const place = i % IN_LOT;
      series.takenAt[i] = Date.UTC(2031, 0, 1) + i * 600_000;
      series.value[i] = 10 + 0.01 * course[i]!;
      series.piece[i] = i + 1;
      series.lot[i] = Math.floor(i / IN_LOT) + 1;
      series.fixture[i] = (place % 2) + 1;
      series.operator[i] = (place < IN_LOT / 2 ? 1 : 2) + (Math.floor(i / IN_LOT) % 2 === 0 ? 0 : 1);
      series.machine[i] = 1;
      series.gauge[i] = 1;
    }
    return {
      name: `dia ${j}`,
      kind: "size" as const,
      nominal: 10,
      lower: 9.9,
      upper: 10.1,
      unit: "mm",
      resolution: 0.0001,
      series,
    };
  });
  const [prepared] = new ScanMemory().layOut([{ part: "P", features }], { codeOf, events: [] });
  const { carriers } = hypothesesOn(prepared!);
  const factors = memoryFactors(
    fitStatics(
      prepared!,
      prepared!.designs.map(() => []),
    ),
    carriers,
  );
  return new Map(carriers.flatMap(({ source }, c) => (source === null ? [] : [[source.kind, factors[c]!]])));
}

describe("pieces that resemble the one before", () => {
  test("by hand: blocks of six are compared with one and a half times the variance where pieces correlate by 0.3", () => {
    // ρ_d = 0.3^d. About the lot's mean an operator is six times +1/2, six times −1/2 of twelve: products of
    // neighbours d apart sum to (12 − d − 2d)/4 of 3 in all, r_d = 1 − d/4: 0.75, 0.5, 0.25, 0. The factor is
    // 1 + 2 (0.3 · 0.75 + 0.09 · 0.5 + 0.027 · 0.25) = 1.55. Twelve features of 360 pieces know each ρ_d to about
    // 1/√360/√12 · 1.25 (a median) = 0.02, and so the factor to 2 · 0.02 · √(0.75² + 0.5² + 0.25²) = 0.04.
    // The static offset of each operator takes a little of the likeness with it.
    const factors = factorsFor(0.3);
    expect(factors.get("operator")).toBeGreaterThan(1.3);
    expect(factors.get("operator")).toBeLessThan(1.67);
  });

  test("by hand: fixtures that take turns are compared piece by piece and lose nothing", () => {
    // r_1 = −11/12: the factor would be below 1.
    expect(factorsFor(0.3).get("fixture")).toBe(1);
  });

  test("law: where pieces do not resemble each other nothing is taken off", () => {
    for (const factor of factorsFor(0).values()) expect(factor).toBeLessThan(1.1);
  });

  test("edge: a machine that made every piece stands still within lots", () => {
    expect(factorsFor(0.3).get("machine")).toBe(1);
  });
});
