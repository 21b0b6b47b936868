import { describe, expect, test } from "vitest";
import { capabilityIndices } from "../../../../lib/capability/indices";
import { boxCox, boxCoxTolerance } from "../../../../lib/capability/models/box-cox";
import { fitModel } from "../../../../lib/capability/models/fitted-model";
import { andersonDarlingStatistic } from "../../../../lib/capability/models/goodness";
import type { ModelName } from "../../../../lib/capability/models/model";
import { logLikelihood, MODELS } from "../../../../lib/capability/models/models";
import { percentileIndices, quantilesOf } from "../../../../lib/capability/models/percentile-indices";
import { shapiroWilk } from "../../../../lib/capability/shapiro-wilk";
import { percentile } from "../../../../lib/summary/percentile";
import reference from "../../../reference/capability.json";
import furnace from "../../../reference/furnace-film-thickness.json";
import microwave from "../../../reference/microwave-radiation.json";
import resistivity from "../../../reference/resistivity-percentiles.json";

type Fit = {
  parameters: Record<string, number>;
  logLikelihood: number;
  percentileIndices: {
    quantileBelow: number;
    median: number;
    quantileAbove: number;
    Pp?: number;
    PpkUpper?: number;
    PpkLower?: number;
    Ppk: number;
  };
  expectedOutside: { below: number; above: number };
  andersonDarlingStatistic: number;
};
type Case = {
  id: string;
  input: {
    values: number[] | null;
    subgroups: number[][] | null;
    lowerLimit: number | null;
    upperLimit: number | null;
  };
  expected: {
    shapiroWilk: { statistic: number; pValue: number };
    fittedDistributions?: Record<string, Fit>;
    boxCox?: {
      lambda: number;
      profileLogLikelihood: number;
      transformedMean: number;
      transformedStandardDeviation: number;
      transformedLower: number | null;
      transformedUpper: number | null;
      indices: { Pp?: number; Ppl?: number; Ppu?: number; Ppk: number };
    };
  };
};

const NAMES: Record<string, ModelName> = {
  lognormal: "lognormal",
  weibull: "weibull",
  rayleigh: "rayleigh",
  foldedNormal: "folded-normal",
};

/** The file asks for 1e-6 of fitted figures and 1e-5 of fractions, since its own two programs differ by as much. */
const FITTED = 1e-6;
const FRACTION = 1e-5;

function agree(ours: number | null | undefined, theirs: number, relative: number): void {
  expect(ours).not.toBeNull();
  expect(Math.abs(ours! - theirs)).toBeLessThanOrEqual(relative * Math.abs(theirs));
}

const cases = reference.cases as unknown as Case[];
const valuesOf = ({ input }: Case) => input.values ?? input.subgroups!.flat();

describe(`computed independently: ${reference.source}`, () => {
  for (const one of cases) {
    const { id, input, expected } = one;
    const values = valuesOf(one);
    const tolerance = { lower: input.lowerLimit, upper: input.upperLimit };

    test(`${id}: Shapiro-Wilk`, () => {
      const ours = shapiroWilk(values);
      if (!ours.ok || ours.value === null) throw new Error("no Shapiro-Wilk");
      expect(Math.abs(ours.value.W - expected.shapiroWilk.statistic)).toBeLessThan(1e-6);
      expect(Math.abs(ours.value.p - expected.shapiroWilk.pValue)).toBeLessThan(1e-5);
    });

    for (const [theirName, fit] of Object.entries(expected.fittedDistributions ?? {})) {
      test(`${id}: ${theirName}`, () => {
        const model = MODELS[NAMES[theirName]!];
        const fitted = model.fit(values);
        if (!fitted.ok) throw new Error(fitted.problem.code);
        for (const [name, value] of Object.entries(fit.parameters)) {
          agree(fitted.value[name], value, FITTED);
        }
        agree(logLikelihood(model, fitted.value, values), fit.logLikelihood, 1e-8);

        const distribution = model.distribution(fitted.value);
        const quantiles = quantilesOf(distribution);
        agree(quantiles.below, fit.percentileIndices.quantileBelow, FITTED);
        agree(quantiles.median, fit.percentileIndices.median, FITTED);
        agree(quantiles.above, fit.percentileIndices.quantileAbove, FITTED);
        const indices = percentileIndices({ quantiles, tolerance });
        for (const [ours, theirs] of [
          ["Pp", "Pp"],
          ["Ppl", "PpkLower"],
          ["Ppu", "PpkUpper"],
          ["Ppk", "Ppk"],
        ] as const) {
          const expectedIndex = fit.percentileIndices[theirs];
          if (expectedIndex === undefined) expect(indices[ours]).toBeNull();
          else agree(indices[ours], expectedIndex, FITTED);
        }
        if (tolerance.lower !== null) {
          agree(distribution.cdf(tolerance.lower), fit.expectedOutside.below, FRACTION);
        }
        if (tolerance.upper !== null) {
          agree(distribution.upperTail(tolerance.upper), fit.expectedOutside.above, FRACTION);
        }
        const sorted = [...values].sort((a, b) => a - b);
        agree(andersonDarlingStatistic(sorted, distribution), fit.andersonDarlingStatistic, FITTED);
      });
    }

    const theirs = expected.boxCox;
    if (theirs) {
      test(`${id}: Box-Cox`, () => {
        const ours = boxCox(values, { confidence: 0.95 });
        if (!ours.ok) throw new Error(ours.problem.code);
        expect(Math.abs(ours.value.lambda - theirs.lambda)).toBeLessThan(1e-4);
        agree(ours.value.logLikelihood, theirs.profileLogLikelihood, 1e-8);
        agree(ours.value.mean, theirs.transformedMean, 1e-4);
        agree(ours.value.standardDeviation, theirs.transformedStandardDeviation, 1e-4);
        const image = boxCoxTolerance(tolerance, ours.value.lambda);
        for (const [limit, expectedLimit] of [
          [image.lower, theirs.transformedLower],
          [image.upper, theirs.transformedUpper],
        ] as const) {
          if (expectedLimit === null) expect(limit).toBeNull();
          else agree(limit, expectedLimit, 1e-4);
        }
        const indices = capabilityIndices({
          mean: ours.value.mean,
          sdOverall: ours.value.standardDeviation,
          sigmaWithin: null,
          tolerance: image,
          target: null,
          naturalBound: null,
        });
        if (!indices.ok) throw new Error(indices.problem.code);
        for (const name of ["Pp", "Ppl", "Ppu", "Ppk"] as const) {
          const expectedIndex = theirs.indices[name];
          if (expectedIndex === undefined) expect(indices.value[name]).toBeNull();
          else agree(indices.value[name], expectedIndex, 1e-4);
        }
      });
    }
  }
});

describe(`published: ${microwave.source}`, () => {
  test("λ to the printed digits", () => {
    const ours = boxCox(microwave.data.values, { confidence: 0.95 });
    if (!ours.ok) throw new Error(ours.problem.code);
    // Printed 0.3 in steps of 0.1 and 0.28 in steps of 0.01.
    const [oneDigit, twoDigits] = microwave.printed.map((one) => one.printed);
    expect(Math.abs(ours.value.lambda - oneDigit!)).toBeLessThan(0.05);
    expect(Math.abs(ours.value.lambda - twoDigits!)).toBeLessThan(0.005);
  });

  test("λ, interval and likelihood as recomputed independently", () => {
    const ours = boxCox(microwave.data.values, { confidence: 0.95 });
    if (!ours.ok) throw new Error(ours.problem.code);
    const known = Object.fromEntries(microwave.recomputed.map(({ name, value }) => [name, value]));
    // Found there as the top of a flat likelihood, which gives half of the digits.
    expect(ours.value.lambda).toBeCloseTo(known.lambda as number, 7);
    const interval = known["95% likelihood interval"] as number[];
    // The passport gives four decimals.
    expect(ours.value.interval[0]).toBeCloseTo(interval[0]!, 4);
    expect(ours.value.interval[1]).toBeCloseTo(interval[1]!, 4);
  });
});

describe(`published: ${resistivity.source}`, () => {
  const printed = (name: string) => resistivity.printed.find((one) => one.name.includes(name))!.printed;

  test.each([
    ["n-plus-one", "type 6"],
    ["n-minus-one", "type 7"],
    ["median-unbiased", "type 8"],
  ] as const)("90th percentile, %s", (rule, name) => {
    // Printed to four decimals.
    expect(Math.abs(percentile(resistivity.data.values, { p: 0.9, rule }) - printed(name))).toBeLessThan(
      5e-5,
    );
  });
});

describe(`published: ${furnace.source}`, () => {
  const values = furnace.data.thickness_angstrom;
  const printed = (name: string) => furnace.printed.find((one) => one.name === name)!.printed as number;
  const at = (p: number) => percentile(values, { p, rule: "n-plus-one" });

  test.each([
    ["97.5%", 0.975],
    ["90%", 0.9],
    ["upper quartile", 0.75],
    ["median", 0.5],
    ["lower quartile", 0.25],
    ["10%", 0.1],
    ["2.5%", 0.025],
  ])("%s", (name, p) => {
    // Printed to two decimals; 514.225 is printed as 514.23, half a unit away.
    expect(Math.abs(at(p) - printed(name))).toBeLessThan(0.005 + 1e-9);
  });

  test("Cnpk, by the 0.5 and 99.5 % points of the readings", () => {
    const indices = percentileIndices({
      quantiles: { below: at(0.005), median: at(0.5), above: at(0.995) },
      tolerance: { lower: printed("LSL"), upper: printed("USL") },
    });
    // Printed to five decimals.
    expect(Math.abs(indices.Ppk! - printed("Cnpk"))).toBeLessThan(5e-6);
  });
});

describe("p of Anderson-Darling with estimated parameters, against published critical values", () => {
  // M. A. Stephens in Goodness-of-Fit Techniques (1986), tables 4.11 and 4.17 (from memory): A² of the exponential
  // distribution with estimated scale times 1 + 0.6/n, of the extreme value distribution with both estimated times
  // 1 + 0.2/√n. x² of a Rayleigh x is exponential, ln x of a Weibull x has an extreme value distribution.
  const critical = [
    { name: "rayleigh", p: 0.1, A2: 1.062, factor: (n: number) => 1 + 0.6 / n },
    { name: "rayleigh", p: 0.05, A2: 1.321, factor: (n: number) => 1 + 0.6 / n },
    { name: "weibull", p: 0.1, A2: 0.637, factor: (n: number) => 1 + 0.2 / Math.sqrt(n) },
    { name: "weibull", p: 0.05, A2: 0.757, factor: (n: number) => 1 + 0.2 / Math.sqrt(n) },
  ] as const;
  const replicates = 4000;
  const values = valuesOf(cases.find(({ id }) => id === "position-deviation-80")!);

  test.each(critical)("$name at $p", async ({ name, p, A2, factor }) => {
    const { parametricBootstrap } = await import("../../../../lib/capability/models/bootstrap");
    const model = MODELS[name];
    const fitted = model.fit(values);
    if (!fitted.ok) throw new Error(fitted.problem.code);
    let beyond = 0;
    parametricBootstrap(
      { model, parameters: fitted.value, count: values.length, replicates, seed: 11 },
      ({ sorted, parameters }) => {
        const seen = andersonDarlingStatistic(sorted, model.distribution(parameters));
        if (seen * factor(values.length) > A2) beyond++;
      },
    );
    // Four standard errors of a simulated fraction.
    expect(Math.abs(beyond / replicates - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / replicates));
  });

  test("the lognormal's p is that of the normal test on ln x", () => {
    const lognormal = fitModel("lognormal", [1, 2, 4, 8, 3.3, 2.1, 5.2, 1.7]);
    const normal = fitModel("normal", [1, 2, 4, 8, 3.3, 2.1, 5.2, 1.7].map(Math.log));
    if (!lognormal.ok || !normal.ok) throw new Error("not fitted");
    expect(lognormal.value.p).toBe(normal.value.p);
  });
});
