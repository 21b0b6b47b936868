import { describe, expect, test } from "vitest";
import { lotAdjusted } from "../../../lib/sources/lot-adjusted";
import type { SourceRows } from "../../../lib/sources/lot-cells";
import { ownCourses } from "../../../lib/sources/own-course";
import { recentChanges } from "../../../lib/sources/recent-change";
import { sharedShift } from "../../../lib/sources/shared-shift";
import { sourceGrid } from "../../../lib/sources/source-grid";
import { standingOffsets } from "../../../lib/sources/standing-offsets";
import furnace from "../../reference/furnace-film-thickness.json";
import lithography from "../../reference/lithography-line-width.json";
import { lotBegins, madeUpPart } from "./made-up-part";

const A = 1;
const B = 2;
const C = 3;

function standing(features: SourceRows[], events: { source: number; at: number }[] = []) {
  return standingOffsets({ features, events, changes: recentChanges({ features, events }) });
}

describe("standing differences", () => {
  test("a source that has always been off is listed, with what its readings give", () => {
    const features = madeUpPart({
      seed: 31,
      lots: 50,
      features: 4,
      running: () => [A, B, C],
      shift: ({ source, feature }) => (source === C && feature === 3 ? 1.2 : 0),
    });
    const [first, ...rest] = standing(features);
    const expected = lotAdjusted(features[2]!).sources.find(({ source }) => source === C)!;
    expect(first).toMatchObject({ source: C, feature: 3, lots: 50, deviation: expected.deviation });
    // A and B each have C among their two neighbours, so they lie half as far the other way.
    for (const one of rest) {
      expect(one.feature).toBe(3);
      expect(Math.abs(one.deviationInSigma + 0.6)).toBeLessThan(0.3);
    }
  });

  test("what came with a change, or was there before an event, is none", () => {
    const features = madeUpPart({
      seed: 37,
      lots: 40,
      features: 4,
      running: () => [A, B],
      shift: ({ lot, source }) => (source === B && lot >= 30 ? 2 : 0),
    });
    expect(standing(features)).toEqual([]);
    const before = madeUpPart({
      seed: 37,
      lots: 40,
      features: 4,
      running: () => [A, B],
      shift: ({ lot, source }) => (source === B && lot < 20 ? 2 : 0),
    });
    expect(standing(before, [{ source: B, at: lotBegins(20) }])).toEqual([]);
  });

  test(`published data, ${furnace.source}: no zone stands apart in the same way in every run`, () => {
    const { thickness_angstrom: values, run: lots, zone: sources } = furnace.data;
    expect(standing([{ feature: 1, takenAt: lots, values, lots, sources }])).toEqual([]);
  });

  test(`published data, ${lithography.source}: the top is wide and the centre narrow`, () => {
    const { line_width: values, cassette: lots, site } = lithography.data;
    const names = ["top", "left", "centre", "right", "bottom"];
    const sources = site.map((name) => names.indexOf(name) + 1);
    const found = standing([{ feature: 1, takenAt: lots, values, lots, sources }]);
    const byName = new Map(found.map((one) => [names[one.source - 1], one.deviation]));
    expect([...byName.keys()].sort()).toEqual(["centre", "top"]);
    expect(byName.get("top")).toBeGreaterThan(0);
    expect(byName.get("centre")).toBeLessThan(0);
  });
});

describe("the grid", () => {
  // Lot 11 holds A and B, lot 12 A alone; by hand as in the tests of lotAdjusted: A lies 4 below B, sigma √2.
  const rows = {
    feature: 1,
    takenAt: [1, 2, 3, 4, 5],
    values: [1, 3, 5, 7, 9],
    lots: [11, 11, 11, 11, 12],
    sources: [A, A, B, B, A],
  };

  test("by hand: a deviation where another ran beside it, none where it ran alone, no cell where it did not run", () => {
    const grid = sourceGrid([rows], { lots: [11, 12], isCompared: true });
    expect(grid).toEqual([
      {
        source: A,
        cells: [
          { lot: 11, deviation: expect.closeTo(-4 / Math.SQRT2, 12), features: 1, count: 2 },
          { lot: 12, deviation: null, features: 0, count: 1 },
        ],
      },
      {
        source: B,
        cells: [{ lot: 11, deviation: expect.closeTo(4 / Math.SQRT2, 12), features: 1, count: 2 }],
      },
    ]);
  });

  test("lots that are not shown hide sources, not the sigma they are measured by", () => {
    const grid = sourceGrid([rows], { lots: [12], isCompared: true });
    expect(grid.map(({ source }) => source)).toEqual([A]);
    const uncompared = sourceGrid([rows], { lots: [11], isCompared: false });
    expect(uncompared[0]!.cells[0]).toEqual({ lot: 11, deviation: null, features: 0, count: 2 });
  });
});

describe("the course of each source", () => {
  test("by hand: from the mean before the change, in sigma, with the sign of each feature's change", () => {
    const rows = {
      takenAt: [1, 2, 3, 4],
      lots: [11, 11, 12, 12],
      sources: [A, B, A, B],
    };
    const features = [
      { ...rows, feature: 1, values: [10, 12, 11, 15] },
      { ...rows, feature: 2, values: [4, 4, 4, 2] },
    ];
    // Before: means 11 and 4. In lot 12 A lies 0 and 0; B lies (15 − 11)/2 = 2 and −(2 − 4)/1 = 2.
    const courses = ownCourses(features, {
      lots: [11, 12],
      changedFrom: 1,
      moved: [
        { feature: 1, sigma: 2, sign: 1 },
        { feature: 2, sigma: 1, sign: -1 },
      ],
    });
    expect(courses.map(({ source, points }) => [source, points.map(({ deviation }) => deviation)])).toEqual([
      [A, [-0.25, 0]],
      [B, [0.25, 2]],
    ]);
  });
});

describe("one shift for all features of a gauge", () => {
  test("by hand", () => {
    // Weights 1 and 1/4: (2 + 4/4) / 1.25 = 2.4, error 1/√1.25; scatter 0.16 + 0.64 = 0.8 for one degree.
    const shared = sharedShift([
      { difference: 2, standardError: 1 },
      { difference: 4, standardError: 2 },
    ])!;
    expect(shared.shift).toBeCloseTo(2.4, 12);
    expect(shared.standardError).toBeCloseTo(1 / Math.sqrt(1.25), 12);
    expect(shared.disagreement).toBeCloseTo(Math.sqrt(0.8), 12);
    expect(sharedShift([])).toBeNull();
    expect(sharedShift([{ difference: 2, standardError: 1 }])!.disagreement).toBeNull();
  });

  test("features that move by different lengths widen the error", () => {
    const shared = sharedShift([
      { difference: 0, standardError: 1 },
      { difference: 10, standardError: 1 },
    ])!;
    expect(shared).toMatchObject({ shift: 5 });
    expect(shared.standardError).toBeCloseTo(5, 12);
  });

  test("a gauge that reads 0.006 mm more on everything is found with that one shift", () => {
    // In sigma of features 1 to 5 (0.004 mm each time its number) the same length is ever less.
    const features = madeUpPart({
      seed: 41,
      lots: 60,
      features: 5,
      running: () => [A, B],
      shift: ({ lot, source, feature }) => (source === B && lot >= 40 ? 0.006 / (0.004 * feature) : 0),
    });
    const [first] = recentChanges({ features }).sources;
    const change = first?.state === "moved" ? first.change : null;
    const shared = sharedShift(change!.features.filter(({ moved }) => moved))!;
    expect(first!.source).toBe(B);
    expect(Math.abs(shared.shift - 0.006)).toBeLessThan(4 * shared.standardError);
    expect(shared.disagreement).toBeLessThan(2);
  });
});
