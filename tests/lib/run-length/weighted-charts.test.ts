import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { absorptionTimes } from "../../../lib/run-length/absorption";
import { cusumRunLength, oneSidedCusumRunLength } from "../../../lib/run-length/cusum";
import { type EwmaLimitsKind, ewmaRunLength } from "../../../lib/run-length/ewma";
import { individualsRunLength } from "../../../lib/run-length/individuals-moving-range";
import { runs } from "../../laws";
import table from "../../reference/average-run-lengths.json";
import exactLimits from "../../reference/ewma-exact-limits.json";
import { type Case, casesOf, expectedAt, halfUnit } from "./cases";

const ewmaOf = ({ input }: Case, shift: number) =>
  ewmaRunLength({
    smoothing: input.smoothing!,
    width: input.limitWidthInSigma!,
    limits: input.limits === "steady state" ? "steady" : "exact",
    shift,
  });

const designOf = ({ input }: Case) => ({
  reference: input.reference!,
  decisionInterval: input.decisionInterval!,
});

const relative = (got: number, expected: number) => Math.abs(got / expected - 1);

describe("absorption times", () => {
  test("by hand: heads three times running with a fair coin takes 14 throws on average", () => {
    const rows = [
      [0.5, 0.5, 0],
      [0.5, 0, 0.5],
      [0.5, 0, 0],
    ].map((row) => Float64Array.from(row));
    const times = absorptionTimes(rows, Float64Array.of(0, 0, 0.5));
    expect(Array.from(times)).toEqual([14, 12, 8]);
  });
});

describe("EWMA", () => {
  test.each(casesOf("ewma-average-run-length"))("computed independently: $id", (one) => {
    for (const { shift, value } of expectedAt(one, "averageRunLength")) {
      expect(relative(ewmaOf(one, shift), value), `shift ${shift}`).toBeLessThan(one.tolerance.relative!);
    }
  });

  test.each(casesOf("ewma-average-run-length-simulated"))("computed independently: $id", (one) => {
    for (const [i, { shift, value }] of expectedAt(one, "averageRunLength").entries()) {
      // Here the reference is off, by 4.1 of its standard errors: a simulation of ten times as many runs with
      // another seed gives 498.07 ± 0.35, and so do we. See the test below.
      if (one.id === "ewma-varying-limits-0.4-3.054" && shift === 0) continue;
      const error = one.expected.standardError![i]!;
      expect(Math.abs(ewmaOf(one, shift) - value), `shift ${shift}`).toBeLessThan(4 * error);
    }
  });

  test(`${exactLimits.source}: exact limits with λ 0.4, L 3.054, in control`, () => {
    const got = ewmaRunLength({ ...exactLimits, limits: "exact" });
    expect(Math.abs(got - exactLimits.averageRunLength)).toBeLessThan(4 * exactLimits.standardError);
  });

  test("published, from memory: Lucas and Saccucci, Technometrics 32 (1990)", () => {
    for (const one of casesOf("ewma-average-run-length")) {
      for (const { shift, value, agrees } of one.published ?? []) {
        // Four of fifty recalled values are a last place off what two programs find.
        const slack = agrees ? 1.000001 : 3;
        const difference = Math.abs(ewmaOf(one, shift) - value);
        expect(difference, `${one.id} at ${shift}`).toBeLessThanOrEqual(slack * halfUnit(value));
      }
    }
  });

  test("λ = 1 is the chart of single points, with either kind of limits", () => {
    const shifts = table.data.shifts_in_sigma;
    for (const limits of ["steady", "exact"] as EwmaLimitsKind[]) {
      shifts.forEach((shift, i) => {
        const got = ewmaRunLength({ smoothing: 1, width: 3, limits, shift });
        expect(relative(got, table.data.shewhart_3sigma[i]!)).toBeLessThan(5e-6);
      });
    }
  });

  test(`${table.title}: six printed digits`, () => {
    table.data.shifts_in_sigma.forEach((shift, i) => {
      const a = ewmaRunLength({ smoothing: 0.2, width: 2.962, limits: "steady", shift });
      const b = ewmaRunLength({ smoothing: 0.1, width: 2.814, limits: "steady", shift });
      expect(relative(a, table.data.ewma_lambda02_L2962[i]!)).toBeLessThan(5e-6);
      expect(relative(b, table.data.ewma_lambda01_L2814[i]!)).toBeLessThan(5e-6);
    });
  });

  test("law: the side does not matter; exact limits never take longer; wider limits never signal sooner", () => {
    const design = {
      smoothing: fc.double({ min: 0.05, max: 1, noNaN: true }),
      width: fc.double({ min: 1, max: 4, noNaN: true }),
    };
    fc.assert(
      fc.property(fc.record(design), fc.double({ min: 0, max: 3, noNaN: true }), (chart, shift) => {
        const steady = ewmaRunLength({ ...chart, limits: "steady", shift });
        expect(relative(ewmaRunLength({ ...chart, limits: "steady", shift: -shift }), steady)).toBeLessThan(
          1e-9,
        );
        expect(ewmaRunLength({ ...chart, limits: "exact", shift })).toBeLessThanOrEqual(steady * (1 + 1e-9));
        const wider = { ...chart, width: chart.width + 0.1 };
        expect(ewmaRunLength({ ...wider, limits: "steady", shift })).toBeGreaterThanOrEqual(
          steady * (1 - 1e-9),
        );
      }),
      { numRuns: runs(25) },
    );
  });

  test("edge: a chart that hardly ever signals has a long run length, not a negative one", () => {
    expect(ewmaRunLength({ smoothing: 0.2, width: 9, limits: "steady", shift: 0 })).toBeGreaterThan(1e15);
  });

  test.each([
    ["smoothing", { smoothing: 0, width: 3, limits: "steady" as const, shift: 0 }],
    ["smoothing", { smoothing: 1.01, width: 3, limits: "steady" as const, shift: 0 }],
    ["smoothing", { smoothing: 0.005, width: 3, limits: "exact" as const, shift: 0 }],
    ["width", { smoothing: 0.2, width: 0, limits: "steady" as const, shift: 0 }],
    ["width", { smoothing: 0.2, width: Number.NaN, limits: "steady" as const, shift: 0 }],
    ["shift", { smoothing: 0.2, width: 3, limits: "steady" as const, shift: 21 }],
    ["limits", { smoothing: 0.2, width: 3, limits: "wide" as EwmaLimitsKind, shift: 0 }],
  ])("refused: %s", (field, design) => {
    expect(() => ewmaRunLength(design)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});

describe("CUSUM", () => {
  test.each(casesOf("cusum-average-run-length"))("computed independently: $id", (one) => {
    const design = designOf(one);
    const half = design.decisionInterval / 2;
    const within = (got: number, value: number) =>
      expect(relative(got, value)).toBeLessThan(one.tolerance.relative!);
    for (const { shift, value } of expectedAt(one, "twoSidedAverageRunLength")) {
      within(cusumRunLength({ ...design, headStart: 0, shift }), value);
    }
    for (const { shift, value } of expectedAt(one, "upperSideAverageRunLength")) {
      within(oneSidedCusumRunLength({ ...design, headStart: 0, shift }), value);
    }
    for (const { shift, value } of expectedAt(one, "lowerSideAverageRunLength")) {
      within(oneSidedCusumRunLength({ ...design, headStart: 0, shift: -shift }), value);
    }
    for (const { shift, value } of expectedAt(one, "upperSideAverageRunLengthWithHeadStartHalfInterval")) {
      within(oneSidedCusumRunLength({ ...design, headStart: half, shift }), value);
    }
  });

  test("published, from memory: Montgomery, Introduction to Statistical Quality Control", () => {
    for (const one of casesOf("cusum-average-run-length")) {
      for (const { shift, value, agrees } of one.published ?? []) {
        // h = 4.77 stands for the unrounded one that gives 370.
        const slack = agrees ? 1.000001 : 3;
        const got = cusumRunLength({ ...designOf(one), headStart: 0, shift });
        expect(Math.abs(got - value), `${one.id} at ${shift}`).toBeLessThanOrEqual(slack * halfUnit(value));
      }
    }
  });

  test("published, from memory: Lucas and Crosier (1982), two-sided with a head start of h/2, k 0.5", () => {
    // h 4: 149, 62.7, 20.1, 8.97, 5.29, 2.86, 2.01 and h 5: 430, 122, 28.7, 11.2, 6.35, 3.37, 2.36 at the
    // shifts 0, 0.25, 0.5, 0.75, 1, 1.5, 2.
    const shifts = [0, 0.25, 0.5, 0.75, 1, 1.5, 2];
    const printed = {
      4: [149, 62.7, 20.1, 8.97, 5.29, 2.86, 2.01],
      5: [430, 122, 28.7, 11.2, 6.35, 3.37, 2.36],
    };
    for (const [h, values] of Object.entries(printed)) {
      values.forEach((value, i) => {
        const decisionInterval = Number(h);
        const chart = { reference: 0.5, decisionInterval, headStart: decisionInterval / 2 };
        const got = cusumRunLength({ ...chart, shift: shifts[i]! });
        expect(Math.abs(got - value), `h ${h} at ${shifts[i]}`).toBeLessThanOrEqual(1.01 * halfUnit(value));
      });
    }
  });

  test(`${table.title}: six printed digits`, () => {
    const chart = { reference: 0.5, headStart: 0 };
    table.data.shifts_in_sigma.forEach((shift, i) => {
      const a = cusumRunLength({ ...chart, decisionInterval: 4, shift });
      const b = cusumRunLength({ ...chart, decisionInterval: 5, shift });
      expect(relative(a, table.data.cusum_two_sided_k05_h4[i]!)).toBeLessThan(5e-6);
      expect(relative(b, table.data.cusum_two_sided_k05_h5[i]!)).toBeLessThan(5e-6);
    });
  });

  test("law: the side does not matter; a head start never takes longer, a wider interval never less", () => {
    const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(number(0.1, 1.5), number(1, 6), number(0, 3), (reference, decisionInterval, shift) => {
        const design = { reference, decisionInterval };
        const plain = cusumRunLength({ ...design, headStart: 0, shift });
        expect(relative(cusumRunLength({ ...design, headStart: 0, shift: -shift }), plain)).toBeLessThan(
          1e-12,
        );
        const quick = cusumRunLength({ ...design, headStart: decisionInterval / 2, shift });
        expect(quick).toBeLessThanOrEqual(plain * (1 + 1e-12));
        const wider = { reference, decisionInterval: decisionInterval + 0.2 };
        expect(cusumRunLength({ ...wider, headStart: 0, shift })).toBeGreaterThanOrEqual(plain * (1 - 1e-12));
      }),
      { numRuns: runs(25) },
    );
  });

  test("law: with k = 0 and the interval shrinking, every point signals that lies off the centre", () => {
    const tight = { reference: 0, decisionInterval: 1e-9, headStart: 0, shift: 0 };
    expect(cusumRunLength(tight)).toBeCloseTo(1, 6);
  });

  test.each([
    ["reference", { reference: -0.1, decisionInterval: 4, headStart: 0, shift: 0 }],
    ["decisionInterval", { reference: 0.5, decisionInterval: 0, headStart: 0, shift: 0 }],
    ["decisionInterval", { reference: 0.5, decisionInterval: 101, headStart: 0, shift: 0 }],
    ["headStart", { reference: 0.5, decisionInterval: 4, headStart: -1, shift: 0 }],
    ["headStart", { reference: 0.5, decisionInterval: 4, headStart: 3, shift: 0 }],
    ["shift", { reference: 0.5, decisionInterval: 4, headStart: 0, shift: Number.POSITIVE_INFINITY }],
  ])("refused: %s", (field, design) => {
    expect(() => cusumRunLength(design)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });

  test("refused on one side: a head start beyond the interval", () => {
    const beyond = { reference: 0.5, decisionInterval: 4, headStart: 4.1, shift: 0 };
    expect(() => oneSidedCusumRunLength(beyond)).toThrow(InvalidInput);
  });
});

describe("individuals with a moving range limit", () => {
  test.each(casesOf("individuals-moving-range-average-run-length"))("computed independently: $id", (one) => {
    const limits = {
      individualsLimit: one.input.individualsLimitInSigma!,
      movingRangeLimit: one.input.movingRangeLimitInSigma!,
    };
    for (const { shift, value } of expectedAt(one, "averageRunLength")) {
      const { mean } = individualsRunLength({ ...limits, shift });
      expect(relative(mean, value), `shift ${shift}`).toBeLessThan(one.tolerance.relative!);
    }
  });

  test("law: a range limit of twice the other one never counts; the range chart alone knows no shift", () => {
    const loose = individualsRunLength({ individualsLimit: 3, movingRangeLimit: 6, shift: 1 });
    expect(relative(loose.mean, table.data.shewhart_3sigma[4]!)).toBeLessThan(5e-6);
    const alone = (shift: number) =>
      individualsRunLength({ individualsLimit: null, movingRangeLimit: 3.5, shift }).mean;
    expect(alone(2)).toBe(alone(0));
  });

  test("law: limits far inside each other still agree with finer cuts of the same equation", () => {
    // A range limit of a third of the other has bends at ±1 and at 0's neighbours; halving it keeps them.
    const narrow = individualsRunLength({ individualsLimit: 3, movingRangeLimit: 1, shift: 0.3 });
    expect(narrow.mean).toBeGreaterThan(1);
    expect(narrow.mean).toBeLessThan(
      individualsRunLength({ individualsLimit: 3, movingRangeLimit: 1.1, shift: 0.3 }).mean,
    );
  });

  test.each([
    ["individualsLimit", { individualsLimit: 0, movingRangeLimit: 3, shift: 0 }],
    ["individualsLimit", { individualsLimit: 9.5, movingRangeLimit: 3, shift: 0 }],
    ["movingRangeLimit", { individualsLimit: 3, movingRangeLimit: 0, shift: 0 }],
    ["movingRangeLimit", { individualsLimit: 3, movingRangeLimit: Number.NaN, shift: 0 }],
    ["shift", { individualsLimit: 3, movingRangeLimit: 3, shift: -21 }],
  ])("refused: %s", (field, design) => {
    expect(() => individualsRunLength(design)).toThrow(
      expect.objectContaining({ name: "InvalidInput", field }),
    );
  });
});
