import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cusumChart } from "../../../lib/charts/cusum";
import { nextMemory, startMemory } from "../../../lib/charts/memory-chart";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import handbook from "../../reference/ewma-twenty-observations.json";

const ORDINARY = { chart: "i-mr", centre: 0, sigma: 1 } as const;
const CUSUM: MemoryChart = { kind: "cusum", reference: 0.5, decisionInterval: 2, headStart: 0 };

function run(
  chart: MemoryChart,
  limits: Parameters<typeof startMemory>[1],
  means: readonly number[],
  size = 1,
) {
  const state = startMemory(chart, limits);
  return means.map((mean) => nextMemory(chart, { limits, state, subgroup: { mean, size } }));
}

test(`published: ${handbook.source}`, () => {
  const { values, target, sigma, lambda_, L } = handbook.data;
  const points = run(
    { kind: "ewma", smoothing: lambda_, width: L },
    { chart: "i-mr", centre: target, sigma },
    values,
  );
  // Printed to two decimals.
  (handbook.printed[0]!.printed as number[]).slice(1).forEach((printed, i) => {
    const point = points[i]!;
    expect(point.kind === "ewma" && Math.abs(point.smoothed - printed)).toBeLessThanOrEqual(0.005 + 1e-9);
  });
  expect(points.every(({ signal }) => signal === null)).toBe(true);
});

describe("a sum that signals goes on from h", () => {
  test("by hand: k = 0.5, h = 2 on 3, 3, 0, 0: 2.5 signals; 2 + 2.5 signals; 2 − 0.5 = 1.5; 1", () => {
    // Left alone it would stand at 2.5, 5, 4.5, 4 and signal at all four.
    const points = run(CUSUM, ORDINARY, [3, 3, 0, 0]);
    expect(points.map((point) => point.kind === "cusum" && point.upper)).toEqual([2.5, 4.5, 1.5, 1]);
    expect(points.map(({ signal }) => signal)).toEqual(["up", "up", null, null]);
  });

  test("law: its first signal is that of the textbook chart", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { maxLength: 60 }), (means) => {
        const textbook = cusumChart(
          { centre: 0, sigma: 1, reference: 0.5, decisionInterval: 2, headStart: 0 },
          means.map((mean) => ({ mean, size: 1 })),
        );
        const first = textbook.findIndex((point) => point!.signal !== null);
        const held = run(CUSUM, ORDINARY, means).findIndex(({ signal }) => signal !== null);
        expect(held).toBe(first);
      }),
    );
  });
});

test("by hand: where lots count as part of the process it runs on z: means 5 off with σ² = 3² + 8²/4 = 5² give 1", () => {
  const limits = { chart: "xbar-r", centre: 10, sigma: 8, betweenLots: 3 } as const;
  const [point] = run({ kind: "ewma", smoothing: 1, width: 3 }, limits, [15], 4);
  expect(point).toMatchObject({ smoothed: 1, lower: -3, upper: 3, signal: null });
});
