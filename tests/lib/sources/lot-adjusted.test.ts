import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { lotAdjusted } from "../../../lib/sources/lot-adjusted";
import { poolFeatures } from "../../../lib/sources/pool-features";
import furnace from "../../reference/furnace-film-thickness.json";
import lithography from "../../reference/lithography-line-width.json";

const A = 1;
const B = 2;
const C = 3;

/** Lot 11: A 1, 3 and B 5, 7. Lot 12: A 4 and B 6, 8. Lot 13: C 9, 9 alone. */
const small = {
  values: [1, 3, 5, 7, 4, 6, 8, 9, 9],
  lots: [11, 11, 11, 11, 12, 12, 12, 13, 13],
  sources: [A, A, B, B, A, B, B, C, C],
};

describe("a source against its neighbours in the same lot", () => {
  const result = lotAdjusted(small);

  test("by hand: deviation weighted by information", () => {
    // Lot 11: 2 − 6 = −4 with information 1/(1/2 + 1/2) = 1; lot 12: 4 − 7 = −3 with 1/(1 + 1/2) = 2/3.
    // (−4 − 2) / (5/3) = −3.6. Within cells: (2 + 2 + 0 + 2 + 0) / (9 − 5) = 1.5.
    const [a, b] = result.sources;
    expect(result.sigma! ** 2).toBeCloseTo(1.5, 12);
    expect(result.degreesOfFreedom).toBe(4);
    expect(a).toMatchObject({ source: A, count: 3, lots: 2, reason: null });
    expect(a!.deviation).toBeCloseTo(-3.6, 12);
    expect(b!.deviation).toBeCloseTo(3.6, 12);
    // The lots disagree by (0.16 + 0.24) / 1.5 = 0.27 for one degree of freedom: no widening.
    expect(a!.standardError).toBeCloseTo(Math.sqrt(1.5 / (5 / 3)), 12);
    expect(a!.disagreement).toBeCloseTo(Math.sqrt(0.4 / 1.5), 12);
    expect(a!.deviationInSigma).toBeCloseTo(-3.6 / Math.sqrt(1.5), 12);
  });

  test("by hand: cells in sigma within cells", () => {
    const sigma = Math.sqrt(1.5);
    expect(result.cells).toEqual([
      { source: A, lot: 11, count: 2, deviation: expect.closeTo(-4 / sigma, 12) },
      { source: A, lot: 12, count: 1, deviation: expect.closeTo(-3 / sigma, 12) },
      { source: B, lot: 11, count: 2, deviation: expect.closeTo(4 / sigma, 12) },
      { source: B, lot: 12, count: 2, deviation: expect.closeTo(3 / sigma, 12) },
      { source: C, lot: 13, count: 2, deviation: null },
    ]);
  });

  test("a source alone in its lots is not comparable, and says so", () => {
    expect(result.sources[2]).toEqual({
      source: C,
      count: 2,
      lots: 0,
      deviation: null,
      deviationInSigma: null,
      standardError: null,
      disagreement: null,
      reason: "Alone in its only lot: nothing ran beside it, so the lot and the source cannot be told apart.",
    });
  });

  test("by hand: lots that disagree widen the error", () => {
    // Differences −10 and +10, information 1 each, sigma² 2: disagreement 200 for one degree of freedom.
    const { sources } = lotAdjusted({
      values: [-1, 1, 9, 11, 9, 11, -1, 1],
      lots: [1, 1, 1, 1, 2, 2, 2, 2],
      sources: [A, A, B, B, A, A, B, B],
    });
    expect(sources[0]!.deviation).toBeCloseTo(0, 12);
    expect(sources[0]!.standardError).toBeCloseTo(Math.sqrt(200 / 2), 12);
  });

  test("edge: one reading a cell; all alike; nothing; not stated", () => {
    const single = lotAdjusted({ values: [1, 2], lots: [1, 1], sources: [A, B] });
    expect(single.sigma).toBeNull();
    expect(single.sources[0]).toMatchObject({ deviation: -1, deviationInSigma: null, standardError: null });
    expect(single.sources[0]!.reason).toMatch(/^Every source has a single reading/);
    const alike = lotAdjusted({ values: [1, 1, 2, 2], lots: [1, 1, 1, 1], sources: [A, A, B, B] });
    expect(alike.sources[0]!.reason).toMatch(/no variation at this resolution/);
    expect(lotAdjusted({ values: [], lots: [], sources: [] }).sources).toEqual([]);
    const partly = lotAdjusted({ values: [1, 2, 3], lots: [1, 0, 1], sources: [A, A, 0] });
    expect([partly.notStated, partly.sources.length]).toEqual([2, 1]);
  });

  test("bad input is refused by name", () => {
    expect(() => lotAdjusted({ values: [1, 2], lots: [1], sources: [1, 2] })).toThrow(InvalidInput);
    expect(() => lotAdjusted({ values: [Number.NaN], lots: [1], sources: [1] })).toThrow(/values\[0\]/);
  });
});

describe(`published data: ${furnace.source}`, () => {
  const { thickness_angstrom: values, run, zone } = furnace.data;
  const result = lotAdjusted({ values, lots: run, sources: zone });

  test("sigma within run × zone is the printed mean square within", () => {
    const meanSquare = furnace.printed.find((one) => one.name === "MS within")!.printed as number;
    expect(Math.abs(result.sigma! ** 2 - meanSquare)).toBeLessThan(5e-4);
    expect(result.degreesOfFreedom).toBe(84);
  });

  test("every run holds every zone, so a zone's deviation is its mean less that of the others", () => {
    const meanOf = (keep: (z: number) => boolean) => {
      const kept = values.filter((_, i) => keep(zone[i]!));
      return kept.reduce((sum, value) => sum + value, 0) / kept.length;
    };
    expect(result.sources.map((one) => one.source)).toEqual([1, 2, 3, 4]);
    for (const { source, deviation, lots, count } of result.sources) {
      expect(deviation).toBeCloseTo(meanOf((z) => z === source) - meanOf((z) => z !== source), 9);
      expect([lots, count]).toEqual([21, 42]);
    }
  });

  test("zones differ within runs by the printed F, but no zone does so in the same way in every run", () => {
    // With 2 wafers in each of 4 zones, d = 4/3 of a zone's distance from its run and w = 1/(1/2 + 1/6), so
    // Σ w d²/σ² over all cells is (4/3)·63·F. It splits into the disagreement of 21 runs and the deviation.
    const F = furnace.printed.find((one) => one.name === "F zone[run]")!.printed as number;
    let total = 0;
    for (const { deviationInSigma, disagreement, deviation, standardError } of result.sources) {
      total += 20 * disagreement! ** 2 + 21 * 1.5 * deviationInSigma! ** 2;
      expect(disagreement).toBeGreaterThan(1.9);
      expect(Math.abs(deviation! / standardError!)).toBeLessThan(2);
    }
    expect(Math.abs(total - 84 * F)).toBeLessThan(84 * 5e-6);
  });

  test("cells show it: in run 17 zones 1 and 3 lie low, zones 2 and 4 high", () => {
    const run17 = result.cells.filter((cell) => cell.lot === 17).map((cell) => cell.deviation!);
    expect(run17.map(Math.sign)).toEqual([-1, 1, -1, 1]);
    // By hand from the eight wafers: zone 4 lies 31.5 above its run, 4/3 · 31.5 = 42 above the others.
    expect(run17[3]! * result.sigma!).toBeCloseTo(42, 9);
  });
});

describe(`published data: ${lithography.source}`, () => {
  const { line_width: values, cassette, site } = lithography.data;
  const names = ["top", "left", "centre", "right", "bottom"];
  const result = lotAdjusted({
    values,
    lots: cassette,
    sources: site.map((name) => names.indexOf(name) + 1),
  });

  test("site deviations follow from the site means of an independent program", () => {
    const listed = lithography.recomputed.find((one) => one.name.startsWith("site means"))!.value as number[];
    const total = listed.reduce((sum, mean) => sum + mean, 0);
    for (const { source, deviation } of result.sources) {
      const own = listed[source - 1]!;
      // The means are listed to six decimals.
      expect(Math.abs(deviation! - (own - (total - own) / 4))).toBeLessThan(2e-6);
    }
  });

  test("the top is wide and the centre narrow, far beyond their errors, while the cassettes wander", () => {
    const strength = result.sources.map((one) => one.deviation! / one.standardError!);
    expect(strength[0]).toBeGreaterThan(6);
    expect(strength[2]).toBeLessThan(-6);
    for (const k of [1, 3, 4]) expect(Math.abs(strength[k]!)).toBeLessThan(4);
  });
});

describe("several features", () => {
  test("by hand: the mean of deviations in sigma, with the number of features", () => {
    const one = lotAdjusted(small);
    const half = lotAdjusted({ ...small, values: small.values.map((value) => 2 * value) });
    const third = lotAdjusted({ ...small, values: small.values.map((value) => -value) });
    const { sources, cells, lots } = poolFeatures([one, half, third]);
    expect(lots).toEqual([11, 12, 13]);
    // Twice the unit leaves sigmas as they are; the mirrored feature takes one of the two back.
    expect(sources).toEqual([
      { source: A, features: 3, deviation: expect.closeTo(-3.6 / Math.sqrt(1.5) / 3, 12) },
      { source: B, features: 3, deviation: expect.closeTo(3.6 / Math.sqrt(1.5) / 3, 12) },
    ]);
    expect(cells[0]).toEqual({
      source: A,
      lot: 11,
      features: 3,
      count: 6,
      deviation: expect.closeTo(-4 / Math.sqrt(1.5) / 3, 12),
    });
    expect(cells.some((cell) => cell.source === C)).toBe(false);
  });
});

describe("laws", () => {
  const rows = fc.array(
    fc.record({
      value: fc.double({ min: -5, max: 5, noNaN: true }),
      lot: fc.integer({ min: 1, max: 4 }),
      source: fc.integer({ min: 1, max: 3 }),
    }),
    { minLength: 12, maxLength: 50 },
  );
  type Row = { value: number; lot: number; source: number };
  const adjusted = (all: readonly Row[], value: (row: Row) => number = (row) => row.value) =>
    lotAdjusted({
      values: all.map(value),
      lots: all.map((row) => row.lot),
      sources: all.map((row) => row.source),
    });
  const bySource = (result: ReturnType<typeof adjusted>) =>
    new Map(result.sources.map((one) => [one.source, one]));

  test("what all pieces of a lot share cancels", () => {
    fc.assert(
      fc.property(
        rows,
        fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 5, maxLength: 5 }),
        (all, shifts) => {
          const before = bySource(adjusted(all));
          const after = bySource(adjusted(all, (row) => row.value + shifts[row.lot]!));
          for (const [source, one] of before) {
            if (one.deviation === null) expect(after.get(source)!.deviation).toBeNull();
            else expect(after.get(source)!.deviation).toBeCloseTo(one.deviation, 9);
          }
        },
      ),
    );
  });

  test("the order of the readings does not matter; the unit scales", () => {
    fc.assert(
      fc.property(rows, (all) => {
        const before = bySource(adjusted(all));
        const after = bySource(adjusted([...all].reverse(), (row) => 25.4 * row.value));
        for (const [source, one] of before) {
          if (one.deviation === null || one.standardError === null) continue;
          expect(after.get(source)!.deviation! / 25.4).toBeCloseTo(one.deviation, 10);
          expect(after.get(source)!.standardError! / 25.4).toBeCloseTo(one.standardError, 10);
        }
      }),
    );
  });
});
