import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { conformityZones, countVerdicts, verdictOf } from "../../../lib/capability/conformity";
import { gaugeAwareIndices } from "../../../lib/capability/gauge-aware";
import { bissellBounds, oneSidedBounds } from "../../../lib/capability/intervals";
import { piecesByBound, piecesToShow } from "../../../lib/capability/planning";
import { InvalidInput } from "../../../lib/checks";
import type { Computed } from "../../../lib/computed";
import { chiSquareQuantile } from "../../../lib/distributions/chi-square";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

describe("pieces to show an index", () => {
  test("by hand: Pp 1.6 shows 1.33 once χ²(5 %)/ν reaches (1.33/1.6)²", () => {
    const count = piecesToShow({ index: 1.6, target: 1.33, confidence: 0.95, judgedBy: "Pp" })!;
    const ratio = (n: number) => chiSquareQuantile(0.05, n - 1) / (n - 1);
    expect(ratio(count)).toBeGreaterThanOrEqual((1.33 / 1.6) ** 2);
    expect(ratio(count - 1)).toBeLessThan((1.33 / 1.6) ** 2);
  });

  test("law: so many suffice and one less does not, by the bound the study prints", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1.05, max: 2.5, noNaN: true }),
        fc.double({ min: 1.05, max: 2, noNaN: true }),
        (factor, target) => {
          const index = target * factor;
          const count = piecesToShow({ index, target, confidence: 0.95, judgedBy: "Ppk" })!;
          const bound = (n: number) =>
            bissellBounds({ index, count: n, degreesOfFreedom: n - 1, confidence: 0.95 }).lowerBound;
          expect(bound(count)).toBeGreaterThanOrEqual(target);
          if (count > 2) expect(bound(count - 1)).toBeLessThan(target);
        },
      ),
    );
  });

  test("the exact bound of one limit, and a sigma within that knows less than n − 1", () => {
    const one = piecesToShow({ index: 1.67, target: 1.33, confidence: 0.9, judgedBy: "one-sided" })!;
    expect(
      oneSidedBounds({ index: 1.67, count: one, degreesOfFreedom: one - 1, confidence: 0.9 }).lowerBound,
    ).toBeGreaterThanOrEqual(1.33);
    const all = piecesToShow({ index: 1.67, target: 1.33, confidence: 0.95, judgedBy: "Ppk" })!;
    const within = piecesToShow({
      index: 1.67,
      target: 1.33,
      confidence: 0.95,
      judgedBy: "Ppk",
      degreesOfFreedomPerPiece: 0.8,
    })!;
    expect(within).toBeGreaterThan(all);
  });

  test("edge: at or below the target no number will do", () => {
    expect(piecesToShow({ index: 1.33, target: 1.33, confidence: 0.95, judgedBy: "Ppk" })).toBeNull();
    expect(piecesToShow({ index: 1.2, target: 1.33, confidence: 0.95, judgedBy: "Pp" })).toBeNull();
    expect(piecesToShow({ index: 1.3300001, target: 1.33, confidence: 0.95, judgedBy: "Pp" })).toBeNull();
  });
});

describe("conformity with a guard band", () => {
  const zones = conformityZones({ tolerance: { lower: 9, upper: 11 }, uncertainty: 0.2 });

  test("by hand: 9 to 11 with ±0.2", () => {
    expect(zones.conformance).toEqual({ lower: 9.2, upper: 10.8 });
    expect(zones.nonConformance).toEqual({ lower: 8.8, upper: 11.2 });
    expect([9.2, 9.1, 8.8, 8.7, 11.3].map((value) => verdictOf(value, zones))).toEqual([
      "conforms",
      "not provable",
      "not provable",
      "does not conform",
      "does not conform",
    ]);
    expect(countVerdicts([10, 10.9, 12], zones)).toEqual({
      conforms: 1,
      "not provable": 1,
      "does not conform": 1,
    });
  });

  test("edge: one limit; a gauge too poor to prove anything; no uncertainty at all", () => {
    const upper = conformityZones({ tolerance: { lower: null, upper: 1 }, uncertainty: 0.1 });
    expect(verdictOf(-5, upper)).toBe("conforms");
    const poor = conformityZones({ tolerance: { lower: 0, upper: 1 }, uncertainty: 0.6 });
    expect([poor.conformance, verdictOf(0.5, poor)]).toEqual([null, "not provable"]);
    const sure = conformityZones({ tolerance: { lower: 0, upper: 1 }, uncertainty: 0 });
    expect([verdictOf(0, sure), verdictOf(-1e-9, sure)]).toEqual(["conforms", "does not conform"]);
  });
});

describe("indices without the gauge", () => {
  const summary = {
    mean: 10,
    sdOverall: 0.05,
    sigmaWithin: 0.05,
    tolerance: { lower: 9.7, upper: 10.3 },
    target: null,
    naturalBound: null,
  };

  test("by hand: 0.05 seen and 0.03 of the gauge leave 0.04", () => {
    const seen = found(gaugeAwareIndices(summary, { gaugeSigma: 0.03 }));
    expect(seen.observed.Ppk).toBeCloseTo(2, 12);
    expect(seen.sdProcess).toBeCloseTo(0.04, 14);
    expect(seen.process!.Ppk).toBeCloseTo(2.5, 12);
    expect(seen.process!.Cpk).toBeCloseTo(2.5, 12);
    expect(seen.gaugeShare).toBeCloseTo(0.36, 12);
    // The same as 1/Pp² = 1/Pp² process + (6 σ gauge / width)².
    expect(1 / seen.observed.Pp! ** 2).toBeCloseTo(1 / seen.process!.Pp! ** 2 + (0.18 / 0.6) ** 2, 12);
  });

  test("edge: a gauge that explains all leaves no process to judge; a perfect one changes nothing", () => {
    expect(found(gaugeAwareIndices(summary, { gaugeSigma: 0.05 })).process).toBeNull();
    const perfect = found(gaugeAwareIndices(summary, { gaugeSigma: 0 }));
    expect(perfect.process).toEqual(perfect.observed);
    expect(
      gaugeAwareIndices({ ...summary, tolerance: { lower: null, upper: null } }, { gaugeSigma: 0 }).ok,
    ).toBe(false);
  });
});

describe("bad input", () => {
  const plan = { index: 1.5, target: 1.33, confidence: 0.95, judgedBy: "Ppk" as const };
  test.each([
    ["no target", () => piecesToShow({ ...plan, target: 0 })],
    ["certainty", () => piecesToShow({ ...plan, confidence: 1 })],
    ["an index that is none", () => piecesToShow({ ...plan, index: Number.NaN })],
    ["more degrees of freedom than pieces", () => piecesToShow({ ...plan, degreesOfFreedomPerPiece: 2 })],
    ["a negative uncertainty", () => conformityZones({ tolerance: { lower: 0, upper: 1 }, uncertainty: -1 })],
    ["no limit", () => conformityZones({ tolerance: { lower: null, upper: null }, uncertainty: 1 })],
    ["swapped limits", () => conformityZones({ tolerance: { lower: 2, upper: 1 }, uncertainty: 0 })],
    [
      "a reading that is none",
      () => verdictOf(Number.NaN, conformityZones({ tolerance: { lower: 0, upper: 1 }, uncertainty: 0 })),
    ],
    [
      "a negative gauge",
      () =>
        gaugeAwareIndices(
          {
            mean: 0,
            sdOverall: 1,
            sigmaWithin: null,
            tolerance: { lower: null, upper: 1 },
            target: null,
            naturalBound: null,
          },
          { gaugeSigma: -1 },
        ),
    ],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});

describe("pieces by a simulated bound", () => {
  test("by hand: a bound 0.2 below 1.5 at 100 pieces lies 0.1 below at 400", () => {
    expect(piecesByBound({ index: 1.5, lowerBound: 1.3, count: 100, target: 1.4 })).toBe(400);
  });

  test("law: near what Bissell's bound asks for, when it is given that bound", () => {
    const [index, count, target, confidence] = [1.7, 400, 1.55, 0.95];
    const { lowerBound } = bissellBounds({ index, count, degreesOfFreedom: count - 1, confidence });
    const exact = piecesToShow({ index, target, confidence, judgedBy: "Ppk" })!;
    expect(piecesByBound({ index, lowerBound, count, target })! / exact).toBeCloseTo(1, 1);
  });

  test("edge: a value at or below the target shows nothing, broken arguments are told", () => {
    expect(piecesByBound({ index: 1.3, lowerBound: 1.2, count: 50, target: 1.33 })).toBeNull();
    expect(() => piecesByBound({ index: 1.3, lowerBound: 1.4, count: 50, target: 1 })).toThrow(InvalidInput);
    expect(() => piecesByBound({ index: 1.3, lowerBound: 1.2, count: 1, target: 1 })).toThrow(InvalidInput);
  });
});
