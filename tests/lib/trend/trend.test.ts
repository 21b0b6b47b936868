import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { durbinWatson, ljungBox, vonNeumannRatio } from "../../../lib/autocorrelation/portmanteau";
import { InvalidInput } from "../../../lib/checks";
import type { Computed } from "../../../lib/computed";
import { grubbsTest } from "../../../lib/outliers/grubbs";
import { randomStream } from "../../../lib/random/random-stream";
import { changeOfMeanOrSpread, changePoint } from "../../../lib/trend/change-point";
import { mannKendall } from "../../../lib/trend/mann-kendall";
import { neweyWestSlope, usualLag } from "../../../lib/trend/newey-west";
import { runsTest } from "../../../lib/trend/runs-test";
import { theilSen } from "../../../lib/trend/theil-sen";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

test("by hand: 1 to 10 is two runs where six are expected", () => {
  // n₁ = n₂ = 5: E = 6, V = 50·40/(100·9).
  const { runs, expected, z } = found(runsTest([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]));
  expect([runs, expected]).toEqual([2, 6]);
  expect(z).toBeCloseTo(-4 / Math.sqrt(2000 / 900), 13);
});

test("by hand: 1, 3, 2, 4 has S = 4 of 6 pairs, V = 26/3, z = 3/√V", () => {
  const { S, tauA, z } = found(mannKendall([1, 3, 2, 4]));
  expect([S, tauA]).toEqual([4, 4 / 6]);
  expect(z).toBeCloseTo(3 / Math.sqrt(26 / 3), 13);
});

test("by hand: Theil and Sen are not bent by one wild reading", () => {
  const { slope, intercept } = found(
    theilSen({ x: [0, 1, 2, 3, 4], y: [1, 3, 5, 700, 9], confidence: 0.95 }),
  );
  expect([slope, intercept]).toEqual([2, 1]);
});

test("by hand: 0, 0, 0, 6, 6, 6 changed at 3, and nothing is left over", () => {
  const { at, squares, squaresWithout, F } = found(changePoint([0, 0, 0, 6, 6, 6], { fewest: 1 }));
  expect([at, squares, squaresWithout, F]).toEqual([3, 0, 54, null]);
});

test("by hand: a change of spread alone", () => {
  const quiet = [1, -1, 1, -1, 1, -1, 1, -1];
  expect(found(changeOfMeanOrSpread([...quiet, ...quiet.map((x) => 50 * x)], { fewest: 2 })).at).toBe(8);
});

test("by hand: residuals 1, −1, 1 have Durbin-Watson 8/3, and 1, 2, 3 have von Neumann 1", () => {
  expect(found(durbinWatson([1, -1, 1]))).toBeCloseTo(8 / 3, 14);
  expect(found(vonNeumannRatio([1, 2, 3]))).toBeCloseTo(1, 14);
});

test("by hand: Q of one lag is n(n + 2)r²/(n − 1)", () => {
  // 1, 2, 3: r = 0, since the middle deviation is 0.
  expect(found(ljungBox([1, 2, 3], { lags: 1 }))).toEqual({ statistic: 0, p: 1 });
});

test("law, by simulation: with neighbours correlated by 0.6 the steady error is about twice the plain one", () => {
  const stream = randomStream(21, "neighbours");
  let beyond = 0;
  for (let k = 0; k < 400; k++) {
    let level = stream.normal();
    const y = Array.from({ length: 300 }, () => {
      level = 0.6 * level + 0.8 * stream.normal();
      return level;
    });
    const slope = found(neweyWestSlope({ x: y.map((_, i) => i), y, lag: 15, correction: true }));
    if (slope.pNormal! < 0.05) beyond++;
  }
  // The plain test rejects one in three; 15 neighbours leave a few per cent above the level of 5 %.
  expect(beyond / 400).toBeLessThan(0.14);
});

test("law: a shift and a scale change no test, and turning the series round turns the trend", () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 12, maxLength: 40 }),
      (values) => {
        fc.pre(new Set(values).size > 3);
        const moved = values.map((value) => 4 * value + 100);
        const kendall = found(mannKendall(values));
        expect(found(mannKendall(moved))).toEqual(kendall);
        expect(found(mannKendall(values.toReversed())).S === -kendall.S).toBe(true);
        const runs = runsTest(values);
        if (runs.ok) expect(found(runsTest(moved)).z).toBe(runs.value.z);
        const x = values.map((_, i) => i);
        const one = found(theilSen({ x, y: values, confidence: 0.9 }));
        expect(found(theilSen({ x, y: moved, confidence: 0.9 })).slope).toBeCloseTo(4 * one.slope, 9);
        expect(found(changePoint(moved, { fewest: 2 })).squares).toBeCloseTo(
          16 * found(changePoint(values, { fewest: 2 })).squares,
          3,
        );
      },
    ),
  );
});

test("law, by simulation: Grubbs rejects normal readings as often as it says", () => {
  const stream = randomStream(22, "outliers");
  let rejected = 0;
  for (let k = 0; k < 4000; k++) {
    const values = Array.from({ length: 12 }, () => stream.normal());
    if (found(grubbsTest(values, { significance: 0.05, side: "either" })).isOutlier) rejected++;
  }
  expect(Math.abs(rejected / 4000 - 0.05)).toBeLessThan(4 * Math.sqrt((0.05 * 0.95) / 4000));
});

test("Grubbs looks at the side it is told", () => {
  const values = [1, 2, 3, 4, -20];
  expect(found(grubbsTest(values, { significance: 0.05, side: "largest" })).at).toBe(3);
  expect(found(grubbsTest(values, { significance: 0.05, side: "smallest" })).at).toBe(4);
});

describe("edge: too few, all alike", () => {
  const alike = new Array<number>(12).fill(5);
  test.each([
    ["runs", runsTest([1, 2]), runsTest(alike)],
    ["Mann-Kendall", mannKendall([1, 2, 3]), mannKendall(alike)],
    [
      "Theil-Sen",
      theilSen({ x: [1, 2], y: [1, 2], confidence: 0.9 }),
      theilSen({ x: alike, y: alike, confidence: 0.9 }),
    ],
    ["change point", changePoint([1, 2], { fewest: 1 }), changePoint(alike, { fewest: 2 })],
    [
      "change of spread",
      changeOfMeanOrSpread([1, 2], { fewest: 2 }),
      changeOfMeanOrSpread([0, 0, 0, 6, 6, 6], { fewest: 3 }),
    ],
    ["Ljung-Box", ljungBox([1, 2], { lags: 1 }), ljungBox(alike, { lags: 2 })],
    ["Durbin-Watson", durbinWatson([1]), durbinWatson([0, 0])],
    ["von Neumann", vonNeumannRatio([1]), vonNeumannRatio(alike)],
    [
      "Grubbs",
      grubbsTest([1, 2], { significance: 0.05, side: "either" }),
      grubbsTest(alike, { significance: 0.05, side: "either" }),
    ],
    [
      "slope",
      neweyWestSlope({ x: [1, 2], y: [1, 2], lag: 0, correction: false }),
      neweyWestSlope({ x: alike, y: alike, lag: 0, correction: false }),
    ],
  ])("%s", (_, few, same) => {
    expect(!few.ok && few.problem.code).toBe("too-few-readings");
    expect(!same.ok && same.problem.code).toBe("no-variation");
  });

  test("a line without scatter has no z", () => {
    expect(
      found(neweyWestSlope({ x: [0, 1, 2, 3], y: [5, 5, 5, 5], lag: 1, correction: false })).z,
    ).toBeNull();
    expect([usualLag(100), usualLag(3)]).toEqual([4, 1]);
  });
});

describe("bad input", () => {
  const nan = [1, 2, 3, Number.NaN, 5, 6, 7, 8, 9, 10, 11];
  test.each([
    ["runs", () => runsTest(nan)],
    ["Mann-Kendall", () => mannKendall(nan)],
    ["Theil-Sen", () => theilSen({ x: nan, y: nan, confidence: 0.9 })],
    ["Theil-Sen of lengths that differ", () => theilSen({ x: [1], y: [1, 2], confidence: 0.9 })],
    ["Theil-Sen with certainty", () => theilSen({ x: [1, 2, 3, 4], y: [1, 2, 3, 4], confidence: 1 })],
    [
      "Theil-Sen of too many",
      () => theilSen({ x: new Float64Array(5000), y: new Float64Array(5000), confidence: 0.9 }),
    ],
    ["change point", () => changePoint(nan, { fewest: 2 })],
    ["change point of half a reading", () => changePoint([1, 2, 3], { fewest: 0.5 })],
    ["Ljung-Box without lags", () => ljungBox([1, 2, 3], { lags: 0 })],
    ["Grubbs", () => grubbsTest(nan, { significance: 0.05, side: "either" })],
    ["Grubbs at no level", () => grubbsTest([1, 2, 3], { significance: 0, side: "either" })],
    [
      "Newey-West with a negative lag",
      () => neweyWestSlope({ x: [1, 2, 3, 4], y: [1, 2, 4, 3], lag: -1, correction: false }),
    ],
    ["a usual lag of nothing", () => usualLag(0)],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
