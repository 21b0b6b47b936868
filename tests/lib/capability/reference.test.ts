import { describe, expect, test } from "vitest";
import { capabilityIndices, type IndexName } from "../../../lib/capability/indices";
import { bissellBounds, capabilityIntervals, chiSquareBounds } from "../../../lib/capability/intervals";
import { normality } from "../../../lib/capability/normality";
import { expectedOutside, observedOutside } from "../../../lib/capability/outside";
import { mean, sampleStandardDeviation } from "../../../lib/summary/moments";
import reference from "../../reference/capability.json";

type Fractions = { below: number; above: number };
type Case = {
  id: string;
  input: {
    values: number[] | null;
    subgroups: number[][] | null;
    lowerLimit: number | null;
    target: number | null;
    upperLimit: number | null;
  };
  expected: {
    mean: number;
    overallStandardDeviation: number;
    withinDegreesOfFreedomOfPooled?: number;
    withinSigma: Record<string, number>;
    indicesByWithinSigma: Record<string, Partial<Record<IndexName, number>>>;
    overallIndices: Partial<Record<IndexName, number>>;
    Cpm?: number;
    confidenceIntervals: {
      confidence: number;
      PpChiSquare?: number[];
      PpChiSquareLowerOneSided?: number;
      PpkBissell: number[];
      PpkBissellLowerOneSided: number;
      CpChiSquareFromPooled?: number[];
      CpkBissellFromPooled?: number[];
      PplExactNoncentralTLowerOneSided?: number;
      PplExactNoncentralTTwoSided?: number[];
      PpuExactNoncentralTLowerOneSided?: number;
      PpuExactNoncentralTTwoSided?: number[];
    };
    expectedOutsideNormalOverall: Fractions;
    expectedOutsideNormalWithin: Record<string, Fractions>;
    observedOutside: Fractions;
    andersonDarling: { statistic: number; pValue: number };
  };
};

/** Closed forms must agree to this; the file itself asks for 1e-8 only. */
const RELATIVE = 1e-11;

function agree(ours: number | null | undefined, theirs: number, relative = RELATIVE): void {
  expect(ours).not.toBeNull();
  expect(Math.abs(ours! - theirs)).toBeLessThanOrEqual(relative * Math.abs(theirs));
}

describe(`computed independently: ${reference.source}`, () => {
  for (const { id, input, expected } of reference.cases as unknown as Case[]) {
    const values = input.values ?? input.subgroups!.flat();
    const tolerance = { lower: input.lowerLimit, upper: input.upperLimit };
    const centre = mean(values);
    const sd = sampleStandardDeviation(values);
    const ci = expected.confidenceIntervals;

    const studied = (sigmaWithin: number | null) => {
      const indices = capabilityIndices({
        mean: centre,
        sdOverall: sd,
        sigmaWithin,
        tolerance,
        target: input.target,
        naturalBound: null,
      });
      if (!indices.ok) throw new Error(`${id} gave no indices: ${indices.problem.code}`);
      return indices.value;
    };

    test(`${id}: moments and overall indices`, () => {
      agree(centre, expected.mean);
      agree(sd, expected.overallStandardDeviation);
      const indices = studied(null);
      for (const name of ["Pp", "Ppl", "Ppu", "Ppk"] as const) {
        const theirs = expected.overallIndices[name];
        if (theirs === undefined) expect(indices[name]).toBeNull();
        else agree(indices[name], theirs);
      }
      if (expected.Cpm === undefined) expect(indices.Cpm).toBeNull();
      else agree(indices.Cpm, expected.Cpm);
    });

    test(`${id}: indices by each within sigma`, () => {
      for (const [estimator, theirs] of Object.entries(expected.indicesByWithinSigma)) {
        const indices = studied(expected.withinSigma[estimator]!);
        for (const name of ["Cp", "Cpl", "Cpu", "Cpk"] as const) {
          if (theirs[name] === undefined) expect(indices[name]).toBeNull();
          else agree(indices[name], theirs[name]);
        }
      }
    });

    test(`${id}: intervals and lower bounds`, () => {
      const { intervals, lowerBounds } = capabilityIntervals({
        indices: studied(null),
        count: values.length,
        degreesOfFreedomWithin: null,
        confidence: ci.confidence,
      });
      const both = (name: IndexName, theirs: number[] | undefined, relative?: number) => {
        if (theirs === undefined) expect(intervals[name]).toBeNull();
        else for (const [i, bound] of theirs.entries()) agree(intervals[name]![i], bound, relative);
      };
      const least = (name: IndexName, theirs: number | undefined, relative?: number) => {
        if (theirs === undefined) expect(lowerBounds[name]).toBeNull();
        else agree(lowerBounds[name], theirs, relative);
      };
      both("Pp", ci.PpChiSquare);
      least("Pp", ci.PpChiSquareLowerOneSided);
      both("Ppk", ci.PpkBissell);
      least("Ppk", ci.PpkBissellLowerOneSided);
      both("Ppl", ci.PplExactNoncentralTTwoSided, 1e-9);
      least("Ppl", ci.PplExactNoncentralTLowerOneSided, 1e-9);
      both("Ppu", ci.PpuExactNoncentralTTwoSided, 1e-9);
      least("Ppu", ci.PpuExactNoncentralTLowerOneSided, 1e-9);
    });

    if (expected.withinDegreesOfFreedomOfPooled !== undefined) {
      test(`${id}: intervals by the pooled sigma and its degrees of freedom`, () => {
        const indices = studied(expected.withinSigma.pooledStandardDeviation!);
        const rest = {
          count: values.length,
          degreesOfFreedom: expected.withinDegreesOfFreedomOfPooled!,
          confidence: ci.confidence,
        };
        const cp = chiSquareBounds({ index: indices.Cp!, ...rest }).interval;
        const cpk = bissellBounds({ index: indices.Cpk!, ...rest }).interval;
        for (const [i, bound] of ci.CpChiSquareFromPooled!.entries()) agree(cp[i], bound);
        for (const [i, bound] of ci.CpkBissellFromPooled!.entries()) agree(cpk[i], bound);
      });
    }

    test(`${id}: Anderson-Darling`, () => {
      const ours = normality(values);
      if (!ours.ok) throw new Error(ours.problem.code);
      agree(ours.value.A2, expected.andersonDarling.statistic, 1e-10);
      agree(ours.value.p, expected.andersonDarling.pValue, 1e-9);
      expect(ours.value.distinct).toBe(new Set(values).size);
    });

    test(`${id}: fractions outside`, () => {
      const compare = (sigma: number, theirs: Fractions) => {
        const ours = expectedOutside({ mean: centre, sigma, tolerance });
        for (const side of ["below", "above"] as const) {
          // The file writes 0 where there is no limit; no limit is null here.
          if (tolerance[side === "below" ? "lower" : "upper"] === null) expect(ours[side]).toBeNull();
          // A far tail multiplies the relative error of mean and sigma by z², some 100.
          else agree(ours[side], theirs[side], 1e-9);
        }
      };
      compare(sd, expected.expectedOutsideNormalOverall);
      for (const [estimator, theirs] of Object.entries(expected.expectedOutsideNormalWithin)) {
        compare(expected.withinSigma[estimator]!, theirs);
      }
      const { below, above } = observedOutside({ values, tolerance });
      expect({ below: below ?? 0, above: above ?? 0 }).toEqual(expected.observedOutside);
    });
  }
});

describe("the rounded case", () => {
  test("is refused for its grid, not for its process: it was drawn from a normal law and rounded to 0.01", () => {
    const rounded = (reference.cases as unknown as Case[]).find(
      (one) => one.id === "rounded-to-hundredth-50",
    )!;
    const ours = normality(rounded.input.values!);
    if (!ours.ok) throw new Error(ours.problem.code);
    expect(ours.value.step).toBe(0.01);
    expect(ours.value.p).toBeLessThan(0.05);
    expect(ours.value.spreadOverGrid!.p).toBeGreaterThan(0.2);
  });
});
