import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { bartlettTest, leveneTest } from "../../../lib/components/equal-spread";
import { nestedComponents } from "../../../lib/components/nested";
import { oneWayAnova } from "../../../lib/components/one-way";
import type { Computed } from "../../../lib/computed";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

describe("one-way", () => {
  test("by hand: 1, 3 | 4, 6 | 8", () => {
    // Means 2, 5, 8; grand mean 4.4. SS between 2·2.4² + 2·0.6² + 3.6² = 25.2; SS within 2 + 2 = 4.
    const { between, within, F } = found(oneWayAnova([1, 3, 4, 6, 8], [7, 7, 2, 2, 5]));
    expect(between.sumOfSquares).toBeCloseTo(25.2, 12);
    expect(within.sumOfSquares).toBeCloseTo(4, 12);
    expect(F).toBeCloseTo(25.2 / 2 / (4 / 2), 12);
  });

  test("edge: one group, no group of two, nothing that varies within", () => {
    expect(oneWayAnova([1, 2, 3], [1, 1, 1])).toEqual({
      ok: false,
      problem: { code: "too-few-subgroups", needed: 2, got: 1 },
    });
    expect(oneWayAnova([1, 2], [1, 2]).ok).toBe(false);
    expect(found(oneWayAnova([1, 1, 2, 2], [1, 1, 2, 2])).F).toBeNull();
  });
});

describe("equal spread", () => {
  test("by hand: two groups of equal spread give Bartlett 0 and Levene 0", () => {
    expect(found(bartlettTest([1, 2, 3, 11, 12, 13], [1, 1, 1, 2, 2, 2])).statistic).toBeCloseTo(0, 12);
    expect(found(leveneTest([1, 2, 3, 11, 12, 13], [1, 1, 1, 2, 2, 2]))).toEqual({ statistic: 0, p: 1 });
  });

  test("edge: a group that does not vary", () => {
    expect(bartlettTest([1, 1, 3, 4], [1, 1, 2, 2])).toEqual({
      ok: false,
      problem: { code: "no-variation" },
    });
  });
});

describe("nested components", () => {
  test("by hand, unequal numbers: lots of 3, 2 and 1", () => {
    // Lots {1, 2, 3}, {6, 8}, {11}: means 2, 7, 11, grand mean 31/6.
    // SS lot = 3·(2 − 31/6)² + 2·(7 − 31/6)² + (11 − 31/6)² = 70.8333…, df 2; SS within = 2 + 2 = 4, df 3.
    // k = (6 − (9 + 4 + 1)/6) / 2 = 11/6; σ²_lot = (35.41666… − 4/3) / (11/6) = 18.590909….
    const { lines, total } = found(
      nestedComponents({
        values: [1, 2, 3, 6, 8, 11],
        levels: [{ name: "lot", ids: [1, 1, 1, 2, 2, 3] }],
      }),
    );
    expect(lines[0]!.sumOfSquares).toBeCloseTo(425 / 6, 10);
    expect(lines[1]!.variance).toBeCloseTo(4 / 3, 10);
    expect(lines[0]!.variance).toBeCloseTo((425 / 12 - 4 / 3) / (11 / 6), 10);
    expect(total).toBeCloseTo(4 / 3 + (425 / 12 - 4 / 3) / (11 / 6), 10);
    // With one level, F is the one-way F.
    const oneWay = found(oneWayAnova([1, 2, 3, 6, 8, 11], [1, 1, 1, 2, 2, 3]));
    expect(lines[0]!.F).toBeCloseTo(oneWay.F!, 10);
    expect(lines[0]!.p).toBeCloseTo(oneWay.p!, 12);
  });

  test("by hand: a negative component is cut at 0 and kept beside", () => {
    // Both lots have mean 2: SS lot 0, MS within 2, so σ²_lot = (0 − 2)/2 = −1.
    const { lines } = found(
      nestedComponents({ values: [1, 3, 1, 3], levels: [{ name: "lot", ids: [1, 1, 2, 2] }] }),
    );
    expect(lines[0]!.untruncated).toBeCloseTo(-1, 12);
    expect(lines[0]!.variance).toBe(0);
    expect(lines[1]!.share).toBe(1);
  });

  test("a level with one class a parent cannot be told apart", () => {
    const { lines, words } = found(
      nestedComponents({
        values: [1, 2, 5, 6],
        levels: [
          { name: "lot", ids: [1, 1, 2, 2] },
          { name: "setup", ids: [1, 1, 1, 1] },
        ],
      }),
    );
    expect(lines.map((line) => line.variance)).toEqual([expect.closeTo(7.75, 10), null, 0.5]);
    expect(words).toContain("Not told apart from its neighbours: setup.");
  });

  test("one reading a piece: the piece line takes what is within", () => {
    const { lines } = found(
      nestedComponents({
        values: [1, 2, 5, 6],
        levels: [
          { name: "lot", ids: [1, 1, 2, 2] },
          { name: "piece", ids: [1, 2, 3, 4] },
        ],
      }),
    );
    expect(lines.map((line) => line.variance)).toEqual([expect.closeTo(7.75, 10), 0.5, null]);
  });

  test("edge: one lot; everything alike", () => {
    expect(nestedComponents({ values: [1, 2, 3], levels: [{ name: "lot", ids: [1, 1, 1] }] })).toEqual({
      ok: false,
      problem: { code: "too-few-subgroups", needed: 2, got: 1 },
    });
    const alike = found(
      nestedComponents({ values: [2, 2, 2, 2], levels: [{ name: "lot", ids: [1, 1, 2, 2] }] }),
    );
    expect(alike.words).toBe("Nothing varies: all readings are alike.");
    expect(alike.lines[0]!.F).toBeNull();
  });

  test("law, by simulation of four unequal levels: the estimates average to the truth", () => {
    // Seeded Park-Miller generator and a sum of twelve uniforms: variance 1, mean 0.
    let state = 20240517;
    const uniform = () => {
      state = (state * 48271) % 2147483647;
      return state / 2147483647;
    };
    const standard = () => Array.from({ length: 12 }, uniform).reduce((sum, u) => sum + u, -6);
    const truth = [9, 4, 1, 0.25];
    const sums = [0, 0, 0, 0];
    const squares = [0, 0, 0, 0];
    const runs = 400;
    for (let run = 0; run < runs; run++) {
      const values: number[] = [];
      const ids: number[][] = [[], [], []];
      for (let lot = 0; lot < 8; lot++) {
        const a = 3 * standard();
        for (let setup = 0; setup < 2 + (lot % 2); setup++) {
          const b = 2 * standard();
          for (let piece = 0; piece < 1 + ((lot + setup) % 3); piece++) {
            const c = standard();
            for (let repeat = 0; repeat < 1 + ((lot + piece) % 2); repeat++) {
              values.push(a + b + c + 0.5 * standard());
              ids[0]!.push(lot);
              ids[1]!.push(setup);
              ids[2]!.push(piece);
            }
          }
        }
      }
      const { lines } = found(
        nestedComponents({
          values,
          levels: ["lot", "setup", "piece"].map((name, i) => ({ name, ids: ids[i]! })),
        }),
      );
      for (const [i, line] of lines.entries()) {
        sums[i]! += line.untruncated!;
        squares[i]! += line.untruncated! ** 2;
      }
    }
    for (const [i, sigma2] of truth.entries()) {
      const average = sums[i]! / runs;
      const standardError = Math.sqrt((squares[i]! / runs - average ** 2) / runs);
      expect(Math.abs(average - sigma2)).toBeLessThan(4 * standardError);
    }
  });

  const nested = fc.array(
    fc.record({
      value: fc.double({ min: -5, max: 5, noNaN: true }),
      lot: fc.integer({ min: 1, max: 4 }),
      piece: fc.integer({ min: 1, max: 3 }),
    }),
    { minLength: 20, maxLength: 60 },
  );
  type One = { value: number; lot: number; piece: number };
  const components = (rows: readonly One[], value: (row: One) => number = (row) => row.value) =>
    nestedComponents({
      values: rows.map(value),
      levels: [
        { name: "lot", ids: rows.map((row) => row.lot) },
        { name: "piece", ids: rows.map((row) => row.piece) },
      ],
    });

  test("law: order does not matter, the unit squares, the origin is free, sums of squares add up", () => {
    fc.assert(
      fc.property(nested, fc.double({ min: -1e3, max: 1e3, noNaN: true }), (rows, shift) => {
        const before = components(rows);
        fc.pre(before.ok);
        const lines = found(before).lines;
        const reversed = found(components([...rows].reverse())).lines;
        const moved = found(components(rows, (row) => shift + 3 * row.value)).lines;
        let sum = 0;
        for (const [i, line] of lines.entries()) {
          sum += line.sumOfSquares;
          if (line.untruncated === null) continue;
          expect(reversed[i]!.untruncated).toBeCloseTo(line.untruncated, 8);
          expect(moved[i]!.untruncated! / 9).toBeCloseTo(line.untruncated, 8);
        }
        const mean = rows.reduce((total, row) => total + row.value, 0) / rows.length;
        const whole = rows.reduce((total, row) => total + (row.value - mean) ** 2, 0);
        expect(sum).toBeCloseTo(whole, 8);
      }),
    );
  });
});

describe("bad input is refused by name", () => {
  test.each([
    ["ids of another length", () => oneWayAnova([1, 2, 3], [1, 2])],
    ["a reading that is not a number", () => oneWayAnova([1, Number.NaN], [1, 2])],
    ["Bartlett: ids of another length", () => bartlettTest([1, 2], [1])],
    ["Levene: an infinite reading", () => leveneTest([1, 1 / 0], [1, 1])],
    ["no level", () => nestedComponents({ values: [1, 2], levels: [] })],
    ["five levels", () => nestedComponents({ values: [1], levels: Array(5).fill({ name: "x", ids: [1] }) })],
    ["a level without a name", () => nestedComponents({ values: [1], levels: [{ name: "", ids: [1] }] })],
    ["a level of another length", () => nestedComponents({ values: [1], levels: [{ name: "x", ids: [] }] })],
    [
      "a nested reading that is not a number",
      () => nestedComponents({ values: [Number.NaN], levels: [{ name: "x", ids: [1] }] }),
    ],
  ])("%s", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
