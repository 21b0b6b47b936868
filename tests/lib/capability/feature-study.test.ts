import { describe, expect, test } from "vitest";
import { type FeatureStudyInput, featureStudy, WHOLE_HISTORY } from "../../../lib/capability/feature-study";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import type { ChartKind, Tolerance } from "../../../lib/plan/feature-plan";
import reference from "../../reference/capability.json";
import { HOUR, START, seriesOf } from "../series-of";

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
    withinSigma: Record<string, number>;
    indicesByWithinSigma: Record<string, { Cpk?: number }>;
    overallIndices: { Ppk?: number };
    confidenceIntervals: { confidence: number; PpkBissellLowerOneSided: number };
  };
};

const cases = reference.cases as unknown as Case[];

function setupOf({
  chart,
  size = 1,
  tolerance,
  ...rest
}: {
  chart: ChartKind;
  size?: number;
  tolerance: Tolerance;
} & Partial<EvaluationSetup>): EvaluationSetup {
  return {
    plan: {
      chart,
      subgroupSize: size,
      rules: ["beyond-3s", "eight-one-side"],
      tolerance,
      target: null,
      naturalBound: null,
      reduction: null,
    },
    unit: "mm",
    versions: [],
    exclusions: [],
    ...rest,
  };
}

const study = (input: Pick<FeatureStudyInput, "series" | "setup"> & Partial<FeatureStudyInput>) =>
  featureStudy({ window: WHOLE_HISTORY, resolution: null, gaugeShare: null, confidence: 0.95, ...input });

describe("by hand", () => {
  // Two subgroups of two: means 2 and 6, ranges 2 and 2.
  const setup = setupOf({ chart: "xbar-r", size: 2, tolerance: { lower: 0, upper: 10 } });

  test("overall figures take every reading, also the one that waits for its subgroup", () => {
    const found = study({ series: seriesOf([1, 3, 5, 7, 9]), setup });
    expect([found.study.count, found.study.mean, found.subgroups]).toEqual([5, 5, 2]);
    expect(found.study.sdOverall).toBeCloseTo(Math.sqrt(10), 12);
    // d2 of two readings is 2/√π, and the mean range is 2.
    expect(found.study.sigmaWithin).toBeCloseTo(Math.sqrt(Math.PI), 12);
    expect(found.study.estimator).toBe("mean-range");
  });

  test("a window goes by the last reading of a subgroup", () => {
    const series = seriesOf([1, 3, 5, 7, 9]);
    const window = { from: START + 3 * HOUR, to: START + 3 * HOUR, lots: null };
    const found = study({ series, setup, window });
    expect([...found.values]).toEqual([5, 7]);
    expect([found.firstAt, found.lastAt]).toEqual([START + 2 * HOUR, START + 3 * HOUR]);
    expect(found.limits).toEqual({ ok: false, problem: { code: "too-few-subgroups", needed: 2, got: 1 } });
    expect([found.study.Cpk, found.study.sigmaWithin]).toEqual([null, null]);
  });

  test("left-out subgroups count neither for the figures nor for the signals", () => {
    const exclusions = [{ from: START + 3 * HOUR, to: START + 3 * HOUR, cause: "chip under the probe" }];
    const found = study({ series: seriesOf([1, 3, 5, 7, 2, 4]), setup: { ...setup, exclusions } });
    expect([...found.values]).toEqual([1, 3, 2, 4]);
    expect([found.excludedReadings, found.subgroups]).toEqual([2, 2]);
  });

  test("chosen lots: a subgroup of two lots gives its readings but no range", () => {
    const series = seriesOf([1, 3, 5, 7, 2, 4], { lot: [1, 1, 1, 2, 2, 2] });
    const found = study({ series, setup, window: { from: null, to: null, lots: new Set([1]) } });
    expect([...found.values]).toEqual([1, 3, 5]);
    expect([found.subgroups, found.lots]).toEqual([1, 1]);
  });

  test("a piece measured twice is one piece; without lots their number is not known", () => {
    const series = seriesOf([1, 3, 5, 7], { piece: [1, 1, 2, 0] });
    const found = study({ series, setup });
    expect([found.pieces, found.lots]).toEqual([3, null]);
    expect(found.study.gates.find(({ gate }) => gate === "enough")?.reason).toContain("3 of 100 pieces");
  });

  test("a lasting run counts as one unresolved signal", () => {
    // Limits 0 ± 3 from a frozen version; ten readings above 0: the run of 8 is complete at the 8th, 9th, 10th.
    const versions = [
      { version: 1, effectiveFrom: 0, chart: "i-mr" as const, centre: 0, sigma: 1, estimator: "x" },
    ];
    const above = [0.5, 2.5, 2.4, 0.5, 2.5, 2.4, 0.5, 2.5, 2.4, 0.5];
    const runs = setupOf({ chart: "i-mr", tolerance: { lower: -9, upper: 9 }, versions });
    expect(study({ series: seriesOf(above), setup: runs }).unresolvedSignals).toBe(1);
    const two = study({ series: seriesOf([...above, 3.5]), setup: runs });
    expect(two.unresolvedSignals).toBe(2);
    expect(two.study.claim).toContain("2 unresolved signals");
  });
});

describe(`computed independently: ${reference.source}`, () => {
  test.each(cases.filter(({ input }) => input.subgroups))("$id: X̄-R and X̄-s", ({ input, expected }) => {
    const size = input.subgroups![0]!.length;
    const tolerance = { lower: input.lowerLimit, upper: input.upperLimit };
    for (const [chart, name] of [
      ["xbar-r", "meanRangeOverD2"],
      ["xbar-s", "meanStandardDeviationOverC4"],
    ] as const) {
      const setup = setupOf({ chart, size, tolerance });
      const found = study({ series: seriesOf(input.subgroups!.flat()), setup }).study;
      expect(relative(found.sigmaWithin!, expected.withinSigma[name]!)).toBeLessThan(1e-11);
      expect(relative(found.Cpk!, expected.indicesByWithinSigma[name]!.Cpk!)).toBeLessThan(1e-11);
      expect(relative(found.Ppk!, expected.overallIndices.Ppk!)).toBeLessThan(1e-11);
    }
  });

  test.each(cases.filter(({ input }) => input.values))("$id: single readings", ({ input, expected }) => {
    const tolerance = { lower: input.lowerLimit, upper: input.upperLimit };
    const series = seriesOf(input.values!);
    const found = study({ series, setup: setupOf({ chart: "i-mr", tolerance }) }).study;
    const cpk = expected.indicesByWithinSigma.meanMovingRangeOverD2!.Cpk;
    expect(relative(found.Cpk!, cpk!)).toBeLessThan(1e-11);
    expect(relative(found.Ppk!, expected.overallIndices.Ppk!)).toBeLessThan(1e-11);
    if (input.lowerLimit !== null && input.upperLimit !== null) {
      const bound = expected.confidenceIntervals.PpkBissellLowerOneSided;
      expect(relative(found.lowerBounds.Ppk!, bound)).toBeLessThan(1e-11);
    }
  });
});

describe("law", () => {
  const values = cases.find(({ id }) => id === "subgroups-25-by-5")!.input.subgroups!.flat();
  const tolerance = { lower: 11.96, upper: 12.04 };

  test("shifting and scaling readings and tolerance together changes no index", () => {
    const scaled = values.map((value) => -3 + 25.4 * value);
    const inMm = study({
      series: seriesOf(scaled),
      setup: setupOf({
        chart: "xbar-r",
        size: 5,
        tolerance: { lower: -3 + 25.4 * 11.96, upper: -3 + 25.4 * 12.04 },
      }),
    }).study;
    const plain = study({
      series: seriesOf(values),
      setup: setupOf({ chart: "xbar-r", size: 5, tolerance }),
    });
    for (const name of ["Cp", "Cpk", "Pp", "Ppk"] as const) {
      expect(relative(inMm[name]!, plain.study[name]!)).toBeLessThan(1e-10);
    }
  });

  test("reduction to 20 °C: parts 5 K warm of 100 mm in steel read 5.75 µm less", () => {
    // 11.5e-6/K · 100 mm · 5 K.
    const setup = setupOf({ chart: "xbar-r", size: 5, tolerance });
    const reduced = { ...setup, plan: { ...setup.plan, reduction: { length: 100, expansion: 11.5e-6 } } };
    const series = seriesOf(values, { partTemp: values.map(() => 25) });
    const [raw, at20] = [study({ series, setup }).study, study({ series, setup: reduced }).study];
    expect(raw.mean! - at20.mean!).toBeCloseTo(0.00575, 12);
  });
});

describe("edge", () => {
  const setup = setupOf({ chart: "xbar-r", size: 2, tolerance: { lower: 0, upper: 10 } });

  test("nothing measured", () => {
    const found = study({ series: seriesOf([]), setup });
    expect([found.study.count, found.firstAt, found.lots]).toEqual([0, null, null]);
    expect(found.study.claim).toBe("No index yet: 0 of at least 2 readings.");
  });

  test("no variation never becomes infinite", () => {
    const found = study({ series: seriesOf([5, 5, 5, 5, 5, 5]), setup });
    expect(found.study.claim).toContain("no variation at this resolution");
    expect(Object.values(found.study).filter((value) => value === Number.POSITIVE_INFINITY)).toEqual([]);
    const withinOnly = study({ series: seriesOf([5, 5, 6, 6]), setup });
    expect([withinOnly.study.sigmaWithin, withinOnly.study.Cpk]).toEqual([0, null]);
    expect(withinOnly.study.Ppk).toBeGreaterThan(0);
  });
});

function relative(ours: number, theirs: number): number {
  return Math.abs(ours - theirs) / Math.abs(theirs);
}
