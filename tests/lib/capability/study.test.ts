import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { presentable } from "../../../lib/capability/gate-outcome";
import { capabilityIndices, INDEX_NAMES } from "../../../lib/capability/indices";
import { bissellBounds, capabilityIntervals, oneSidedBounds } from "../../../lib/capability/intervals";
import { normality } from "../../../lib/capability/normality";
import { clopperPearson } from "../../../lib/capability/outside";
import { gridStep } from "../../../lib/capability/resolution";
import { capabilityStudy, type StudyInput } from "../../../lib/capability/study";
import { InvalidInput } from "../../../lib/checks";
import { normalQuantile } from "../../../lib/distributions/normal";
import { runs } from "../../laws";

/** n readings that follow a normal curve as evenly as n readings can, in a shuffled order. */
function normalReadings(n: number, { centre = 10, sigma = 0.01 } = {}): number[] {
  const readings = Array.from({ length: n }, (_, i) => centre + sigma * normalQuantile((i + 0.5) / n));
  let state = 1;
  for (let i = n - 1; i > 0; i--) {
    // Lehmer's generator: the same shuffle every time.
    state = (state * 48271) % 2147483647;
    const j = state % (i + 1);
    [readings[i], readings[j]] = [readings[j]!, readings[i]!];
  }
  return readings;
}

const settled: StudyInput = {
  values: normalReadings(125),
  sigmaWithin: 0.01,
  degreesOfFreedomWithin: 90.8,
  estimator: "mean-range",
  subgroups: 25,
  lots: 25,
  unresolvedSignals: 0,
  tolerance: { lower: 9.95, upper: 10.05 },
  target: 10,
  naturalBound: null,
  resolution: 0.001,
  gaugeShare: 0.08,
  confidence: 0.95,
};

const study = (changes: Partial<StudyInput> = {}) => capabilityStudy({ ...settled, ...changes });
const gate = (changes: Partial<StudyInput>, name: string) => {
  const found = study(changes).gates.find((one) => one.gate === name);
  if (!found) throw new Error(`no gate ${name}`);
  return found;
};

describe("the claim", () => {
  test("a settled process is claimed as capability", () => {
    const settledStudy = study();
    expect(settledStudy.gates.map(({ gate, passed }) => [gate, passed])).toEqual([
      ["stable", true],
      ["enough", true],
      ["normal", true],
      ["gauge", true],
      ["independent", true],
      ["resolution", true],
    ]);
    // By hand: Cpk = 0.05 / 0.03; Bissell's bound 1.6667 − 1.645·√(1/1125 + 1.6667²/181.6) = 1.457, which is at least 1.45.
    expect(settledStudy.claim).toBe(
      "Cpk 1.67, at least 1.45 with 95 % confidence, 25 lots, 125 pieces, stable, normal, gauge takes 8 % of tolerance.",
    );
  });

  test("what is not known is no capability either, and is named", () => {
    const unknown = study({ gaugeShare: null, lots: null });
    expect(unknown.claim).toBe(
      "Not presentable as capability: 125 pieces, lots not stated; gauge not studied. Performance Ppk 1.67, at least 1.48 with 95 % confidence.",
    );
    expect(presentable(unknown)).toBe("performance");
  });

  test("a step that is not stated and does not show stands in nobody's way", () => {
    const fine = study({ resolution: null });
    expect(fine.gates.find(({ gate }) => gate === "resolution")?.passed).toBeNull();
    expect(presentable(fine)).toBe("capability");
    expect(fine.claim).toMatch(/^Cpk 1\.67, .*, resolution not known\.$/);
  });

  test("a failed gate makes it performance, with the reason", () => {
    const { claim, Ppk } = study({ unresolvedSignals: 2 });
    expect(claim).toMatch(
      /^Not presentable as capability: 2 unresolved signals\. Performance Ppk 1\.\d\d, at least /,
    );
    expect(claim).toContain(`Ppk ${Ppk!.toFixed(2)}`);
  });

  test("few pieces of few lots", () => {
    const few = study({ values: normalReadings(30), subgroups: 6, lots: 2 });
    expect(few.claim).toContain("only 6 of 25 subgroups, 30 of 100 pieces, 2 of 3 lots");
  });
});

describe("gates", () => {
  test("stable: unknown without a chart, refused with one signal", () => {
    expect(gate({ unresolvedSignals: null }, "stable").passed).toBeNull();
    expect(gate({ unresolvedSignals: 1 }, "stable").reason).toMatch(/^1 unresolved signal on its chart/);
  });

  test("enough: a shop sets its own numbers", () => {
    const requirements = {
      subgroups: 30,
      pieces: 100,
      lots: 3,
      significance: 0.05,
      gaugeGood: 0.1,
      gaugeConditional: 0.3,
      autocorrelation: 0.2,
      stepInSigma: 1,
      stepOfTolerance: 0.1,
    };
    expect(gate({ requirements }, "enough").passed).toBe(false);
  });

  test("gauge: 10 % good, 30 % conditional, more refused", () => {
    expect(gate({ gaugeShare: 0.1 }, "gauge")).toEqual({
      gate: "gauge",
      passed: true,
      reason: "The gauge takes 10 % of the tolerance: good.",
    });
    expect(gate({ gaugeShare: 0.3 }, "gauge").passed).toBe(true);
    expect(gate({ gaugeShare: 0.301 }, "gauge").passed).toBe(false);
  });

  test("independent: a slow wave over the points is refused", () => {
    const points = Array.from({ length: 60 }, (_, i) => Math.sin(i / 4));
    expect(gate({ points }, "independent").passed).toBe(false);
  });

  test("normal: two heaps are refused", () => {
    const values = [...normalReadings(60, { centre: 9.98 }), ...normalReadings(60, { centre: 10.02 })];
    const seen = gate({ values }, "normal");
    expect(seen.passed).toBe(false);
    expect(seen.reason).toContain("120 readings: not normal");
  });

  test("normal: rounding is named as rounding, and the resolution gate judges the step", () => {
    const values = normalReadings(200).map((value) => Math.round(value * 125) / 125);
    expect(gate({ values }, "normal").reason).toContain("it is the grid, not the process");
    expect(gate({ values }, "resolution").passed).toBe(true);
    expect(gate({ values, sigmaWithin: 0.004 }, "resolution").passed).toBe(false);
  });
});

describe("edges", () => {
  test("all alike: no index and no Infinity, but a sentence", () => {
    const alike = study({ values: new Array(125).fill(10), sigmaWithin: 0 });
    expect(INDEX_NAMES.map((name) => alike[name])).toEqual(new Array(9).fill(null));
    expect(alike.problem).toEqual({ code: "no-variation" });
    expect(alike.claim).toMatch(/^No index: no variation at this resolution/);
    expect(alike.gates.find((one) => one.gate === "resolution")!.passed).toBe(false);
    expect(JSON.stringify(alike)).not.toContain("Infinity");
  });

  test("alike within subgroups only: performance stays", () => {
    const { Cpk, Ppk, claim } = study({ sigmaWithin: 0 });
    expect(Cpk).toBeNull();
    expect(Ppk).not.toBeNull();
    expect(claim).toContain("no variation within subgroups at this resolution");
  });

  test("too few complete subgroups: performance stays, and no variation is not what is missing", () => {
    const { Cpk, claim } = study({ sigmaWithin: null });
    expect(Cpk).toBeNull();
    expect(claim).toContain("too few complete subgroups for a sigma within them");
    expect(claim).not.toContain("no variation");
  });

  test("a mean outside the tolerance has an index below 0, with a minus sign and no hyphen", () => {
    expect(study({ tolerance: { lower: 100, upper: 101 } }).claim).toMatch(/Cpk −\d|Ppk −\d/);
  });

  test("no reading, one reading", () => {
    expect(study({ values: [], subgroups: 0 }).mean).toBeNull();
    expect(study({ values: [10.01], subgroups: 0 }).problem).toEqual({
      code: "too-few-readings",
      needed: 2,
      got: 1,
    });
  });

  test("no tolerance: moments and normality, no index", () => {
    const free = study({ tolerance: { lower: null, upper: null } });
    expect(free.Ppk).toBeNull();
    expect(free.observedOutside).toEqual({ below: null, above: null });
    expect(free.normality).not.toBeNull();
    expect(free.claim).toBe("No index: the feature has no tolerance limit to be judged against.");
  });

  test("one limit: only that side", () => {
    const { Cp, Cpl, Cpu, Cpk, Pp, Cpm } = study({ tolerance: { lower: null, upper: 10.05 } });
    expect([Cp, Cpl, Pp, Cpm]).toEqual([null, null, null, null]);
    expect(Cpk).toBe(Cpu);
  });

  test.each([[{ lower: 0, upper: 0.1 }], [{ lower: -0.02, upper: 0.1 }], [{ lower: null, upper: 0.1 }]])(
    "a natural bound of 0 leaves only the upper index for %j",
    (tolerance) => {
      const values = normalReadings(125, { centre: 0.04 });
      const { Cpl, Cpu, Cpk, Cp, expectedOutside } = study({ values, tolerance, naturalBound: 0 });
      expect([Cp, Cpl, expectedOutside.below]).toEqual([null, null, null]);
      expect(Cpk).toBe(Cpu);
      // By hand: (0.1 − 0.04) / (3 · 0.01) = 2.
      expect(Cpu).toBeCloseTo(2, 10);
    },
  );

  test("a natural bound alone leaves nothing to judge", () => {
    expect(study({ tolerance: { lower: 0, upper: null }, naturalBound: 0 }).problem).toEqual({
      code: "no-tolerance",
    });
  });
});

describe("bad input is refused by name", () => {
  const refused: [string, Partial<StudyInput>, string][] = [
    ["a reading that is not a number", { values: [1, 2, Number.NaN, 3] }, "values[2]"],
    ["limits swapped", { tolerance: { lower: 11, upper: 10 } }, "tolerance.lower"],
    ["an infinite limit", { tolerance: { lower: null, upper: Number.POSITIVE_INFINITY } }, "tolerance.upper"],
    ["a confidence of 95", { confidence: 95 }, "confidence"],
    ["a negative sigma", { sigmaWithin: -1 }, "sigmaWithin"],
    ["a negative count", { subgroups: -1 }, "subgroups"],
    ["half a signal", { unresolvedSignals: 0.5 }, "unresolvedSignals"],
    ["a negative gauge share", { gaugeShare: -0.1 }, "gaugeShare"],
    ["a resolution of 0", { resolution: 0 }, "resolution"],
    ["a target that is not a number", { target: Number.NaN }, "target"],
  ];
  test.each(refused)("%s", (_, changes, field) => {
    const thrown = (() => {
      try {
        study(changes);
        return null;
      } catch (error) {
        return error;
      }
    })();
    expect(thrown).toBeInstanceOf(InvalidInput);
    expect((thrown as InvalidInput).field).toBe(field);
  });

  test("more outside than there are", () => {
    expect(() => clopperPearson({ count: 3, of: 2, confidence: 0.95 })).toThrow(InvalidInput);
  });
});

describe("the grid of readings", () => {
  test.each([
    [[10.014, 10.018, 10.02], 0.002],
    [[1, 3, 7], 2],
    [[0.1, 0.2, 0.3, 0.7], 0.1],
    [[25.4 * 0.001, 25.4 * 0.003, 25.4 * 0.004], 0.0254],
    [[1e6 + 0.25, 1e6 + 0.5], 0.25],
    [[-0.005, 0, 0.01], 0.005],
  ])("by hand: %j", (values, step) => {
    expect(gridStep(values)).toBeCloseTo(step, 12);
  });

  test("none where readings are all alike or computed", () => {
    expect(gridStep([2, 2, 2])).toBeNull();
    expect(gridStep([Math.PI, Math.E, 1])).toBeNull();
    expect(gridStep([])).toBeNull();
  });
});

describe("laws", () => {
  const readings = fc
    .array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 8, maxLength: 60 })
    .filter((values) => Math.max(...values) - Math.min(...values) > 0.01);
  const tolerance = { lower: -2, upper: 2.5 };
  const plain = (
    values: number[],
    limits: { lower: number; upper: number },
    target: number,
    sigma: number,
  ) => {
    const { estimator, ...rest } = study({ values, tolerance: limits, target, sigmaWithin: sigma });
    return { estimator, ...rest };
  };

  test("a change of origin and unit leaves indices, bounds, fractions and A² as they are", () => {
    fc.assert(
      fc.property(
        readings,
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 0.02, max: 30, noNaN: true }),
        (values, shift, scale) => {
          const moved = (value: number) => shift + scale * value;
          const before = plain(values, tolerance, 0.1, 0.2);
          const after = plain(
            values.map(moved),
            { lower: moved(tolerance.lower), upper: moved(tolerance.upper) },
            moved(0.1),
            0.2 * scale,
          );
          for (const name of INDEX_NAMES) {
            expect(Math.abs(after[name]! / before[name]! - 1)).toBeLessThan(1e-8);
            const width = before.intervals[name]![1] - before.intervals[name]![0];
            expect(Math.abs(after.lowerBounds[name]! - before.lowerBounds[name]!) / width).toBeLessThan(1e-7);
          }
          expect(Math.abs(after.normality!.A2 - before.normality!.A2)).toBeLessThan(1e-6);
        },
      ),
      { numRuns: runs(40) },
    );
  });

  test("the order of the readings does not matter to any index", () => {
    fc.assert(
      fc.property(readings, (values) => {
        const before = plain(values, tolerance, 0, 0.2);
        const after = plain([...values].reverse(), tolerance, 0, 0.2);
        for (const name of INDEX_NAMES)
          expect(Math.abs(after[name]! / before[name]! - 1)).toBeLessThan(1e-12);
        expect(after.normality!.A2).toBeCloseTo(before.normality!.A2, 9);
      }),
    );
  });

  test("an interval holds its index, and the one-sided bound lies between", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 5, max: 400 }),
        fc.double({ min: 0.05, max: 4, noNaN: true }),
        fc.double({ min: 0.6, max: 0.999, noNaN: true }),
        (count, index, confidence) => {
          const indices = {
            Cp: index,
            Cpk: index,
            Cpl: index,
            Cpu: index,
            Pp: index,
            Ppk: index,
            Ppl: index,
          };
          const { intervals, lowerBounds } = capabilityIntervals({
            indices: { ...indices, Ppu: index, Cpm: index },
            count,
            degreesOfFreedomWithin: 0.8 * (count - 1),
            confidence,
          });
          for (const name of INDEX_NAMES) {
            const [low, high] = intervals[name]!;
            expect(low).toBeLessThan(index);
            expect(high).toBeGreaterThan(index);
            expect(lowerBounds[name]!).toBeGreaterThan(low);
            expect(lowerBounds[name]!).toBeLessThan(index);
          }
        },
      ),
      { numRuns: runs(60) },
    );
  });

  test("more confidence gives a lower bound", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 300 }),
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        (count, index) => {
          const at = (confidence: number) =>
            oneSidedBounds({ index, count, degreesOfFreedom: count - 1, confidence }).lowerBound;
          expect(at(0.99)).toBeLessThan(at(0.9));
        },
      ),
      { numRuns: runs(60) },
    );
  });

  test.each([300, 1000, 5000, 100000])("exact and Bissell come together: n = %i", (count) => {
    for (const index of [0.6, 1.33, 2]) {
      const estimate = { index, count, degreesOfFreedom: count - 1, confidence: 0.95 };
      const exact = oneSidedBounds(estimate).lowerBound;
      const approximate = bissellBounds(estimate).lowerBound;
      // They differ by a skewness term of the order of index/n.
      expect(Math.abs(exact - approximate)).toBeLessThan((2 * index) / count);
    }
  });

  test("a hundred normal readings in even steps are normal, squared they are not", () => {
    const even = normalReadings(100, { centre: 5, sigma: 1 });
    const fine = normality(even);
    const bent = normality(even.map((value) => Math.exp(value)));
    expect(fine.ok && fine.value.p).toBeGreaterThan(0.9);
    expect(bent.ok && bent.value.p).toBeLessThan(1e-6);
  });

  test("indices are refused rather than guessed for a negative spread", () => {
    expect(() =>
      capabilityIndices({
        mean: 0,
        sdOverall: -1,
        sigmaWithin: null,
        tolerance,
        target: null,
        naturalBound: null,
      }),
    ).toThrow(InvalidInput);
  });
});
