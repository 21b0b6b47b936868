import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { drawnFor, parametricBootstrap, percentileBounds } from "../../../../lib/capability/models/bootstrap";
import { boxCox, boxCoxTolerance, boxCoxTransform } from "../../../../lib/capability/models/box-cox";
import { candidatesFor, chooseModel } from "../../../../lib/capability/models/choose-model";
import { fitModel } from "../../../../lib/capability/models/fitted-model";
import { MODEL_NAMES, type ModelName } from "../../../../lib/capability/models/model";
import { bootstrapIndexBounds } from "../../../../lib/capability/models/model-study";
import { MODELS } from "../../../../lib/capability/models/models";
import { percentileIndices, quantilesOf } from "../../../../lib/capability/models/percentile-indices";
import { shapiroWilk } from "../../../../lib/capability/shapiro-wilk";
import { capabilityStudy, type StudyInput } from "../../../../lib/capability/study";
import { InvalidInput } from "../../../../lib/checks";
import type { Computed } from "../../../../lib/computed";
import { randomStream } from "../../../../lib/random/random-stream";
import { percentile } from "../../../../lib/summary/percentile";
import reference from "../../../reference/capability.json";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

type Case = { id: string; input: { values: number[]; upperLimit: number } };
const sample = (id: string) => (reference.cases as unknown as Case[]).find((one) => one.id === id)!.input;

/** What the parameters are when readings are multiplied by c. */
const SCALED: Record<ModelName, (p: Record<string, number>, c: number) => Record<string, number>> = {
  normal: (p, c) => ({ mean: p.mean! * c, standardDeviation: p.standardDeviation! * c }),
  lognormal: (p, c) => ({ ...p, logMean: p.logMean! + Math.log(c) }),
  weibull: (p, c) => ({ ...p, scale: p.scale! * c }),
  rayleigh: (p, c) => ({ scale: p.scale! * c }),
  "folded-normal": (p, c) => ({ location: p.location! * c, scale: p.scale! * c }),
  "box-cox": (p, c) => ({ ...p, geometricMean: p.geometricMean! * c }),
};

/** Up to the accuracy of a root found in doubles. */
const agree = (ours: Record<string, number>, theirs: Record<string, number>, relative = 1e-7) => {
  for (const [name, value] of Object.entries(theirs)) {
    expect(Math.abs(ours[name]! - value), name).toBeLessThanOrEqual(
      relative * Math.max(1e-12, Math.abs(value)),
    );
  }
};

describe("fits", () => {
  test("by hand: Rayleigh of 3 and 4 has s² = 25/4", () => {
    expect(found(MODELS.rayleigh.fit([3, 4])).scale).toBeCloseTo(2.5, 14);
  });

  test("by hand: lognormal of 1 and e² has mean 1 and, with n below, deviation 1 of the logarithms", () => {
    const { logMean, logStandardDeviation } = found(MODELS.lognormal.fit([1, Math.E ** 2]));
    expect(logMean).toBeCloseTo(1, 14);
    expect(logStandardDeviation).toBeCloseTo(1, 14);
  });

  test.each(MODEL_NAMES)("law: %s follows the unit, and does not mind the order", (name) => {
    const stream = randomStream(3, name);
    const values = Array.from({ length: 40 }, () => 0.3 + Math.abs(stream.normal()));
    const fitted = found(MODELS[name].fit(values));
    for (const c of [0.001, 25.4]) {
      agree(found(MODELS[name].fit(values.map((x) => c * x))), SCALED[name](fitted, c));
    }
    agree(found(MODELS[name].fit(values.toReversed())), fitted);
  });

  test.each(["weibull", "folded-normal"] as const)("law: no neighbour of the %s fit is likelier", (name) => {
    const values = sample("runout-folded-normal-90").values;
    const model = MODELS[name];
    const fitted = found(model.fit(values));
    const likelihood = (parameters: Record<string, number>) =>
      values.reduce((sum, x) => sum + model.distribution(parameters).logDensity(x), 0);
    for (const parameter of Object.keys(fitted)) {
      for (const factor of [0.99, 1.01]) {
        const moved = { ...fitted, [parameter]: fitted[parameter]! * factor };
        expect(likelihood(moved)).toBeLessThan(likelihood(fitted));
      }
    }
  });

  test("law: many readings drawn from a model give it back within four standard errors", () => {
    const truth = { shape: 1.8, scale: 0.03 };
    const values = Array.from(
      { length: 20_000 },
      (
        (stream) => () =>
          MODELS.weibull.draw(truth, stream)
      )(randomStream(5, "w")),
    );
    const fitted = found(MODELS.weibull.fit(values));
    // Standard error of the shape 0.78 k/√n, of the scale 1.05 λ/(k√n) (Cohen 1965, from memory).
    expect(Math.abs(fitted.shape! - 1.8)).toBeLessThan((4 * 0.78 * 1.8) / Math.sqrt(20_000));
    expect(Math.abs(fitted.scale! - 0.03)).toBeLessThan((4 * 1.05 * 0.03) / (1.8 * Math.sqrt(20_000)));
  });

  test("edge: a heavy tail folds about 0; a point mass has no fit; a reading at or below zero is named", () => {
    expect(found(MODELS["folded-normal"].fit([0.1, 0.1, 0.2, 0.2, 0.3, 5])).location).toBe(0);
    for (const name of MODEL_NAMES) {
      if (name === "rayleigh") continue;
      expect(MODELS[name].fit([2, 2, 2]).ok, name).toBe(false);
    }
    expect(MODELS.weibull.fit([1, 0, 2])).toEqual({ ok: false, problem: { code: "not-positive", least: 0 } });
    expect(MODELS["folded-normal"].fit([1, 0, 2]).ok).toBe(true);
    expect(MODELS.rayleigh.fit([1, -0.5]).ok).toBe(false);
    expect(MODELS.lognormal.fit([1])).toEqual({
      ok: false,
      problem: { code: "too-few-readings", needed: 2, got: 1 },
    });
  });
});

describe("percentile indices", () => {
  test("law: of a normal distribution they are the usual ones", () => {
    const quantiles = quantilesOf(MODELS.normal.distribution({ mean: 10, standardDeviation: 0.02 }));
    const indices = percentileIndices({ quantiles, tolerance: { lower: 9.9, upper: 10.08 } });
    expect(indices.Pp).toBeCloseTo(1.5, 10);
    expect(indices.Ppl).toBeCloseTo(0.1 / 0.06, 10);
    expect(indices.Ppk).toBeCloseTo(0.08 / 0.06, 10);
  });
});

describe("choice", () => {
  test("the kind comes first: a Rayleigh sample of a position stays Rayleigh though others fit better", () => {
    const { values } = sample("position-deviation-80");
    const { chosen, tried, isSettled } = found(
      chooseModel(values, { candidates: candidatesFor("position", 0), significance: 0.05 }),
    );
    expect([chosen.model, isSettled, tried.length]).toEqual(["rayleigh", true, 1]);
    expect(found(fitModel("weibull", values)).A2).toBeLessThan(chosen.A2);
  });

  test("the fit comes second: a Rayleigh that is rejected makes room for the next", () => {
    const { values } = sample("runout-folded-normal-90");
    const { chosen, tried } = found(
      chooseModel(values, { candidates: ["rayleigh", "folded-normal"], significance: 0.05 }),
    );
    expect(chosen.model).toBe("folded-normal");
    expect(tried[0]!.p).toBeLessThan(0.05);
  });

  test("nothing fits two clusters: the best is named and not settled", () => {
    const values = Array.from({ length: 60 }, (_, i) => (i % 2 === 0 ? 1 : 9) + i / 1000);
    const made = found(chooseModel(values, { candidates: ["normal", "weibull"], significance: 0.05 }));
    expect(made.isSettled).toBe(false);
    expect(made.tried).toHaveLength(2);
  });

  test("a natural bound rules the normal model out", () => {
    expect(candidatesFor("size", 0)).not.toContain("normal");
    expect(candidatesFor("size", null)[0]).toBe("normal");
    expect(candidatesFor(null, null)[0]).toBe("normal");
  });

  test("coarse readings: the grid is not blamed on the model", () => {
    const stream = randomStream(9, "coarse");
    const truth = { scale: 0.02 };
    const values = Array.from(
      { length: 300 },
      () => Math.round(MODELS.rayleigh.draw(truth, stream) * 100) / 100,
    );
    expect(values).toContain(0);
    const { p, spreadOverGrid } = found(fitModel("rayleigh", values));
    expect(p).toBeLessThan(0.05);
    expect(spreadOverGrid!.p).toBeGreaterThan(0.05);
  });
});

describe("bootstrap", () => {
  test("the same seed gives the same bounds, another one others", () => {
    const { values, upperLimit } = sample("position-deviation-80");
    const fit = found(fitModel("rayleigh", values, { replicates: 1 }));
    const bounds = (seed: number) =>
      bootstrapIndexBounds({
        fit,
        count: 80,
        tolerance: { lower: null, upper: upperLimit },
        confidence: 0.95,
        seed,
        replicates: 200,
      });
    expect(bounds(1)).toEqual(bounds(1));
    expect(bounds(1).lowerBounds.Ppk).not.toBe(bounds(2).lowerBounds.Ppk);
    expect(bounds(1).intervals.Pp).toBeNull();
  });

  test("law: bounds of the Rayleigh's Ppu agree with the exact ones, by chi-square", () => {
    // 2n·ŝ²/s² is chi-square with 2n degrees of freedom, and Ppu = (U/s − m)/(q − m) with m, q the quantiles at s = 1.
    const fit = found(fitModel("rayleigh", sample("position-deviation-80").values, { replicates: 1 }));
    const scale = fit.parameters.scale!;
    const { median, above } = quantilesOf(MODELS.rayleigh.distribution({ scale: 1 }));
    const replicates = 4000;
    const { lowerBounds } = bootstrapIndexBounds({
      fit,
      count: 80,
      tolerance: { lower: null, upper: 0.1 },
      confidence: 0.95,
      replicates,
      seed: 4,
    });
    // scipy 1.17.1: chi2.ppf(0.95, 160) = 190.516461; the replicate with the largest ŝ has the least index.
    const largest = scale * Math.sqrt(190.516461 / 160);
    const exact = (0.1 / largest - median) / (above - median);
    // The 5 % point of 4000 replicates has a standard error of √(0.05·0.95/4000)/density: some 0.4 % of the index.
    expect(Math.abs(lowerBounds.Ppk! / exact - 1)).toBeLessThan(4 * 0.004);
  });

  test("law: bounds close in as 1/√n, also where a large sample is studied on fewer readings", () => {
    const fit = found(fitModel("rayleigh", sample("position-deviation-80").values, { replicates: 1 }));
    const width = (count: number) => {
      const tolerance = { lower: null, upper: 0.1 };
      const [low, high] = bootstrapIndexBounds({ fit, count, tolerance, confidence: 0.95 }).intervals.Ppk!;
      return high - low;
    };
    expect(drawnFor(10_000)).toEqual({ drawn: 400, shrink: 0.2 });
    expect(drawnFor(80)).toEqual({ drawn: 80, shrink: 1 });
    // Widths of two independent bootstraps of 999 differ by some 5 %, one standard error.
    expect(Math.abs((width(40_000) * 20) / width(100) - 1)).toBeLessThan(0.2);
  });
});

describe("the study", () => {
  const { values, upperLimit } = sample("position-deviation-80");
  const input: StudyInput = {
    values,
    sigmaWithin: 0.01,
    degreesOfFreedomWithin: 60,
    estimator: "mean-range",
    subgroups: 25,
    lots: 4,
    unresolvedSignals: 0,
    tolerance: { lower: 0, upper: upperLimit },
    target: null,
    naturalBound: 0,
    resolution: null,
    gaugeShare: 0.08,
    confidence: 0.95,
    pieces: 120,
  };

  test("on the kind's model: P indices by its percentiles, no C indices, the gate names it", () => {
    const study = capabilityStudy({ ...input, model: "auto", kind: "position" });
    // The value of the independent computation, tests/reference/capability.json.
    expect(study.Ppk).toBeCloseTo(1.4253040160044315, 6);
    expect([study.model, study.Cpk, study.Cp, study.Ppl]).toEqual(["rayleigh", null, null, null]);
    expect(study.expectedOutside.above! / 1.7482905506070563e-5 - 1).toBeCloseTo(0, 5);
    const gate = study.gates.find((one) => one.gate === "distribution")!;
    expect(gate.passed).toBe(true);
    expect(gate.reason).toContain("a Rayleigh distribution");
    expect(study.gates.some((one) => one.gate === "normal")).toBe(false);
    expect(study.claim).toMatch(
      /^Ppk 1\.43, at least 1\.\d\d with 95 % confidence by a Rayleigh distribution, /,
    );
  });

  test("the normal model stays what it was, asked for or not", () => {
    expect(capabilityStudy({ ...input, model: "normal" })).toEqual(capabilityStudy(input));
    expect(capabilityStudy(input).modelStudy).toBeNull();
  });

  test("a model that does not fit turns the claim into performance", () => {
    const study = capabilityStudy({
      ...input,
      values: sample("runout-folded-normal-90").values,
      model: "rayleigh",
    });
    expect(study.gates.find((one) => one.gate === "distribution")!.passed).toBe(false);
    expect(study.claim).toMatch(/^Not presentable as capability: .*does not fit a Rayleigh distribution/);
  });

  test("a model that cannot be fitted gives no index, and says why", () => {
    const study = capabilityStudy({ ...input, values: [...values, 0], model: "weibull" });
    expect([study.Ppk, study.model, study.modelStudy]).toEqual([null, "weibull", null]);
    expect(study.claim).toContain("starts at zero");
  });
});

describe("Box-Cox", () => {
  test("law: a power of normal scores is found as that power", () => {
    // x = (1 + 0.5 y)² with normal scores y is a Box-Cox power of one half.
    const scores = Array.from({ length: 99 }, (_, i) => quantilesOfNormal((i + 1) / 100));
    const values = scores.map((y) => (5 + 0.5 * y) ** 2);
    const { lambda, interval } = found(boxCox(values, { confidence: 0.95 }));
    // Evenly spaced scores lack a sample's tails, which pulls λ a little; a tenth of the interval's width is far less.
    expect(Math.abs(lambda - 0.5)).toBeLessThan((interval[1] - interval[0]) / 10);
    expect(interval[0]).toBeLessThan(0.5);
    expect(interval[1]).toBeGreaterThan(0.5);
  });

  test("law: the unit changes no power", () => {
    const { values } = sample("skewed-lognormal-100");
    const one = found(boxCox(values, { confidence: 0.9 }));
    const other = found(
      boxCox(
        values.map((x) => 25.4 * x),
        { confidence: 0.9 },
      ),
    );
    expect(other.lambda).toBeCloseTo(one.lambda, 9);
    expect(other.interval[1]).toBeCloseTo(one.interval[1], 9);
  });

  test("edge: λ = 0 is the logarithm; a limit at zero has no image", () => {
    expect(boxCoxTransform(5, 0)).toBe(Math.log(5));
    expect(boxCoxTransform(5, 1e-9)).toBeCloseTo(Math.log(5), 7);
    expect(boxCoxTolerance({ lower: 0, upper: 1 }, 0.5)).toEqual({ lower: null, upper: 0 });
  });
});

const quantilesOfNormal = MODELS.normal.distribution({ mean: 0, standardDeviation: 1 }).quantile;

describe("Shapiro-Wilk", () => {
  test("by hand: three readings in even steps lie on a line, W = 1", () => {
    expect(found(shapiroWilk([1, 2, 3]))!.W).toBeCloseTo(1, 14);
  });

  test("edge: too few, all alike, more than the approximation was made for", () => {
    expect(shapiroWilk([1, 2]).ok).toBe(false);
    expect(shapiroWilk([1, 1, 1]).ok).toBe(false);
    expect(found(shapiroWilk(Array.from({ length: 5001 }, (_, i) => i)))).toBeNull();
  });
});

describe("percentile", () => {
  test("law: between the extremes, rising in p, and the extremes at the ends", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 1 }), (values) => {
        const at = (p: number) => percentile(values, { p, rule: "n-plus-one" });
        expect(at(0) === Math.min(...values)).toBe(true);
        expect(at(1) === Math.max(...values)).toBe(true);
        expect(at(0.3)).toBeLessThanOrEqual(at(0.6));
      }),
    );
  });
});

describe("bad input", () => {
  test.each([
    ["a reading that is not a number", () => fitModel("weibull", [1, Number.NaN, 2])],
    [
      "quantiles that do not rise",
      () =>
        percentileIndices({
          quantiles: { below: 2, median: 1, above: 3 },
          tolerance: { lower: null, upper: 4 },
        }),
    ],
    [
      "swapped limits",
      () =>
        percentileIndices({
          quantiles: { below: 1, median: 2, above: 3 },
          tolerance: { lower: 5, upper: 4 },
        }),
    ],
    ["a power of nothing", () => boxCoxTransform(0, 1)],
    ["certainty", () => boxCox([1, 2, 3], { confidence: 1 })],
    ["a percentile of nothing", () => percentile([], { p: 0.5, rule: "n-plus-one" })],
    ["a percentile beyond all", () => percentile([1], { p: 1.5, rule: "n-plus-one" })],
    ["bounds of nothing", () => percentileBounds([], 0.95)],
    ["no confidence", () => percentileBounds([1], 0)],
    [
      "half a reading",
      () =>
        parametricBootstrap(
          { model: MODELS.rayleigh, parameters: { scale: 1 }, count: 2.5, replicates: 10, seed: 1 },
          () => {},
        ),
    ],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
