import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { shortRunChart, shortRunLimits } from "../../../lib/charts/short-run";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import { summarise } from "../../../lib/subgroups/summarise";
import { runs } from "../../laws";

const targets = new Map([
  ["bore", { target: 40, sigma: 0.01 }],
  ["shaft", { target: 12, sigma: 0.004 }],
]);
const point = (feature: string, ...values: number[]) => ({ feature, subgroup: summarise(values) });

describe("by hand", () => {
  test("single readings: each in its own sigma, the moving range across features", () => {
    const points = shortRunChart({
      chart: "i-mr",
      targets,
      points: [point("bore", 40.02), point("shaft", 11.996), null, point("bore", 40.01)],
    });
    const [first, second, third, fourth] = points;
    expect(first!.deviation).toBeCloseTo(0.02, 12);
    expect(first!.location).toBeCloseTo(2, 9);
    expect(first!.spread).toBeNull();
    expect(second!.location).toBeCloseTo(-1, 9);
    expect(second!.spreadInSigma).toBeCloseTo(3, 9);
    expect(third).toBeNull();
    expect(fourth!.spreadInSigma).toBeCloseTo(2, 9);
    // (2 − 2/√π)/√(2 − 4/π)
    expect(fourth!.spread).toBeCloseTo((2 - 2 / Math.sqrt(Math.PI)) / Math.sqrt(2 - 4 / Math.PI), 9);
  });

  test("subgroups of 4: the mean counts double, the range is in sigma of single readings", () => {
    const [only] = shortRunChart({
      chart: "xbar-r",
      targets,
      points: [point("bore", 40, 40.01, 40.02, 40.01)],
    });
    expect(only!.location).toBeCloseTo(2, 9);
    expect(only!.spreadInSigma).toBeCloseTo(2, 9);
  });

  test("limits are those of a process with centre 0 and sigma 1, whatever the feature", () => {
    const { location, spread } = shortRunLimits("xbar-r", 5);
    expect(location).toEqual({ lower: -3, centre: 0, upper: 3 });
    expect(spread).toEqual(limitsForSize({ chart: "xbar-r", centre: 0, sigma: 1 }, 5).spread);
  });
});

describe("law", () => {
  test("one feature alone gives its ordinary chart, standardised; any unit and origin the same", () => {
    const groups = fc.array(
      fc.array(fc.double({ min: -4, max: 4, noNaN: true }), { minLength: 3, maxLength: 3 }),
      { minLength: 1, maxLength: 12 },
    );
    fc.assert(
      fc.property(groups, (values) => {
        const chart = "xbar-s" as const;
        const plain = shortRunChart({
          chart,
          targets: new Map([["a", { target: 0, sigma: 1 }]]),
          points: values.map((group) => point("a", ...group)),
        });
        const other = shortRunChart({
          chart,
          targets: new Map([["a", { target: 500, sigma: 25.4 }]]),
          points: values.map((group) => point("a", ...group.map((value) => value * 25.4 + 500))),
        });
        plain.forEach((one, i) => {
          expect(other[i]!.location).toBeCloseTo(one!.location, 9);
          expect(other[i]!.spread).toBeCloseTo(one!.spread!, 9);
        });
      }),
      { numRuns: runs(40) },
    );
  });
});

describe("edge", () => {
  test("a subgroup of one on a chart of means has no spread", () => {
    const [only] = shortRunChart({ chart: "xbar-r", targets, points: [point("bore", 40)] });
    expect(only).toMatchObject({ location: 0, spread: null, spreadInSigma: null });
  });

  test.each([
    ["chart", { chart: "ring" as "i-mr", targets, points: [] }],
    ["points[0].feature", { chart: "i-mr" as const, targets, points: [point("face", 1)] }],
    ["sigma", { chart: "i-mr" as const, targets: new Map([["a", { target: 0, sigma: 0 }]]), points: [] }],
    [
      "target of a",
      { chart: "i-mr" as const, targets: new Map([["a", { target: Number.NaN, sigma: 1 }]]), points: [] },
    ],
    ["size", { chart: "i-mr" as const, targets, points: [point("bore", 1, 2)] }],
  ])("refused: %s", (field, given) => {
    expect(() => shortRunChart(given)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});
