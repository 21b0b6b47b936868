import { describe, expect, test } from "vitest";
import { lagOneAutocorrelation } from "../../../lib/autocorrelation/lag-one";
import { durbinWatson, ljungBox, vonNeumannRatio } from "../../../lib/autocorrelation/portmanteau";
import { bartlettTest, leveneTest } from "../../../lib/components/equal-spread";
import type { Computed } from "../../../lib/computed";
import { grubbsTest } from "../../../lib/outliers/grubbs";
import { fitLine } from "../../../lib/regression/line";
import { maximum, mean, median, minimum, range, sampleStandardDeviation } from "../../../lib/summary/moments";
import { changeOfMeanOrSpread, changePoint } from "../../../lib/trend/change-point";
import { mannKendall } from "../../../lib/trend/mann-kendall";
import { neweyWestSlope } from "../../../lib/trend/newey-west";
import { runsTest } from "../../../lib/trend/runs-test";
import { theilSen } from "../../../lib/trend/theil-sen";
import beam from "../../reference/beam-deflection.json";
import heatFlow from "../../reference/heat-flow-meter.json";
import resistor from "../../reference/standard-resistor.json";
import reference from "../../reference/trends-and-groups.json";
import uranium from "../../reference/uranium-readings.json";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

/** What the file asks for. */
const RELATIVE = 1e-8;

function agree(ours: number | null | undefined, theirs: number, relative = RELATIVE): void {
  expect(ours).not.toBeNull();
  // A slope or a z of 0 up to rounding has no relative error.
  expect(Math.abs(ours! - theirs)).toBeLessThanOrEqual(relative * Math.abs(theirs) + 1e-15);
}

type Test = { lags: number; statistic: number; pValue: number };
type TrendCase = {
  id: string;
  kind: string;
  input: { times: number[]; values: number[]; neweyWestLag: number };
  expected: {
    slope: number;
    intercept: number;
    slopeStandardError: number;
    residualStandardDeviation: number;
    rSquared: number;
    tValue: number;
    pValue: number;
    slopeInterval95: number[];
    neweyWest: {
      slopeStandardError: number;
      slopeStandardErrorWithFactorNOverNMinus2: number;
      normalPValue: number;
      tPValue: number;
    };
    theilSen: {
      slope: number;
      interceptMedianOfResiduals: number;
      interval95: number[];
      slopesCount: number;
    };
    mannKendall: {
      S: number;
      variance: number;
      zWithContinuity: number;
      pValue: number;
      tauB: number;
      tauA: number;
    };
    autocorrelation: {
      lagOne: number;
      lagOneOfResiduals: number;
      ljungBoxOne: Test;
      ljungBoxOneOfResiduals: Test;
      ljungBoxTen?: Test;
      durbinWatsonOfResiduals: number;
      vonNeumannRatio: number;
    };
  };
};

describe(`computed independently, trends: ${reference.source}`, () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as TrendCase[]) {
    if (kind !== "trend") continue;
    const { times: x, values: y, neweyWestLag: lag } = input;
    const line = found(fitLine({ x, y, confidence: 0.95 }));

    test(`${id}: the line`, () => {
      agree(line.slope.estimate, expected.slope);
      agree(line.intercept.estimate, expected.intercept);
      agree(line.slope.standardError, expected.slopeStandardError);
      agree(line.residualStandardDeviation, expected.residualStandardDeviation);
      agree(line.rSquared, expected.rSquared);
      agree(line.slope.t, expected.tValue);
      agree(line.slope.p, expected.pValue);
      for (const i of [0, 1] as const) agree(line.slope.interval[i], expected.slopeInterval95[i]!);
    });

    test(`${id}: the slope under autocorrelation`, () => {
      const plain = found(neweyWestSlope({ x, y, lag, correction: false }));
      agree(plain.standardError, expected.neweyWest.slopeStandardError);
      agree(plain.pNormal, expected.neweyWest.normalPValue);
      agree(plain.pT, expected.neweyWest.tPValue);
      const corrected = found(neweyWestSlope({ x, y, lag, correction: true }));
      agree(corrected.standardError, expected.neweyWest.slopeStandardErrorWithFactorNOverNMinus2);
    });

    test(`${id}: Theil-Sen`, () => {
      const ours = found(theilSen({ x, y, confidence: 0.95 }));
      agree(ours.slope, expected.theilSen.slope);
      agree(ours.intercept, expected.theilSen.interceptMedianOfResiduals);
      for (const i of [0, 1] as const) agree(ours.interval[i], expected.theilSen.interval95[i]!);
      expect(ours.pairs).toBe(expected.theilSen.slopesCount);
    });

    test(`${id}: Mann-Kendall`, () => {
      const ours = found(mannKendall(y));
      expect(ours.S).toBe(expected.mannKendall.S);
      agree(ours.variance, expected.mannKendall.variance);
      agree(ours.z, expected.mannKendall.zWithContinuity);
      agree(ours.p, expected.mannKendall.pValue);
      agree(ours.tauA, expected.mannKendall.tauA);
      agree(ours.tauB, expected.mannKendall.tauB);
    });

    test(`${id}: autocorrelation`, () => {
      const theirs = expected.autocorrelation;
      agree(found(lagOneAutocorrelation(y)).r, theirs.lagOne);
      agree(found(lagOneAutocorrelation(line.residuals)).r, theirs.lagOneOfResiduals);
      for (const [values, one] of [
        [y, theirs.ljungBoxOne],
        [line.residuals, theirs.ljungBoxOneOfResiduals],
        [y, theirs.ljungBoxTen],
      ] as const) {
        if (one === undefined) continue;
        const ours = found(ljungBox(values, { lags: one.lags }));
        agree(ours.statistic, one.statistic);
        agree(ours.p, one.pValue);
      }
      agree(found(durbinWatson(line.residuals)), theirs.durbinWatsonOfResiduals);
      agree(found(vonNeumannRatio(y)), theirs.vonNeumannRatio);
    });
  }
});

type ChangeCase = {
  id: string;
  kind: string;
  input: { values: number[]; minimumSegment: number };
  expected: {
    firstIndexOfSecondSegment: number;
    meanBefore: number;
    meanAfter: number;
    residualSumOfSquares: number;
    residualSumOfSquaresNoChange: number;
    pooledStandardDeviation: number;
    maximumF: number;
    likelihoodRatioStatistic: number;
    meanAndVarianceSplit: { firstIndexOfSecondSegment: number; likelihoodRatioStatistic: number };
  };
};

describe("computed independently, change points", () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as ChangeCase[]) {
    if (kind !== "change-point") continue;
    test(id, () => {
      const ours = found(changePoint(input.values, { fewest: input.minimumSegment }));
      expect(ours.at).toBe(expected.firstIndexOfSecondSegment);
      agree(ours.meanBefore, expected.meanBefore);
      agree(ours.meanAfter, expected.meanAfter);
      agree(ours.squares, expected.residualSumOfSquares);
      agree(ours.squaresWithout, expected.residualSumOfSquaresNoChange);
      agree(ours.standardDeviation, expected.pooledStandardDeviation);
      agree(ours.F, expected.maximumF);
      agree(ours.likelihoodRatio, expected.likelihoodRatioStatistic);
      const both = found(changeOfMeanOrSpread(input.values, { fewest: input.minimumSegment }));
      expect(both.at).toBe(expected.meanAndVarianceSplit.firstIndexOfSecondSegment);
      agree(both.likelihoodRatio, expected.meanAndVarianceSplit.likelihoodRatioStatistic);
    });
  }
});

type Printed = { source: string; printed: { name: string; printed: unknown }[] };
const printed = ({ printed: table }: Printed, name: string) =>
  Number(table.find((one) => one.name === name)!.printed);
const within = (ours: number, theirs: number, allowed: number) =>
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(allowed);

/** The handbook cuts a series of n into quarters at ⌊n·i/4⌋. */
const quartersOf = (n: number) =>
  Array.from({ length: n }, (_, i) => [1, 2, 3].filter((k) => i >= Math.floor((n * k) / 4)).length);
const inOrder = (y: number[]) => found(fitLine({ x: y.map((_, i) => i + 1), y, confidence: 0.95 }));

describe(`published: ${heatFlow.source}`, () => {
  const { values } = heatFlow.data;
  test("runs about the median", () =>
    within(found(runsTest(values)).z, printed(heatFlow, "runs test Z"), 5e-5));

  test("slope over the order of the runs", () => {
    const { slope, intercept } = inOrder(values);
    // Printed -5.6412e-05 from single precision; scipy 1.17.1 has -5.641135800870644e-05, as we do.
    within(slope.estimate, printed(heatFlow, "slope against run order"), 1e-9);
    within(slope.estimate, -5.641135800870644e-5, 1e-16);
    within(slope.standardError, printed(heatFlow, "se of slope"), 5e-9);
    within(slope.t!, printed(heatFlow, "t of slope"), 5e-3);
    within(intercept.estimate, printed(heatFlow, "intercept"), 5e-6);
  });

  test("spread of the quarters", () => {
    const bartlett = found(bartlettTest(values, quartersOf(values.length)));
    within(bartlett.statistic, printed(heatFlow, "Bartlett over 4 quarters of the series"), 5e-4);
  });

  test("Grubbs: the page calls its critical value one-sided, and it is that of either side", () => {
    const { G, critical, isOutlier } = found(grubbsTest(values, { significance: 0.05, side: "either" }));
    // NIST prints 2.918673, from single precision; the data give 2.918638.
    within(G, printed(heatFlow, "Grubbs G"), 4e-5);
    // Printed 3.597898; scipy 1.17.1 has 3.597906408057065 by the same formula.
    within(critical, printed(heatFlow, "Grubbs critical"), 1e-5);
    within(critical, 3.597906408057065, 1e-12);
    expect(isOutlier).toBe(false);
  });
});

describe(`published: ${beam.source}`, () => {
  const { values } = beam.data;
  test("too many runs, no slope, equal quarters", () => {
    within(found(runsTest(values)).z, printed(beam, "runs test Z"), 5e-5);
    const { slope, intercept } = inOrder(values);
    within(slope.t!, printed(beam, "slope t"), 5e-4);
    within(intercept.estimate, printed(beam, "intercept"), 5e-4);
    const levene = found(leveneTest(values, quartersOf(values.length)));
    // Printed 0.09378, cut off and not rounded; scipy 1.17.1 has 0.09378597391875518.
    within(levene.statistic, printed(beam, "Levene over quarters"), 1e-5);
    within(levene.statistic, 0.09378597391875518, 1e-13);
  });
});

describe(`published: ${resistor.source}`, () => {
  const values = resistor.data.resistance;
  test("summary", () => {
    expect(values).toHaveLength(printed(resistor, "n"));
    within(mean(values), printed(resistor, "mean"), 5e-6);
    within(median(values), printed(resistor, "median"), 5e-6);
    within(sampleStandardDeviation(values), printed(resistor, "sd"), 5e-6);
    within(minimum(values), printed(resistor, "min"), 5e-6);
    within(maximum(values), printed(resistor, "max"), 5e-6);
    within(range(values), printed(resistor, "range"), 5e-6);
  });

  test("every test sees the drift", () => {
    within(inOrder(values).slope.t!, printed(resistor, "slope t"), 0.05);
    within(
      found(leveneTest(values, quartersOf(1000))).statistic,
      printed(resistor, "Levene over quarters"),
      5e-3,
    );
    within(found(runsTest(values)).z, printed(resistor, "runs test Z"), 5e-5);
    within(found(lagOneAutocorrelation(values)).r, printed(resistor, "lag-1 autocorrelation"), 5e-3);
    const slope = resistor.recomputed.find((one) => one.name === "slope per observation")!.value;
    within(inOrder(values).slope.estimate, slope, 1e-13);
  });
});

describe(`published: ${uranium.source}`, () => {
  test("Grubbs", () => {
    const side = "largest";
    const { G, critical, at, isOutlier } = found(
      grubbsTest(uranium.data.values, { significance: 0.05, side }),
    );
    // Printed truncated, 2.4687 for 2.46876.
    within(G, printed(uranium, "G"), 1e-4);
    within(critical, printed(uranium, "one-sided 5% critical"), 5e-4);
    expect(isOutlier).toBe(true);
    expect(`${uranium.data.values[at]} is an outlier`).toBe(
      uranium.printed.find((one) => one.name === "verdict")!.printed,
    );
  });
});
