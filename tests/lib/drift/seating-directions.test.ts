import { describe, expect, test } from "vitest";
import type { Correlations } from "../../../lib/drift/common-news";
import { seatingDirections } from "../../../lib/drift/seating-directions";

/** Correlations of features that follow directions with the given signed loadings, and are independent otherwise. */
function correlationsOf(directions: readonly (readonly number[])[], freedomWithin: number): Correlations {
  const features = directions[0]!.length;
  const within = new Float64Array(features * features);
  for (let a = 0; a < features; a++) {
    for (let b = 0; b < features; b++) {
      within[a * features + b] =
        a === b ? 1 : directions.reduce((sum, loading) => sum + loading[a]! * loading[b]!, 0);
    }
  }
  return { features, within, between: within, freedomWithin, freedomBetween: 20 };
}

describe("directions along which pieces seat differently", () => {
  const first = [0.6, -0.6, 0.6, 0.6, -0.6, 0.6, 0, 0, 0, 0, 0, 0];
  const second = [0, 0, 0, 0, 0, 0, 0.5, 0.5, -0.5, 0.5, 0.5, -0.5];

  test("by hand: two blocks of six features give two directions with the blocks' signs", () => {
    // Eigenvalues 1 + 5 · 0.36 = 2.8 and 1 + 5 · 0.25 = 2.25; chance gives up to 1.1 (1 + √(12/400))² = 1.51.
    const found = seatingDirections(correlationsOf([first, second], 400));
    expect(found).toHaveLength(2);
    for (const [mine, wanted] of [
      [found[0]!, first],
      [found[1]!, second],
    ] as const) {
      const side = Math.sign(mine.find((one) => one !== 0)!) * Math.sign(wanted.find((one) => one !== 0)!);
      // All loadings of a block are √((λ − 1)/6): 0.548 and 0.456.
      const size = Math.max(...mine.map(Math.abs));
      for (const [f, one] of mine.entries()) expect(one * side).toBeCloseTo(Math.sign(wanted[f]!) * size, 3);
      expect(size).toBeCloseTo(Math.sqrt((5 * wanted.find((one) => one !== 0)! ** 2) / 6), 3);
    }
  });

  test("unrelated features give none", () =>
    expect(seatingDirections(correlationsOf([new Array(12).fill(0)], 400))).toEqual([]));

  test("too few pieces say nothing", () =>
    expect(seatingDirections(correlationsOf([first, second], 30))).toEqual([]));
});
