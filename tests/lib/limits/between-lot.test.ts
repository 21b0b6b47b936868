import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { oneWayAnova } from "../../../lib/components/one-way";
import type { Computed } from "../../../lib/computed";
import { type BetweenLots, betweenLots } from "../../../lib/limits/between-lot";
import { estimateLimits } from "../../../lib/limits/estimate-limits";
import { randomStream } from "../../../lib/random/random-stream";
import { summarise } from "../../../lib/subgroups/summarise";
import { runs } from "../../laws";
import furnace from "../../reference/furnace-film-thickness.json";
import gear from "../../reference/gear-diameter.json";

function found(result: Computed<BetweenLots>): BetweenLots {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

/** Lots of equal readings with the pooled sigma within, as the chart of standard deviations has it. */
function studyOf(groups: readonly (readonly number[])[]): BetweenLots {
  const lots = groups.map((group) => summarise(group));
  const within = estimateLimits({ chart: "xbar-s", subgroups: lots, estimator: "pooled-sd" });
  if (!within.ok) throw new Error(within.problem.code);
  return found(betweenLots({ lots, within: within.value }));
}

function grouped(values: readonly number[], ids: readonly number[]): number[][] {
  return [...new Set(ids)].map((id) => values.filter((_, i) => ids[i] === id));
}

/** Lots of `size` with the sigmas given, seeded. */
function drawn(name: string, { lots, size, between }: { lots: number; size: number; between: number }) {
  const random = randomStream(70, name);
  return Array.from({ length: lots }, () => {
    const level = between * random.normal();
    return Array.from({ length: size }, () => level + random.normal());
  });
}

describe("by hand", () => {
  test("lots of 4 with means 0, 2, 4, 2 and sigma 1: MS = 4 · 8/3, F = 32/3, σ²between = (32/3 − 1)/4", () => {
    const lots = [0, 2, 4, 2].map((mean) => ({ size: 4, mean }));
    const result = found(betweenLots({ lots, within: { sigma: 1, degreesOfFreedom: 12 } }));
    expect(result.test).toMatchObject({ numerator: 3, denominator: 12 });
    expect(result.test.F).toBeCloseTo(32 / 3, 12);
    expect(result.components.between ** 2).toBeCloseTo(29 / 12, 12);
    expect(result.share).toBeCloseTo(29 / 41, 12);
    // Limits ±1.5 about 2: the lots at 0 and 4 lie outside.
    expect(result.signalling.seen).toBe(2);
    expect(result.verdict).toBe("swamped");
    // Moving ranges 2, 2, 2: sigma of means √π, less 1/4 for the readings.
    expect(result.offered.sigma).toBeCloseTo(Math.sqrt(Math.PI), 12);
    expect(result.offered.upper).toBeCloseTo(2 + 3 * Math.sqrt(Math.PI), 12);
    expect(result.offered.between ** 2).toBeCloseTo(Math.PI - 0.25, 12);
    expect(result.offered.signalling).toBe(0);
    expect(result.sentence).toMatch(/2 of 4 lots.*71 %.*moving range.*0 of 4/);
  });
});

describe(`published: ${gear.source}`, () => {
  const result = studyOf(grouped(gear.data.diameter, gear.data.batch));

  test("F = 2.2969 with 9 and 90 degrees of freedom; not significant at 1 %, so nothing to offer", () => {
    expect(Math.abs(result.test.F - 2.2969)).toBeLessThan(5e-5);
    expect(result.test).toMatchObject({ numerator: 9, denominator: 90 });
    expect(result.verdict).toBe("none");
    expect(result.sentence).toContain("no more than readings within lots explain");
  });
});

describe(`published: ${furnace.source}`, () => {
  const result = studyOf(grouped(furnace.data.thickness_angstrom, furnace.data.run));
  const printed = (name: string) => Number(furnace.printed.find((one) => one.name === name)!.printed);

  test("runs of 8 readings: F from the printed sums of squares", () => {
    const withinRuns = (printed("SS zone[run] (df 63)") + printed("SS within (df 84)")) / (63 + 84);
    const F = printed("SS run (df 20)") / 20 / withinRuns;
    // Two decimals of 61442.29 and one of 36014.5.
    expect(Math.abs(result.test.F / F - 1)).toBeLessThan(2e-6);
    expect(result.test).toMatchObject({ numerator: 20, denominator: 147 });
    expect(result.verdict).not.toBe("none");
  });
});

describe("what it recognises", () => {
  test("lots that differ three times as much as readings within: most signal, and the offered limits hold them", () => {
    const result = studyOf(drawn("swamped", { lots: 60, size: 5, between: 3 }));
    expect(result.verdict).toBe("swamped");
    expect(result.signalling.seen).toBeGreaterThan(30);
    // P(abs mean beyond 3/√5) with variance 9 + 1/5 is 2Φ(−3/√46) = 0.66.
    expect(Math.abs(result.signalling.expectedShare - 0.66)).toBeLessThan(0.1);
    expect(result.offered.signalling).toBeLessThanOrEqual(1);
    // Standard error of σ̂ between from 60 lots is about 3/√118 by variance, a little more by moving ranges.
    expect(Math.abs(result.components.between - 3)).toBeLessThan(4 * (3 / Math.sqrt(118)));
    expect(Math.abs(result.offered.between - 3)).toBeLessThan(4 * 3 * 0.76 * Math.sqrt(1 / 59));
  });

  test("a small component shows without swamping the chart", () => {
    const result = studyOf(drawn("some", { lots: 100, size: 4, between: 0.5 }));
    expect(result.verdict).toBe("some");
    expect(result.sentence).toContain("still serve");
  });

  test("lots that are alike are left in peace: 1 % of them at most are told apart", () => {
    let told = 0;
    for (let i = 0; i < 300; i++) {
      if (studyOf(drawn(`alike ${i}`, { lots: 25, size: 5, between: 0 })).verdict !== "none") told++;
    }
    // Binomial with n = 300, p = 0.01: 3 ± 4 · 1.72.
    expect(told).toBeLessThanOrEqual(9);
  });
});

describe("law", () => {
  // Readings in hundredths; the first two of a lot differ, so that every lot has a spread.
  const reading = fc.integer({ min: -500, max: 500 }).map((value) => value / 100);
  const group = fc
    .tuple(reading, fc.array(reading, { maxLength: 4 }))
    .map(([first, others]) => [first, first + 0.5, ...others]);
  const groups = fc.array(group, { minLength: 3, maxLength: 12 });

  test("with the pooled sigma, F and p are those of the one-way analysis of variance, whatever the sizes", () => {
    fc.assert(
      fc.property(groups, (all) => {
        const ids = all.flatMap((one, i) => one.map(() => i));
        const anova = oneWayAnova(all.flat(), ids);
        if (!anova.ok) throw new Error("no analysis");
        const { test } = studyOf(all);
        expect(test.F).toBeCloseTo(anova.value.F!, 8);
        expect(test.p).toBeCloseTo(anova.value.p!, 8);
      }),
      { numRuns: runs(60) },
    );
  });

  test("another unit and origin change no share, no verdict and scale every sigma", () => {
    fc.assert(
      fc.property(groups, (all) => {
        const plain = studyOf(all);
        const moved = studyOf(all.map((one) => one.map((value) => 25.4 * value + 100)));
        expect(moved.verdict).toBe(plain.verdict);
        expect(moved.share).toBeCloseTo(plain.share, 8);
        expect(moved.offered.sigma).toBeCloseTo(25.4 * plain.offered.sigma, 8);
        expect(moved.offered.upper).toBeCloseTo(25.4 * plain.offered.upper + 100, 7);
        expect(moved.components.between).toBeCloseTo(25.4 * plain.components.between, 5);
      }),
      { numRuns: runs(60) },
    );
  });
});

describe("edge", () => {
  const within = { sigma: 1, degreesOfFreedom: 10 };
  const lots = (...means: number[]) => means.map((mean) => ({ size: 2, mean }));

  test("shortages are values", () => {
    const code = (result: Computed<BetweenLots>) => (result.ok ? null : result.problem.code);
    expect(code(betweenLots({ lots: lots(1, 2), within }))).toBe("too-few-subgroups");
    expect(code(betweenLots({ lots: lots(1, 1, 1), within }))).toBe("no-variation");
    const singles = [1, 2, 3].map((mean) => ({ size: 1, mean }));
    expect(code(betweenLots({ lots: singles, within }))).toBe("too-few-readings");
  });

  test.each([
    ["sigma", { lots: lots(1, 2, 3), within: { sigma: 0, degreesOfFreedom: 10 } }],
    ["degreesOfFreedom", { lots: lots(1, 2, 3), within: { sigma: 1, degreesOfFreedom: 0 } }],
    ["lots[1].mean", { lots: lots(1, Number.NaN, 3), within }],
    ["lots[0].size", { lots: [{ size: 0, mean: 1 }], within }],
  ])("refused: %s", (field, given) => {
    expect(() => betweenLots(given)).toThrow(expect.objectContaining({ name: "InvalidInput", field }));
  });
});
