import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  medianPosition,
  type PlottedModel,
  type ProbabilityPlot,
  probabilityPlot,
  ranksToPlot,
} from "../../../lib/capability/probability-plot";
import { InvalidInput } from "../../../lib/checks";
import { lognormal } from "../../../lib/distributions/lognormal";
import { mean, sampleStandardDeviation } from "../../../lib/summary/moments";
import reference from "../../reference/probability-plot.json";

function plotOf(
  values: readonly number[],
  { most, model }: { most?: number; model?: PlottedModel } = {},
): ProbabilityPlot {
  const found = probabilityPlot({ values, confidence: 0.95, model, ...(most !== undefined && { most }) });
  if (!found.ok) throw new Error(found.problem.code);
  return found.value;
}

describe("probabilityPlot", () => {
  test("by hand: the median of the middle of three is a half, of the largest ∛0.5", () => {
    expect(medianPosition(2, 3)).toBeCloseTo((2 - 0.3175) / 3.365, 15);
    expect(medianPosition(2, 3)).toBeCloseTo(0.5, 15);
    expect(medianPosition(3, 3)).toBeCloseTo(Math.cbrt(0.5), 15);
  });

  test.each(reference.cases)(
    `reference: $count readings, ${reference.source}`,
    ({ count, medians, band }) => {
      // Readings with mean 0 and s = 1, so that the band is on the normal scale.
      const spread = Math.sqrt((count * (count + 1)) / 12);
      const { points } = plotOf(Array.from({ length: count }, (_, i) => (i - (count - 1) / 2) / spread));
      points.forEach(({ z }, i) => {
        expect(Math.abs(z - medians[i]!)).toBeLessThan(1e-9);
      });
      for (const [rank, limits] of Object.entries(band as unknown as Record<string, [number, number]>)) {
        const point = points[Number(rank) - 1]!;
        expect(Math.abs(point.low - limits[0])).toBeLessThan(1e-9);
        expect(Math.abs(point.high - limits[1])).toBeLessThan(1e-9);
      }
    },
  );

  test("law: another origin and unit move values and band alike and leave the scale", () => {
    const values = [3, 9, 4, 4, 7, 1];
    const moved = plotOf(values.map((value) => 25.4 * value - 100));
    plotOf(values).points.forEach((point, i) => {
      const other = moved.points[i]!;
      expect(other.z).toBe(point.z);
      expect(other.value).toBeCloseTo(25.4 * point.value - 100, 9);
      expect(other.low).toBeCloseTo(25.4 * point.low - 100, 9);
      expect(other.high).toBeCloseTo(25.4 * point.high - 100, 9);
    });
  });

  test("law: places rise with rank, lie within the band of the line and are symmetric", () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 60 }), (count) => {
        const values = Array.from({ length: count }, (_, i) => i * i);
        const { points, line } = plotOf(values);
        const [centre, sigma] = [mean(values), sampleStandardDeviation(values)];
        for (const { z, value } of line) expect(value).toBeCloseTo(centre + sigma * z, 6);
        points.forEach((point, i) => {
          expect(point.z).toBeCloseTo(-points[count - 1 - i]!.z, 9);
          if (i > 0) expect(point.z).toBeGreaterThan(points[i - 1]!.z);
          const onLine = centre + sigma * point.z;
          expect(point.low).toBeLessThan(onLine);
          expect(point.high).toBeGreaterThan(onLine);
        });
      }),
    );
  });

  test("law: against a lognormal model, line and band are those of the logarithms", () => {
    const values = [1.2, 0.7, 2.9, 1.1, 4.5, 0.4, 1.9, 2.2];
    const logs = values.map(Math.log);
    const model = lognormal({ logMean: mean(logs), logStandardDeviation: sampleStandardDeviation(logs) });
    const [ours, ofLogs] = [plotOf(values, { model }), plotOf(logs)];
    ours.points.forEach((point, i) => {
      expect(Math.log(point.low)).toBeCloseTo(ofLogs.points[i]!.low, 9);
      expect(Math.log(point.high)).toBeCloseTo(ofLogs.points[i]!.high, 9);
    });
    ours.line.forEach(({ value }, i) => {
      expect(Math.log(value)).toBeCloseTo(ofLogs.line[i]!.value, 9);
    });
  });

  test("law: thinning keeps both tails whole, rises, and never draws more than asked for", () => {
    fc.assert(
      fc.property(fc.integer({ min: 3, max: 5000 }), fc.integer({ min: 8, max: 400 }), (count, most) => {
        const ranks = ranksToPlot(count, most);
        expect(ranks.length).toBe(Math.min(count, most));
        ranks.forEach((rank, i) => {
          if (i > 0) expect(rank).toBeGreaterThan(ranks[i - 1]!);
        });
        const tail = Math.min(count, Math.floor(most / 4));
        expect(ranks.slice(0, tail)).toEqual(Array.from({ length: tail }, (_, i) => i + 1));
        expect(ranks.at(-1)).toBe(count);
        expect(ranks.at(-tail)).toBe(count - tail + 1);
      }),
    );
  });

  test("law: a thinned plot puts its points where the whole one has them", () => {
    const values = Array.from({ length: 1000 }, (_, i) => Math.sin(i));
    const whole = plotOf(values, { most: 1000 }).points;
    for (const point of plotOf(values, { most: 40 }).points) expect(point).toEqual(whole[point.rank - 1]);
  });

  test("edge: too few, all alike, not a number", () => {
    expect(probabilityPlot({ values: [1, 2], confidence: 0.95 })).toMatchObject({
      problem: { code: "too-few-readings", needed: 3, got: 2 },
    });
    expect(probabilityPlot({ values: [1, 1, 1], confidence: 0.95 })).toMatchObject({
      problem: { code: "no-variation" },
    });
    expect(() => probabilityPlot({ values: [1, 2, Number.NaN], confidence: 0.95 })).toThrow(InvalidInput);
  });
});
