import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { cusumChart, nextCusum, startCusum } from "../../../lib/charts/cusum";
import { ewmaChart, nextEwma, startEwma } from "../../../lib/charts/ewma";
import type { MeanPoint } from "../../../lib/charts/weighted-point";
import { randomStream } from "../../../lib/random/random-stream";
import { cusumRunLength } from "../../../lib/run-length/cusum";
import { ewmaRunLength } from "../../../lib/run-length/ewma";
import { simulateRuns } from "../../../lib/run-length/simulate";
import { runs } from "../../laws";
import charts from "../../reference/charts.json";
import handbook from "../../reference/ewma-twenty-observations.json";

const single = (values: readonly number[]): MeanPoint[] => values.map((mean) => ({ mean, size: 1 }));
const { weighted } = charts;

const anyPoints = fc.array(
  fc.oneof(
    {
      weight: 6,
      arbitrary: fc.record({
        mean: fc.double({ min: -5, max: 5, noNaN: true }),
        size: fc.integer({ min: 1, max: 9 }),
      }),
    },
    { weight: 1, arbitrary: fc.constant(null) },
  ),
  { maxLength: 40 },
);
const moved = (points: readonly MeanPoint[], by: { scale: number; offset: number }) =>
  points.map((point) => point && { ...point, mean: point.mean * by.scale + by.offset });

describe("EWMA", () => {
  const chart = { centre: 10, sigma: 2, smoothing: 0.5, width: 3, limits: "exact" as const };

  test("by hand: λ = 1/2 on 14, 10, 10 gives 12, 11, 10.5 within ±3, ±√11.25, ±√11.8125", () => {
    // V = σ²(1/4, 1/4 + 1/16, 1/4 + 5/64) = 1, 1.25, 1.3125.
    const points = ewmaChart(chart, single([14, 10, 10])).map((point) => point!);
    expect(points.map(({ smoothed }) => smoothed)).toEqual([12, 11, 10.5]);
    [3, Math.sqrt(11.25), Math.sqrt(11.8125)].forEach((reach, i) => {
      expect(points[i]!.upper - 10).toBeCloseTo(reach, 13);
      expect(10 - points[i]!.lower).toBeCloseTo(reach, 13);
    });
  });

  test("by hand: subgroups of 4 and then 1: V = σ²(1/16, 1/4 + 1/64)", () => {
    const points = ewmaChart(chart, [
      { mean: 12, size: 4 },
      { mean: 10, size: 1 },
    ]);
    expect(points[0]!.upper - 10).toBeCloseTo(3 * 2 * 0.25, 13);
    expect(points[1]!.upper - 10).toBeCloseTo(3 * 2 * Math.sqrt(17 / 64), 13);
  });

  test(`published: ${handbook.source}`, () => {
    const { values, target, sigma, lambda_, L } = handbook.data;
    const basis = { centre: target, sigma, smoothing: lambda_, width: L };
    const steady = ewmaChart({ ...basis, limits: "steady" }, single(values));
    const [smoothed, upper, lower] = handbook.printed;
    (smoothed!.printed as number[]).slice(1).forEach((printed, i) => {
      // Printed to two decimals.
      expect(Math.abs(steady[i]!.smoothed - printed)).toBeLessThanOrEqual(0.005 + 1e-9);
    });
    expect(steady.every((point) => point!.signal === null)).toBe(true);
    // The page rounds √(0.3/1.7) to 0.4201: 3 · 2.0539 · (0.4201 − 0.42008) = 1.1e-4, beside half a unit.
    expect(Math.abs(steady[0]!.upper - (upper!.printed as number))).toBeLessThan(1.7e-4);
    expect(Math.abs(steady[0]!.lower - (lower!.printed as number))).toBeLessThan(1.7e-4);

    const exact = ewmaChart({ ...basis, limits: "exact" }, single(values));
    const [first, twentieth] = handbook.computed;
    expect(exact[0]!.upper).toBeCloseTo(first!.value, 10);
    expect(exact[19]!.upper).toBeCloseTo(twentieth!.value, 9);
  });

  test(`computed independently, weights written out: ${charts.source}`, () => {
    const { centre, sigma, ewma } = weighted;
    const { smoothing, width } = ewma;
    const points = ewmaChart({ centre, sigma, smoothing, width, limits: "exact" }, single(weighted.values));
    points.forEach((point, i) => {
      expect(point!.smoothed).toBeCloseTo(ewma.smoothed[i]!, 12);
      expect(point!.lower).toBeCloseTo(ewma.lower[i]!, 12);
      expect(point!.upper).toBeCloseTo(ewma.upper[i]!, 12);
      const isOut = ewma.smoothed[i]! > ewma.upper[i]! || ewma.smoothed[i]! < ewma.lower[i]!;
      expect(point!.signal !== null).toBe(isOut);
    });
    expect(points.some((point) => point!.signal === "up")).toBe(true);
  });

  test("law: another unit and origin move everything alike; a missing point changes nothing; the side mirrors", () => {
    fc.assert(
      fc.property(anyPoints, fc.double({ min: 0.05, max: 1, noNaN: true }), (points, smoothing) => {
        const design = { smoothing, width: 2.5, limits: "exact" as const };
        const plain = ewmaChart({ centre: 0, sigma: 1, ...design }, points);
        const inInches = ewmaChart(
          { centre: 300, sigma: 25.4, ...design },
          moved(points, { scale: 25.4, offset: 300 }),
        );
        const mirrored = ewmaChart(
          { centre: 0, sigma: 1, ...design },
          moved(points, { scale: -1, offset: 0 }),
        );
        plain.forEach((point, i) => {
          expect(inInches[i] === null).toBe(point === null);
          if (point === null) return;
          expect(inInches[i]!.smoothed).toBeCloseTo(point.smoothed * 25.4 + 300, 9);
          expect(inInches[i]!.upper).toBeCloseTo(point.upper * 25.4 + 300, 9);
          expect(mirrored[i]!.smoothed).toBeCloseTo(-point.smoothed, 12);
          expect(mirrored[i]!.signal === null).toBe(point.signal === null);
        });
        const present = ewmaChart(
          { centre: 0, sigma: 1, ...design },
          points.filter((point) => point !== null),
        );
        expect(plain.filter((point) => point !== null)).toEqual(present);
      }),
      { numRuns: runs(50) },
    );
  });

  test("law: λ = 1 is the chart of the means themselves", () => {
    const points = ewmaChart({ ...chart, smoothing: 1 }, [
      { mean: 16.1, size: 1 },
      { mean: 6.9, size: 4 },
    ]);
    expect(points.map((point) => point!.signal)).toEqual(["up", "down"]);
    expect(points[1]!.lower).toBe(7);
  });

  test("law: the chart as coded runs as long as the integral equation says, within four standard errors", () => {
    const random = randomStream(41, "ewma");
    const design = { smoothing: 0.2, width: 2.7, limits: "exact" as const };
    const tried = { centre: 0, sigma: 1, ...design };
    let state = startEwma(tried);
    const { mean, standardError } = simulateRuns({
      runs: 3_000,
      begin: () => {
        state = startEwma(tried);
      },
      signals: () => nextEwma(tried, state, { mean: 0.5 + random.normal(), size: 1 })!.signal !== null,
    });
    expect(Math.abs(mean! - ewmaRunLength({ ...design, shift: 0.5 }))).toBeLessThan(4 * standardError!);
  });

  test.each([
    ["smoothing", { ...chart, smoothing: 0 }],
    ["smoothing", { ...chart, smoothing: 1.1 }],
    ["width", { ...chart, width: 0 }],
    ["sigma", { ...chart, sigma: 0 }],
    ["centre", { ...chart, centre: Number.NaN }],
    ["limits", { ...chart, limits: "wide" as "exact" }],
  ])("refused: %s", (field, given) => {
    expect(() => startEwma(given)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });

  test.each([
    ["mean", { mean: Number.NaN, size: 1 }],
    ["size", { mean: 1, size: 0 }],
  ])("refused point: %s", (field, point) => {
    expect(() => ewmaChart(chart, [point])).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});

describe("CUSUM", () => {
  const chart = { centre: 10, sigma: 1, reference: 0.5, decisionInterval: 4, headStart: 0 };

  test("by hand: three points 2 sigma high add 1.5 each, and the sum tells since when and where", () => {
    const points = cusumChart(chart, single([9, 12, 12, 12]));
    expect(points.map((point) => point!.upper)).toEqual([0, 1.5, 3, 4.5]);
    expect(points.map((point) => point!.lower)).toEqual([0.5, 0, 0, 0]);
    expect(points.map((point) => point!.signal)).toEqual([null, null, null, "up"]);
    // 10 + 0.5 + 4.5/3 = 12.
    expect(points[3]!.shift).toEqual({ points: 3, mean: 12 });
  });

  test("by hand: a head start of h/2 signals two points sooner, and is taken off the estimate", () => {
    const points = cusumChart({ ...chart, headStart: 2 }, single([12, 12, 12]));
    expect(points.map((point) => point!.upper)).toEqual([3.5, 5, 6.5]);
    expect(points[1]).toMatchObject({ signal: "up", shift: { points: 2, mean: 12 } });
  });

  test("by hand: subgroups of 4 count double; a low run mirrors a high one", () => {
    const points = cusumChart(chart, [
      { mean: 9, size: 4 },
      { mean: 9, size: 4 },
      { mean: 9, size: 4 },
    ]);
    expect(points.map((point) => point!.lower)).toEqual([1.5, 3, 4.5]);
    expect(points[2]).toMatchObject({ signal: "down", shift: { points: 3, mean: 9 } });
  });

  test(`computed independently, as the largest of partial sums: ${charts.source}`, () => {
    const { centre, sigma, cusum, values } = weighted;
    const { reference, decisionInterval } = cusum;
    for (const [name, headStart] of [
      ["zero", 0],
      ["headStart", decisionInterval / 2],
    ] as const) {
      const points = cusumChart({ centre, sigma, reference, decisionInterval, headStart }, single(values));
      points.forEach((point, i) => {
        expect(point!.upper).toBeCloseTo(cusum[name].upper[i]!, 11);
        expect(point!.lower).toBeCloseTo(cusum[name].lower[i]!, 11);
        expect(point!.signal === "up").toBe(cusum[name].upper[i]! > decisionInterval);
      });
      expect(points.some((point) => point!.signal === "up")).toBe(true);
    }
  });

  test("law: another unit and origin change no sum; a missing point changes nothing; the side mirrors", () => {
    fc.assert(
      fc.property(anyPoints, (points) => {
        const design = { reference: 0.5, decisionInterval: 4, headStart: 1 };
        const plain = cusumChart({ centre: 0, sigma: 1, ...design }, points);
        const inInches = cusumChart(
          { centre: 300, sigma: 25.4, ...design },
          moved(points, { scale: 25.4, offset: 300 }),
        );
        const mirrored = cusumChart(
          { centre: 0, sigma: 1, ...design },
          moved(points, { scale: -1, offset: 0 }),
        );
        plain.forEach((point, i) => {
          expect(inInches[i] === null).toBe(point === null);
          if (point === null) return;
          expect(inInches[i]!.upper).toBeCloseTo(point.upper, 8);
          expect(mirrored[i]!.upper).toBeCloseTo(point.lower, 12);
          expect(point.upper).toBeGreaterThanOrEqual(0);
        });
        const present = cusumChart(
          { centre: 0, sigma: 1, ...design },
          points.filter((point) => point !== null),
        );
        expect(plain.filter((point) => point !== null)).toEqual(present);
      }),
      { numRuns: runs(50) },
    );
  });

  test("law: the chart as coded runs as long as the integral equation says, with a head start too", () => {
    for (const headStart of [0, 2]) {
      const random = randomStream(43, `cusum ${headStart}`);
      const design = { reference: 0.5, decisionInterval: 4, headStart };
      const tried = { centre: 0, sigma: 1, ...design };
      let state = startCusum(tried);
      const { mean, standardError } = simulateRuns({
        runs: 3_000,
        begin: () => {
          state = startCusum(tried);
        },
        signals: () => nextCusum(tried, state, { mean: 0.25 + random.normal(), size: 1 })!.signal !== null,
      });
      expect(Math.abs(mean! - cusumRunLength({ ...design, shift: 0.25 }))).toBeLessThan(4 * standardError!);
    }
  });

  test.each([
    ["reference", { ...chart, reference: -0.1 }],
    ["decisionInterval", { ...chart, decisionInterval: 0 }],
    ["headStart", { ...chart, headStart: 4.5 }],
    ["headStart", { ...chart, headStart: Number.NaN }],
    ["sigma", { ...chart, sigma: -1 }],
  ])("refused: %s", (field, given) => {
    expect(() => startCusum(given)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });

  test("refused point: a size that is not above 0", () => {
    expect(() => cusumChart(chart, [{ mean: 1, size: 0 }])).toThrow(
      expect.objectContaining({ name: "InvalidInput", field: "size" }),
    );
  });
});
