import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { benjaminiHochberg, bonferroni, holm } from "../../../lib/components/adjusted-p";
import { bartlettTest, leveneTest, leveneTestAboutMeans } from "../../../lib/components/equal-spread";
import { nestedComponents } from "../../../lib/components/nested";
import { oneWayAnova } from "../../../lib/components/one-way";
import { restrictedComponents } from "../../../lib/components/one-way-reml";
import { tukeyKramerPairs, welchPairs } from "../../../lib/components/pairwise";
import { type EffectLine, twoWayAnova } from "../../../lib/components/two-way";
import type { Computed } from "../../../lib/computed";
import { fUpperQuantile } from "../../../lib/distributions/f";
import { studentizedRangeUpperTail } from "../../../lib/distributions/studentized-range";
import gear from "../../reference/gear-diameter.json";
import reference from "../../reference/trends-and-groups.json";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

const RELATIVE = 1e-8;
function agree(ours: number | null | undefined, theirs: number, relative = RELATIVE, absolute = 1e-15): void {
  expect(ours).not.toBeNull();
  expect(Math.abs(ours! - theirs)).toBeLessThanOrEqual(relative * Math.abs(theirs) + absolute);
}

type Table = {
  rows: string[];
  degreesOfFreedom: number[];
  sumOfSquares: number[];
  fValue: number[];
  pValue: number[];
  residualMeanSquare: number;
};
type TwoWayCase = {
  id: string;
  kind: string;
  input: { fixture: string[]; lot: string[]; values: number[] };
  expected: { additiveModel: Table; modelWithInteraction?: Table };
};

const numbered = (names: string[]) => names.map((name) => Number(name.slice(1)));

describe(`computed independently, two factors: ${reference.source}`, () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as TwoWayCase[]) {
    if (kind !== "two-way") continue;
    for (const [name, table] of Object.entries(expected)) {
      test(`${id}: ${name}`, () => {
        const ours = found(
          twoWayAnova({
            values: input.values,
            first: numbered(input.fixture),
            second: numbered(input.lot),
            interaction: name === "modelWithInteraction",
          }),
        );
        const lines = [ours.first, ours.second, ours.interaction].filter(
          (line): line is EffectLine => line !== null,
        );
        for (const [i, line] of lines.entries()) {
          agree(line.sumOfSquares, table.sumOfSquares[i]!);
          expect(line.degreesOfFreedom).toBe(table.degreesOfFreedom[i]);
          agree(line.F, table.fValue[i]!);
          agree(line.p, table.pValue[i]!);
        }
        agree(ours.residual.sumOfSquares, table.sumOfSquares.at(-1)!);
        expect(ours.residual.degreesOfFreedom).toBe(table.degreesOfFreedom.at(-1));
        agree(ours.residual.meanSquare, table.residualMeanSquare);
      });
    }
  }
});

type Named = Record<string, number>;
type OneWayCase = {
  id: string;
  kind: string;
  input: { groups: number[][] };
  expected: {
    anova: Named;
    varianceComponentsAnova: Named;
    varianceComponentsReml: Named;
    leveneMeanCentred: { fValue: number; pValue: number };
    brownForsytheMedianCentred: { fValue: number; pValue: number };
    bartlett: { statistic: number; pValue: number };
    welch: {
      pair: number[];
      difference: number;
      tValue: number;
      degreesOfFreedom: number;
      pValue: number;
      interval95: number[];
    }[];
    tukeyKramer: { pair: number[]; difference: number; studentizedRange: number; pValue: number }[];
  };
};

describe("computed independently, one factor", () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as OneWayCase[]) {
    if (kind !== "one-way") continue;
    const values = input.groups.flat();
    const ids = input.groups.flatMap((group, i) => group.map(() => i));

    test(`${id}: analysis of variance and components`, () => {
      const { between, within, F, p } = found(oneWayAnova(values, ids));
      const { anova, varianceComponentsAnova: components, varianceComponentsReml: restricted } = expected;
      agree(between.sumOfSquares, anova.sumOfSquaresBetween!);
      agree(within.sumOfSquares, anova.sumOfSquaresWithin!);
      agree(F, anova.fValue!);
      agree(p, anova.pValue!);
      const nested = found(nestedComponents({ values, levels: [{ name: "group", ids }] }));
      agree(nested.lines[0]!.untruncated, components.betweenRaw!);
      agree(nested.lines[0]!.variance, components.between!);
      agree(nested.lines[1]!.variance, components.within!);
      agree(nested.lines[0]!.share, components.intraclassCorrelation!);
      // The file asks for 1e-5 of the restricted likelihood: its two programs stop at as much.
      const ours = found(restrictedComponents(values, ids));
      agree(ours.within, restricted.within!, 1e-5);
      agree(ours.between, restricted.between!, 1e-5, 1e-12);
      agree(ours.mean, restricted.mean!, 1e-5);
    });

    test(`${id}: equal spread`, () => {
      for (const [ours, theirs] of [
        [found(leveneTestAboutMeans(values, ids)), expected.leveneMeanCentred],
        [found(leveneTest(values, ids)), expected.brownForsytheMedianCentred],
      ] as const) {
        agree(ours.statistic, theirs.fValue);
        agree(ours.p, theirs.pValue);
      }
      const bartlett = found(bartlettTest(values, ids));
      agree(bartlett.statistic, expected.bartlett.statistic);
      agree(bartlett.p, expected.bartlett.pValue);
    });

    test(`${id}: pairs`, () => {
      const welch = found(welchPairs(values, ids, { confidence: 0.95 }));
      for (const [k, theirs] of expected.welch.entries()) {
        const ours = welch[k]!;
        expect([ours.first, ours.second]).toEqual(theirs.pair);
        agree(ours.difference, theirs.difference);
        agree(ours.t, theirs.tValue);
        agree(ours.degreesOfFreedom, theirs.degreesOfFreedom);
        agree(ours.p, theirs.pValue);
        for (const i of [0, 1] as const) agree(ours.interval[i], theirs.interval95[i]!);
      }
      const tukey = found(tukeyKramerPairs(values, ids));
      for (const [k, theirs] of expected.tukeyKramer.entries()) {
        const ours = tukey[k]!;
        expect([ours.first, ours.second]).toEqual(theirs.pair);
        // The file takes the second less the first.
        agree(-ours.difference, theirs.difference);
        agree(ours.studentizedRange, theirs.studentizedRange);
        expect(Math.abs(ours.p - theirs.pValue)).toBeLessThan(1e-8);
      }
    });
  }
});

type Adjusted = {
  id: string;
  kind: string;
  input: { pValues: number[] };
  expected: Record<string, number[]>;
};
type Ranges = {
  kind: string;
  input: { q: number[]; groupCount: number[]; degreesOfFreedom: (number | null)[] };
  expected: { upperTail: number[] };
};

describe("computed independently, many tests", () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as Adjusted[]) {
    if (kind !== "adjusted-p-values") continue;
    test(id, () => {
      for (const [name, adjust] of Object.entries({ benjaminiHochberg, holm, bonferroni })) {
        const ours = adjust(input.pValues);
        for (const [i, p] of expected[name]!.entries()) agree(ours[i], p);
      }
    });
  }

  test("the studentized range", () => {
    const one = (reference.cases as unknown as Ranges[]).find(
      ({ kind }) => kind === "studentized-range-upper-tail",
    )!;
    for (const [i, q] of one.input.q.entries()) {
      const degreesOfFreedom = one.input.degreesOfFreedom[i] ?? Number.POSITIVE_INFINITY;
      const ours = studentizedRangeUpperTail(q, { groups: one.input.groupCount[i]!, degreesOfFreedom });
      expect(Math.abs(ours - one.expected.upperTail[i]!)).toBeLessThan(1e-9);
    }
  });
});

describe(`published: ${gear.source}`, () => {
  test("critical F", () => {
    const printed = gear.printed.find(({ name }) => name === "critical F 0.05")!.printed as number;
    // Printed 1.9856 here and 1.9855 on the page of Levene's test; the true value is 1.98559.
    expect(Math.abs(fUpperQuantile(0.05, { numerator: 9, denominator: 90 }) - printed)).toBeLessThan(5e-5);
  });
});

describe("laws", () => {
  test("two factors, by hand: 1, 2 | 3, 5 without replication", () => {
    // Row means 1.5, 4; column means 2, 3.5; mean 2.75. SS rows 6.25, SS columns 2.25, residual 0.25.
    const { first, second, residual } = found(
      twoWayAnova({ values: [1, 2, 3, 5], first: [1, 1, 2, 2], second: [1, 2, 1, 2], interaction: false }),
    );
    expect(first.sumOfSquares).toBeCloseTo(6.25, 12);
    expect(second.sumOfSquares).toBeCloseTo(2.25, 12);
    expect(residual.sumOfSquares).toBeCloseTo(0.25, 12);
  });

  test("two factors do not mind which is named first", () => {
    const rows = fc.array(
      fc.tuple(
        fc.integer({ min: -99, max: 99 }),
        fc.integer({ min: 0, max: 2 }),
        fc.integer({ min: 0, max: 3 }),
      ),
      { minLength: 25, maxLength: 40 },
    );
    fc.assert(
      fc.property(rows, (readings) => {
        const values = readings.map(([value]) => value);
        const a = readings.map(([, one]) => one);
        const b = readings.map(([, , two]) => two);
        const one = twoWayAnova({ values, first: a, second: b, interaction: false });
        const other = twoWayAnova({ values, first: b, second: a, interaction: false });
        expect(one.ok).toBe(other.ok);
        if (!one.ok || !other.ok) return;
        expect(other.value.second.sumOfSquares).toBeCloseTo(one.value.first.sumOfSquares, 6);
        expect(other.value.residual.sumOfSquares).toBeCloseTo(one.value.residual.sumOfSquares, 6);
      }),
    );
  });

  test("agreement of two methods: equal groups give the restricted estimate of the mean squares", () => {
    const values = [1, 2, 3, 7, 8, 9, 4, 6, 5];
    const ids = [1, 1, 1, 2, 2, 2, 3, 3, 3];
    const { between, within } = found(restrictedComponents(values, ids));
    const { lines } = found(nestedComponents({ values, levels: [{ name: "group", ids }] }));
    // A maximum found by its height is known to half the digits of a double.
    expect(between / lines[0]!.variance!).toBeCloseTo(1, 6);
    expect(within / lines[1]!.variance!).toBeCloseTo(1, 6);
  });

  test("adjusted p keep their order, lie above the plain ones, and rank Holm between", () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 30 }),
        (ps) => {
          const [q, h, b] = [benjaminiHochberg(ps), holm(ps), bonferroni(ps)];
          for (const [i, p] of ps.entries()) {
            expect(q[i]!).toBeGreaterThanOrEqual(p * (1 - 1e-15));
            expect(h[i]!).toBeGreaterThanOrEqual(q[i]! * (1 - 1e-12));
            expect(b[i]!).toBeGreaterThanOrEqual(h[i]! * (1 - 1e-12));
          }
        },
      ),
    );
  });

  test("Tukey of two groups is their t test", () => {
    const values = [1, 2, 4, 3, 6, 8];
    const ids = [1, 1, 1, 2, 2, 2];
    expect(found(tukeyKramerPairs(values, ids))[0]!.p).toBeCloseTo(found(oneWayAnova(values, ids)).p!, 10);
  });
});

describe("edge", () => {
  test.each([
    [
      "one level",
      twoWayAnova({ values: [1, 2, 3, 4], first: [1, 1, 1, 1], second: [1, 2, 1, 2], interaction: false }),
      "too-few-subgroups",
    ],
    [
      "no reading",
      twoWayAnova({ values: [], first: [], second: [], interaction: false }),
      "too-few-readings",
    ],
    [
      "factors that go together",
      twoWayAnova({ values: [1, 2, 3, 4], first: [1, 1, 2, 2], second: [1, 1, 2, 2], interaction: false }),
      "no-variation",
    ],
    [
      "nothing left for the residual",
      twoWayAnova({ values: [1, 2, 3, 5], first: [1, 1, 2, 2], second: [1, 2, 1, 2], interaction: true }),
      "too-few-readings",
    ],
    ["one group", welchPairs([1, 2], [1, 1], { confidence: 0.9 }), "too-few-subgroups"],
    ["a group of one", welchPairs([1, 2, 3], [1, 1, 2], { confidence: 0.9 }), "too-few-readings"],
    ["groups that do not vary", welchPairs([1, 1, 2, 2], [1, 1, 2, 2], { confidence: 0.9 }), "no-variation"],
    ["one group for Tukey", tukeyKramerPairs([1, 2], [1, 1]), "too-few-subgroups"],
    ["groups of one for Tukey", tukeyKramerPairs([1, 2], [1, 2]), "too-few-readings"],
    ["nothing within for Tukey", tukeyKramerPairs([1, 1, 2, 2], [1, 1, 2, 2]), "no-variation"],
    ["one group for restricted likelihood", restrictedComponents([1, 2], [1, 1]), "too-few-subgroups"],
    ["groups of one for restricted likelihood", restrictedComponents([1, 2], [1, 2]), "too-few-readings"],
    [
      "nothing within for restricted likelihood",
      restrictedComponents([1, 1, 2, 2], [1, 1, 2, 2]),
      "no-variation",
    ],
  ])("%s", (_, result, code) => {
    expect(!result.ok && result.problem.code).toBe(code);
  });
});

describe("bad input", () => {
  test.each([
    [
      "ids of another length",
      () => twoWayAnova({ values: [1, 2], first: [1], second: [1, 2], interaction: false }),
    ],
    [
      "a reading that is none",
      () => twoWayAnova({ values: [1, Number.NaN], first: [1, 2], second: [1, 2], interaction: false }),
    ],
    ["certainty", () => welchPairs([1, 2, 3, 4], [1, 1, 2, 2], { confidence: 1 })],
    ["a p above 1", () => benjaminiHochberg([0.5, 1.2])],
    ["a negative p", () => holm([-0.1])],
    ["a p that is none", () => bonferroni([Number.NaN])],
    ["Tukey with ids missing", () => tukeyKramerPairs([1, 2], [1])],
    ["restricted likelihood with ids missing", () => restrictedComponents([1, 2], [1])],
    ["Levene about means with an infinite reading", () => leveneTestAboutMeans([1, 1 / 0], [1, 1])],
  ])("%s is refused by name", (_, call) => {
    expect(call).toThrow(InvalidInput);
  });
});
