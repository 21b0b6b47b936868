import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { attributeLimits, attributePoints, attributeRate } from "../../../lib/charts/attribute";
import { binomialTails, CHANCE_PER_SIDE, poissonTails } from "../../../lib/charts/counting";
import { ATTRIBUTE_CHARTS, type AttributeChart } from "../../../lib/plan/feature-plan";
import { runs } from "../../laws";
import charts from "../../reference/charts.json";

describe("by hand", () => {
  test("p̄ = 0.1 in samples of 100: 3√(0.1 · 0.9/100) = 0.09", () => {
    const { threeSigma } = attributeLimits("p", { rate: 0.1, size: 100 });
    expect(threeSigma.lower).toBeCloseTo(0.01, 12);
    expect(threeSigma.upper).toBeCloseTo(0.19, 12);
    const counts = attributeLimits("np", { rate: 0.1, size: 100 });
    expect(counts.threeSigma.upper).toBeCloseTo(19, 10);
    expect(counts.threeSigma.centre).toBeCloseTo(10, 12);
  });

  test("c̄ = 16: 16 ± 12; NIST/SEMATECH e-Handbook 6.3.3.1, wafer counts: centre 16, limits 4 and 28 (from memory)", () => {
    const { threeSigma } = attributeLimits("c", { rate: 16, size: 1 });
    expect([threeSigma.lower, threeSigma.centre, threeSigma.upper]).toEqual([4, 16, 28]);
  });

  test("u: 4 a unit on 4 units: 4 ± 3; on a quarter of a unit the lower limit stops at 0", () => {
    const { threeSigma } = attributeLimits("u", { rate: 4, size: 4 });
    expect([threeSigma.lower, threeSigma.upper]).toEqual([1, 7]);
    expect(attributeLimits("u", { rate: 4, size: 0.25 }).threeSigma).toMatchObject({ lower: 0, upper: 16 });
  });

  test("one coin: P(X > 0) = p, P(X ≤ 0) = 1 − p; Poisson of mean 1: P(X ≤ 1) = 2/e", () => {
    expect(binomialTails(1, 0.3)(0).above).toBeCloseTo(0.3, 14);
    expect(binomialTails(1, 0.3)(0).atMost).toBeCloseTo(0.7, 14);
    expect(poissonTails(1)(1).atMost).toBeCloseTo(2 / Math.E, 14);
  });

  test("the rate of unequal samples: 3 of 30 and 1 of 10 make 0.1, and the larger one's limits are nearer", () => {
    const samples = [
      { count: 3, size: 30 },
      { count: 1, size: 10 },
    ];
    expect(attributeRate("p", samples)).toEqual({ ok: true, value: 0.1 });
    const [first, second] = attributePoints("p", { rate: 0.1, samples });
    expect(first!.value).toBeCloseTo(0.1, 14);
    expect(first!.threeSigma.upper).toBeLessThan(second!.threeSigma.upper);
  });
});

describe(`probability limits, ${charts.source}`, () => {
  test.each(charts.attributes)("$kind $n $p $mean: $lower to $upper", (one) => {
    const isBinomial = one.kind === "binomial";
    const limits = isBinomial
      ? attributeLimits("np", { rate: one.p!, size: one.n! })
      : attributeLimits("c", { rate: one.mean!, size: 1 });
    expect(limits.probability).toMatchObject({ lower: one.lower, upper: one.upper });
    expect(limits.probability.falseAlarm / one.falseAlarm).toBeCloseTo(1, 9);
    const share = isBinomial ? attributeLimits("p", { rate: one.p!, size: one.n! }) : null;
    if (share) expect(share.probability.upper).toBeCloseTo(one.upper / one.n!, 14);
  });
});

describe("law", () => {
  const anyChart = fc.constantFrom(...ATTRIBUTE_CHARTS);
  const anySize = fc.integer({ min: 1, max: 3000 });
  const anyRate = fc.double({ min: 0.001, max: 0.999, noNaN: true });

  test("probability limits never give more false alarms than they promise, and could not be drawn nearer", () => {
    fc.assert(
      fc.property(anySize, anyRate, fc.boolean(), (size, rate, isBinomial) => {
        const tails = isBinomial ? binomialTails(size, rate) : poissonTails(size * rate);
        const chart: AttributeChart = isBinomial ? "np" : "c";
        const { lower, upper, falseAlarm } = attributeLimits(chart, { rate, size }).probability;
        expect(falseAlarm).toBeLessThanOrEqual(2 * CHANCE_PER_SIDE);
        if (lower > 0) expect(tails(lower - 1).atMost).toBeLessThanOrEqual(CHANCE_PER_SIDE);
        expect(tails(lower).atMost).toBeGreaterThan(CHANCE_PER_SIDE);
        expect(tails(upper).above).toBeLessThanOrEqual(CHANCE_PER_SIDE);
        if (upper > 0) expect(tails(upper - 1).above).toBeGreaterThan(CHANCE_PER_SIDE);
      }),
      { numRuns: runs(80) },
    );
  });

  test("limits hold the centre, and a point signals exactly when its count lies beyond", () => {
    fc.assert(
      fc.property(anyChart, anySize, anyRate, fc.nat(3000), (chart, size, rate, raw) => {
        const count = chart === "p" || chart === "np" ? Math.min(raw, size) : raw;
        const [only] = attributePoints(chart, { rate, samples: [{ count, size }] });
        const scale = chart === "p" || chart === "u" ? size : 1;
        for (const kind of ["threeSigma", "probability"] as const) {
          const { lower, centre, upper } = only![kind];
          expect(lower).toBeLessThanOrEqual(centre + (kind === "probability" ? 1 / scale : 0));
          expect(upper).toBeGreaterThanOrEqual(centre - (kind === "probability" ? 1 / scale : 0));
          const side = count > upper * scale + 1e-6 ? "up" : count < lower * scale - 1e-6 ? "down" : null;
          expect(only!.signal[kind]).toBe(side);
        }
      }),
      { numRuns: runs(80) },
    );
  });

  test("good and bad pieces changed round mirror the limits", () => {
    fc.assert(
      fc.property(anySize, anyRate, (size, rate) => {
        const bad = attributeLimits("np", { rate, size });
        const good = attributeLimits("np", { rate: 1 - rate, size });
        expect(good.threeSigma.upper).toBeCloseTo(size - bad.threeSigma.lower, 6);
        expect(good.threeSigma.falseAlarm).toBeCloseTo(bad.threeSigma.falseAlarm, 8);
      }),
      { numRuns: runs(60) },
    );
  });

  test("three sigma come to mean 0.27 % only when counts are large", () => {
    const chance = (rate: number) => attributeLimits("c", { rate, size: 1 }).threeSigma.falseAlarm;
    // The upper limit 0.98 + 3√0.98 = 3.95 is passed by 4 and more; there is no lower one.
    expect(chance(0.98)).toBeGreaterThan(13 * CHANCE_PER_SIDE);
    expect(Math.abs(chance(100_000) / (2 * CHANCE_PER_SIDE) - 1)).toBeLessThan(0.05);
  });
});

describe("edge", () => {
  test("shortages are values: one sample, nothing found, nothing good", () => {
    const rateOf = (samples: { count: number; size: number }[]) => attributeRate("p", samples);
    expect(rateOf([{ count: 1, size: 9 }])).toMatchObject({
      ok: false,
      problem: { code: "too-few-subgroups" },
    });
    const none = [
      { count: 0, size: 9 },
      { count: 0, size: 9 },
    ];
    expect(rateOf(none)).toEqual({ ok: false, problem: { code: "no-variation" } });
    const all = [
      { count: 9, size: 9 },
      { count: 9, size: 9 },
    ];
    expect(rateOf(all)).toEqual({ ok: false, problem: { code: "no-variation" } });
    expect(attributeRate("u", all)).toEqual({ ok: true, value: 1 });
  });

  test.each([
    ["chart", () => attributeRate("q" as AttributeChart, [])],
    ["samples[0].count", () => attributeRate("p", [{ count: 5, size: 4 }])],
    ["samples[0].count", () => attributeRate("c", [{ count: 1.5, size: 4 }])],
    ["samples[0].size", () => attributeRate("p", [{ count: 0, size: 2.5 }])],
    ["samples[0].size", () => attributeRate("u", [{ count: 0, size: 0 }])],
    [
      "samples[1].size",
      () =>
        attributeRate("np", [
          { count: 1, size: 9 },
          { count: 1, size: 8 },
        ]),
    ],
    ["rate", () => attributeLimits("p", { rate: 1, size: 9 })],
    ["rate", () => attributeLimits("c", { rate: 0, size: 9 })],
    ["size", () => attributeLimits("np", { rate: 0.5, size: 0 })],
  ])("refused: %s", (field, call) => {
    expect(call).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});
