import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import {
  betweenInterval,
  modifiedLargeSample,
  satterthwaite,
} from "../../../lib/components/linear-combination";
import { chiSquareQuantile } from "../../../lib/distributions/chi-square";
import { arrangeCrossed } from "../../../lib/measurement-systems/arrange";
import { averageAndRange, rangeFactors } from "../../../lib/measurement-systems/average-and-range";
import { crossedStudy, POOL_ABOVE } from "../../../lib/measurement-systems/crossed-study";
import { pooledRepeatability } from "../../../lib/measurement-systems/pooled-repeatability";
import { randomStream } from "../../../lib/random/random-stream";

const rowsOf = (values: number[][][]) =>
  values.flatMap((row, i) =>
    row.flatMap((cell, j) => cell.map((value) => ({ part: `P${i}`, operator: `O${j}`, value }))),
  );
const USUAL = { toleranceWidth: 10, poolAbove: POOL_ABOVE, confidence: 0.95 };

describe("crossed study", () => {
  test("by hand: two parts, two operators, two trials", () => {
    // Cells {1, 3}, {3, 5} | {7, 9}, {5, 7}: means 2, 4 | 8, 6; part means 3, 7; operator means 5, 5; mean 5.
    // SS part 4·(2² + 2²) = 32, operator 0, interaction 2·4·1² = 8, repeatability 8: df 1, 1, 1, 4.
    const study = crossedStudy(
      arrangeCrossed(
        rowsOf([
          [
            [1, 3],
            [3, 5],
          ],
          [
            [7, 9],
            [5, 7],
          ],
        ]),
      ),
      USUAL,
    );
    // F of the interaction 8/2 = 4, p = 0.116 with 1 and 4 degrees of freedom: kept.
    expect(study.pooled).toBe(false);
    expect(study.anova.lines.map((line) => line.sumOfSquares)).toEqual([32, 0, 8, 8]);
    expect(study.untruncated).toEqual({ repeatability: 2, operator: -2, interaction: 3, part: 6 });
    expect(study.components).toEqual({
      repeatability: 2,
      operator: 0,
      interaction: 3,
      reproducibility: 3,
      grr: 5,
      part: 6,
      total: 11,
    });
    expect(study.percentTolerance!.grr).toBeCloseTo(60 * Math.sqrt(5), 10);
    expect(study.ndc).toBe(1);
  });

  test("edge: a gauge without any variation has no ndc; nothing at all varies", () => {
    const still = crossedStudy(
      arrangeCrossed(
        rowsOf([
          [
            [1, 1],
            [1, 1],
          ],
          [
            [4, 4],
            [4, 4],
          ],
        ]),
      ),
      USUAL,
    );
    expect([still.ndc, still.interactionP, still.pooled]).toEqual([null, null, false]);
    const alike = crossedStudy(
      arrangeCrossed(
        rowsOf([
          [
            [1, 1],
            [1, 1],
          ],
          [
            [1, 1],
            [1, 1],
          ],
        ]),
      ),
      { ...USUAL, toleranceWidth: null },
    );
    expect([alike.percentStudy, alike.percentTolerance, alike.grrInterval.satterthwaite]).toEqual([
      null,
      null,
      null,
    ]);
  });

  test("law: components do not mind a shift and follow the unit; the order of rows does not count", () => {
    const cell = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }));
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 3, maxLength: 6 }), (values) => {
        const rows = rowsOf(values);
        const one = crossedStudy(arrangeCrossed(rows), USUAL).components;
        const moved = crossedStudy(
          arrangeCrossed(rows.map((row) => ({ ...row, value: 0.25 * row.value + 1000 })).toReversed()),
          { ...USUAL, toleranceWidth: 2.5 },
        ).components;
        for (const name of ["repeatability", "operator", "interaction", "part"] as const) {
          expect(Math.abs(moved[name] - one[name] / 16)).toBeLessThanOrEqual(1e-9 * (1 + one.total));
        }
      }),
    );
  });

  test("law, by simulation: components average to the truth", () => {
    const stream = randomStream(7, "crossed");
    const truth = { part: 4, operator: 1, interaction: 0.5, repeatability: 0.25 };
    const names = ["part", "operator", "interaction", "repeatability"] as const;
    const seen = names.map((): number[] => []);
    for (let k = 0; k < 300; k++) {
      const operators = [0, 1, 2].map(() => Math.sqrt(truth.operator) * stream.normal());
      const values = Array.from({ length: 8 }, () => {
        const part = Math.sqrt(truth.part) * stream.normal();
        return operators.map((operator) => {
          const crossed = Math.sqrt(truth.interaction) * stream.normal();
          return [0, 1].map(
            () => part + operator + crossed + Math.sqrt(truth.repeatability) * stream.normal(),
          );
        });
      });
      const { untruncated } = crossedStudy(arrangeCrossed(rowsOf(values)), { ...USUAL, poolAbove: 1 });
      for (const [i, name] of names.entries()) seen[i]!.push(untruncated[name]);
    }
    for (const [i, name] of names.entries()) {
      const mean = seen[i]!.reduce((sum, x) => sum + x, 0) / 300;
      const variance = seen[i]!.reduce((sum, x) => sum + (x - mean) ** 2, 0) / 299;
      expect(Math.abs(mean - truth[name]), name).toBeLessThan(4 * Math.sqrt(variance / 300));
    }
  });

  test("agreement of two methods: average and range against mean squares, on a study without interaction", () => {
    const stream = randomStream(8, "ranges");
    const ratios: number[] = [];
    for (let k = 0; k < 200; k++) {
      const values = Array.from({ length: 10 }, () => {
        const part = stream.normal();
        return [0, 0, 0].map(() => [0, 1, 2].map(() => part + 0.2 * stream.normal()));
      });
      const readings = arrangeCrossed(rowsOf(values));
      const ranges = averageAndRange(readings, {
        factors: rangeFactors({ trials: 3, operators: 3, parts: 10 }),
        toleranceWidth: 10,
      });
      ratios.push(
        ranges.equipmentVariation /
          Math.sqrt(crossedStudy(readings, { ...USUAL, poolAbove: 1 }).components.repeatability),
      );
    }
    const mean = ratios.reduce((sum, x) => sum + x, 0) / ratios.length;
    expect(Math.abs(mean - 1)).toBeLessThan(0.01);
  });
});

describe("sums of mean squares", () => {
  test("law: with one term both intervals are the exact one of a variance", () => {
    const term = { coefficient: 1, meanSquare: 3, degreesOfFreedom: 12 };
    const exact = [36 / chiSquareQuantile(0.975, 12), 36 / chiSquareQuantile(0.025, 12)];
    for (const { interval } of [modifiedLargeSample([term], 0.95), satterthwaite([term], 0.95)]) {
      expect(interval[0]).toBeCloseTo(exact[0]!, 10);
      expect(interval[1]).toBeCloseTo(exact[1]!, 10);
    }
  });

  test("law, by simulation: the interval between groups covers the truth about as often as it says", () => {
    const stream = randomStream(12, "between");
    const chi = (v: number) => {
      let sum = 0;
      for (let i = 0; i < v; i++) sum += stream.normal() ** 2;
      return sum / v;
    };
    let inside = 0;
    for (let k = 0; k < 2000; k++) {
      // Eight groups of four, variance 1 within and 0.5 between.
      const between = { meanSquare: (1 + 4 * 0.5) * chi(7), degreesOfFreedom: 7 };
      const within = { meanSquare: chi(24), degreesOfFreedom: 24 };
      const [low, high] = betweenInterval({ between, within, size: 4, confidence: 0.95 });
      if (low <= 0.5 && high >= 0.5) inside++;
    }
    expect(inside / 2000).toBeGreaterThan(0.95 - 4 * Math.sqrt((0.95 * 0.05) / 2000));
  });
});

describe("bad input", () => {
  const row = (part: string, operator: string, value: number) => ({ part, operator, value });
  const good = arrangeCrossed(
    rowsOf([
      [
        [1, 2],
        [2, 3],
      ],
      [
        [4, 5],
        [4, 6],
      ],
    ]),
  );
  test.each([
    [
      "a cell with a reading less",
      () =>
        arrangeCrossed([
          row("a", "x", 1),
          row("a", "y", 1),
          row("b", "x", 1),
          row("b", "y", 1),
          row("b", "y", 2),
        ]),
    ],
    [
      "one operator",
      () => arrangeCrossed([row("a", "x", 1), row("a", "x", 2), row("b", "x", 1), row("b", "x", 2)]),
    ],
    [
      "one trial",
      () => arrangeCrossed([row("a", "x", 1), row("a", "y", 2), row("b", "x", 1), row("b", "y", 2)]),
    ],
    ["nothing", () => arrangeCrossed([])],
    ["a reading that is none", () => arrangeCrossed([row("a", "x", Number.NaN)])],
    ["a width of 0", () => crossedStudy(good, { ...USUAL, toleranceWidth: 0 })],
    ["a factor of 0", () => averageAndRange(good, { factors: { K1: 0, K2: 1, K3: 1 }, toleranceWidth: 1 })],
    [
      "a negative width of ranges",
      () => averageAndRange(good, { factors: { K1: 1, K2: 1, K3: 1 }, toleranceWidth: -1 }),
    ],
    ["no terms", () => modifiedLargeSample([], 0.95)],
    ["a weight of 0", () => satterthwaite([{ coefficient: 0, meanSquare: 1, degreesOfFreedom: 1 }], 0.95)],
    ["a sum of nothing", () => satterthwaite([{ coefficient: 1, meanSquare: 0, degreesOfFreedom: 1 }], 0.95)],
    [
      "no degrees of freedom",
      () => modifiedLargeSample([{ coefficient: 1, meanSquare: 1, degreesOfFreedom: 0 }], 0.95),
    ],
    ["nothing to pool", () => pooledRepeatability([])],
    ["a negative sum", () => pooledRepeatability([{ sumOfSquares: -1, degreesOfFreedom: 1 }])],
    [
      "a group of 0",
      () =>
        betweenInterval({
          between: { meanSquare: 1, degreesOfFreedom: 1 },
          within: { meanSquare: 1, degreesOfFreedom: 1 },
          size: 0,
          confidence: 0.9,
        }),
    ],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
