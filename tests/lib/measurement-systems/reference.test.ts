import { describe, expect, test } from "vitest";
import { modifiedLargeSample, satterthwaite } from "../../../lib/components/linear-combination";
import type { Computed } from "../../../lib/computed";
import type { CrossedReadings } from "../../../lib/measurement-systems/arrange";
import { averageAndRange, rangeFactors } from "../../../lib/measurement-systems/average-and-range";
import { type CrossedAnova, crossedAnova } from "../../../lib/measurement-systems/crossed-anova";
import { type CrossedStudy, crossedStudy, POOL_ABOVE } from "../../../lib/measurement-systems/crossed-study";
import { linearityStudy } from "../../../lib/measurement-systems/linearity";
import { typeOneStudy } from "../../../lib/measurement-systems/type-one";
import reference from "../../reference/gauge-studies.json";
import factors from "../../reference/range-factors.json";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

/** What the file asks for; a sum of squares that is zero up to rounding is held to its absolute 1e-12. */
const RELATIVE = 1e-9;
const SQUARES_ABSOLUTE = 1e-12;

function agree(ours: number | null | undefined, theirs: number, absolute = 0): void {
  expect(ours).not.toBeNull();
  expect(Math.abs(ours! - theirs)).toBeLessThanOrEqual(Math.max(RELATIVE * Math.abs(theirs), absolute));
}

type Table = {
  rows: string[];
  degreesOfFreedom: number[];
  sumOfSquares: number[];
  meanSquare: number[];
  fValue: number[];
  pValue: number[];
};
type Named = Record<string, number>;
type Components = {
  rawVarianceComponents: Named;
  varianceComponents: Named;
  standardDeviations: Named;
  percentContribution: Named;
  percentStudyVariation: Named;
  percentTolerance: Named;
  distinctCategoriesUnrounded: number;
  distinctCategories: number;
};
type Crossed = {
  id: string;
  kind: string;
  input: { measurements: number[][][]; toleranceWidth: number };
  expected: {
    anovaWithInteraction: Table;
    anovaWithoutInteraction: Table;
    componentsWithInteraction: Components;
    componentsWithoutInteraction: Components;
    interactionPValue: number;
    "poolingAt0.25": "pool" | "keep";
    "poolingAt0.05": "pool" | "keep";
    gaugeVarianceInterval: {
      estimateUntruncated: number;
      modifiedLargeSample: number[];
      satterthwaite: number[];
      satterthwaiteDegreesOfFreedom: number;
    };
    repeatabilityVarianceInterval: { chiSquare: number[] };
    averageAndRange: Named & {
      operatorRanges: number[];
      operatorMeans: number[];
      percentStudyVariation: Named;
      percentTolerance: Named;
      constants: { K1: number; K2: number; K3: number };
    };
  };
};

const OUR_NAMES = {
  repeatability: "repeatability",
  operator: "operator",
  partByOperator: "interaction",
  reproducibility: "reproducibility",
  gauge: "grr",
  part: "part",
  total: "total",
} as const;

const crossedCases = (reference.cases as unknown as Crossed[]).filter(
  ({ kind }) => kind === "crossed-gauge-study",
);
const readingsOf = ({ input }: Crossed): CrossedReadings => ({
  parts: input.measurements.map((_, i) => `${i + 1}`),
  operators: input.measurements[0]!.map((_, i) => `${i + 1}`),
  trials: input.measurements[0]![0]!.length,
  values: input.measurements,
});

function compareTable(ours: CrossedAnova, theirs: Table, { isAdditive }: { isAdditive: boolean }) {
  expect([...ours.lines.map((line) => line.degreesOfFreedom), ours.total.degreesOfFreedom]).toEqual(
    theirs.degreesOfFreedom,
  );
  agree(ours.total.sumOfSquares, theirs.sumOfSquares.at(-1)!);
  for (const [i, line] of ours.lines.entries()) {
    agree(line.sumOfSquares, theirs.sumOfSquares[i]!, SQUARES_ABSOLUTE);
    agree(line.meanSquare, theirs.meanSquare[i]!, SQUARES_ABSOLUTE);
    // Against an interaction of zero up to rounding no F means anything.
    if (i >= theirs.fValue.length || (isAdditive && theirs.rows.includes("partByOperator"))) continue;
    agree(line.F, theirs.fValue[i]!);
    agree(line.p, theirs.pValue[i]!);
  }
}

function compareComponents(ours: CrossedStudy, theirs: Components) {
  agree(ours.untruncated.operator, theirs.rawVarianceComponents.operator!, SQUARES_ABSOLUTE);
  agree(ours.untruncated.interaction, theirs.rawVarianceComponents.partByOperator!, SQUARES_ABSOLUTE);
  agree(ours.untruncated.part, theirs.rawVarianceComponents.part!);
  for (const [theirName, name] of Object.entries(OUR_NAMES)) {
    agree(ours.components[name], theirs.varianceComponents[theirName]!, SQUARES_ABSOLUTE);
    agree(ours.deviations[name], theirs.standardDeviations[theirName]!, 1e-9);
    agree(ours.contribution![name], theirs.percentContribution[theirName]!, 1e-9);
    agree(ours.percentStudy![name], theirs.percentStudyVariation[theirName]!, 1e-6);
    agree(ours.percentTolerance![name], theirs.percentTolerance[theirName]!, 1e-6);
  }
  agree(ours.ndcUnrounded, theirs.distinctCategoriesUnrounded);
  expect(ours.ndc).toBe(theirs.distinctCategories);
}

describe(`computed independently, crossed studies: ${reference.source}`, () => {
  for (const one of crossedCases) {
    const readings = readingsOf(one);
    const { expected } = one;
    const { toleranceWidth } = one.input;
    const isAdditive = one.id === "crossed-exactly-additive";
    const study = (poolAbove: number) =>
      crossedStudy(readings, { toleranceWidth, poolAbove, confidence: 0.95 });

    test(`${one.id}: both tables`, () => {
      compareTable(crossedAnova(readings, { interaction: true }), expected.anovaWithInteraction, {
        isAdditive,
      });
      compareTable(crossedAnova(readings, { interaction: false }), expected.anovaWithoutInteraction, {
        isAdditive,
      });
    });

    test(`${one.id}: components and per cents, kept and pooled`, () => {
      compareComponents(study(1), expected.componentsWithInteraction);
      compareComponents(study(-1), expected.componentsWithoutInteraction);
    });

    test(`${one.id}: whether the interaction is pooled`, () => {
      if (!isAdditive) agree(study(1).interactionP, expected.interactionPValue);
      expect(study(POOL_ABOVE).pooled).toBe(expected["poolingAt0.25"] === "pool");
      expect(study(0.05).pooled).toBe(expected["poolingAt0.05"] === "pool");
    });

    test(`${one.id}: intervals of the gauge's variance and of repeatability`, () => {
      const { grrInterval, repeatabilityInterval } = study(1);
      const theirs = expected.gaugeVarianceInterval;
      agree(grrInterval.modifiedLargeSample.estimate, theirs.estimateUntruncated);
      for (const i of [0, 1] as const) {
        agree(grrInterval.modifiedLargeSample.interval[i], theirs.modifiedLargeSample[i]!);
        agree(grrInterval.satterthwaite!.interval[i], theirs.satterthwaite[i]!);
        agree(repeatabilityInterval.interval[i], expected.repeatabilityVarianceInterval.chiSquare[i]!);
      }
    });

    test(`${one.id}: average and range, with the factors of the printed table`, () => {
      const theirs = expected.averageAndRange;
      const ours = averageAndRange(readings, { factors: theirs.constants, toleranceWidth });
      agree(ours.meanRange, theirs.meanRange!);
      agree(ours.rangeUpperLimit, theirs.rangeUpperLimit!);
      agree(ours.differenceOfOperators, theirs.differenceOfOperatorMeans!);
      agree(ours.partRange, theirs.partRange!);
      for (const [j, mean] of theirs.operatorMeans.entries()) agree(ours.operatorMeans[j], mean);
      for (const [j, range] of theirs.operatorRanges.entries()) agree(ours.operatorRanges[j], range);
      agree(ours.equipmentVariation, theirs.equipmentVariation!);
      agree(ours.appraiserVariation, theirs.appraiserVariation!);
      agree(ours.grr, theirs.gauge!);
      agree(ours.partVariation, theirs.partVariation!);
      agree(ours.totalVariation, theirs.totalVariation!);
      agree(ours.percentStudy, theirs.percentStudyVariation.gauge!);
      agree(ours.percentTolerance, theirs.percentTolerance.gauge!);
      agree(ours.ndcUnrounded, theirs.distinctCategoriesUnrounded!);
      expect(ours.ndc).toBe(theirs.distinctCategories);
    });
  }

  test("Satterthwaite's degrees of freedom", () => {
    const { expected, input } = crossedCases[0]!;
    const table = expected.anovaWithInteraction;
    const p = input.measurements.length;
    const n = input.measurements[0]![0]!.length;
    const weights = [1 / (p * n), (p - 1) / (p * n), (n - 1) / n];
    const terms = [1, 2, 3].map((i) => ({
      coefficient: weights[i - 1]!,
      meanSquare: table.meanSquare[i]!,
      degreesOfFreedom: table.degreesOfFreedom[i]!,
    }));
    const theirs = expected.gaugeVarianceInterval;
    agree(satterthwaite(terms, 0.95).degreesOfFreedom, theirs.satterthwaiteDegreesOfFreedom);
    agree(modifiedLargeSample(terms, 0.95).estimate, theirs.estimateUntruncated);
  });
});

describe(`from memory: ${factors.source}`, () => {
  const { K1, K2, K3 } = factors.data;

  test.each(Object.entries(K3))("K3 of %s parts", (parts, printed) => {
    // Half a unit of the fourth decimal, and as much for the table's own rounded constants behind it.
    const ours = rangeFactors({ trials: 2, operators: 2, parts: Number(parts) }).K3;
    expect(Math.abs(ours - printed)).toBeLessThan(1e-4);
  });

  test.each(["2", "3"] as const)("K1 and K2 of %s", (n) => {
    const ours = rangeFactors({ trials: Number(n), operators: Number(n), parts: 10 });
    expect(Math.abs(ours.K1 - K1[n])).toBeLessThan(5e-5);
    expect(Math.abs(ours.K2 - K2[n])).toBeLessThan(5e-5);
  });
});

type TypeOneCase = {
  id: string;
  kind: string;
  input: { readings: number[]; reference: number; toleranceWidth: number; resolution: number };
  expected: Named & { biasInterval95: number[] };
};

describe("computed independently, type-1 studies", () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as TypeOneCase[]) {
    if (kind !== "type-1-gauge-study") continue;
    test(id, () => {
      const { readings, reference: known, toleranceWidth, resolution } = input;
      const options = { reference: known, toleranceWidth, resolution, share: 0.2, confidence: 0.95 };
      const six = found(typeOneStudy(readings, { ...options, width: 6 }));
      const four = found(typeOneStudy(readings, { ...options, width: 4 }));
      agree(six.mean, expected.mean!);
      agree(six.standardDeviation, expected.standardDeviation!);
      // The bias is a difference of near numbers: what the readings lost on becoming doubles shows in it.
      agree(six.bias, expected.bias!, 1e-14);
      agree(six.t, expected.tValue!, 1e-9);
      agree(six.p, expected.pValue!, 1e-9);
      agree(six.interval[0], expected.biasInterval95[0]!, 1e-14);
      agree(six.interval[1], expected.biasInterval95[1]!, 1e-14);
      agree(six.Cg, expected.Cg20PercentOver6s!);
      agree(six.Cgk, expected.Cgk20PercentOver6s!);
      agree(four.Cg, expected.Cg20PercentOver4s!);
      agree(four.Cgk, expected.Cgk20PercentOver4s!);
      agree(six.percentResolution, expected.resolutionPercentOfTolerance!);
    });
  }
});

type LinearityCase = {
  id: string;
  kind: string;
  input: { references: number[]; biasReadings: number[][] };
  expected: Named & {
    fittedAtReferences: number[];
    bandLower95: number[];
    bandUpper95: number[];
    parts: {
      meanBias: number;
      standardDeviation: number;
      tValue: number;
      pValue: number;
      interval95: number[];
    }[];
  };
};

describe("computed independently, bias and linearity", () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as LinearityCase[]) {
    if (kind !== "linearity-and-bias") continue;
    test(id, () => {
      const pieces = input.references.map((known, i) => ({
        reference: known,
        deviations: input.biasReadings[i]!,
      }));
      const { line, fitted, overallBias, pieces: each } = found(linearityStudy(pieces, { confidence: 0.95 }));
      agree(line.slope.estimate, expected.slope!);
      agree(line.intercept.estimate, expected.intercept!);
      agree(line.residualStandardDeviation, expected.residualStandardDeviation!);
      agree(line.rSquared, expected.rSquared!);
      agree(line.slope.standardError, expected.slopeStandardError!);
      agree(line.intercept.standardError, expected.interceptStandardError!);
      agree(line.slope.t, expected.slopeTValue!);
      agree(line.slope.p, expected.slopePValue!);
      agree(line.intercept.t, expected.interceptTValue!);
      agree(line.intercept.p, expected.interceptPValue!);
      agree(overallBias, expected.overallMeanBias!);
      for (const [i, { bias, lower, upper }] of fitted.entries()) {
        agree(bias, expected.fittedAtReferences[i]!);
        agree(lower, expected.bandLower95[i]!);
        agree(upper, expected.bandUpper95[i]!);
      }
      for (const [i, part] of expected.parts.entries()) {
        agree(each[i]!.bias, part.meanBias);
        agree(each[i]!.standardDeviation, part.standardDeviation);
        agree(each[i]!.t, part.tValue);
        agree(each[i]!.p, part.pValue);
        agree(each[i]!.interval[0], part.interval95[0]!);
        agree(each[i]!.interval[1], part.interval95[1]!);
      }
    });
  }
});
