import { describe, expect, test } from "vitest";
import { lagOneAutocorrelation } from "../../../lib/autocorrelation/lag-one";
import type { Computed } from "../../../lib/computed";
import { fitLine } from "../../../lib/regression/line";
import { maximum, mean, median, minimum, range, sampleStandardDeviation } from "../../../lib/summary/moments";
import beam from "../../reference/beam-deflection.json";
import heatFlow from "../../reference/heat-flow-meter.json";
import resistor from "../../reference/standard-resistor.json";
import reference from "../../reference/trends-and-groups.json";

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

type TrendCase = {
  id: string;
  kind: string;
  input: { times: number[]; values: number[] };
  expected: {
    slope: number;
    intercept: number;
    slopeStandardError: number;
    residualStandardDeviation: number;
    rSquared: number;
    tValue: number;
    pValue: number;
    slopeInterval95: number[];
    autocorrelation: {
      lagOne: number;
      lagOneOfResiduals: number;
    };
  };
};

describe(`computed independently, trends: ${reference.source}`, () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as TrendCase[]) {
    if (kind !== "trend") continue;
    const { times: x, values: y } = input;
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

    test(`${id}: autocorrelation`, () => {
      const theirs = expected.autocorrelation;
      agree(found(lagOneAutocorrelation(y)).r, theirs.lagOne);
      agree(found(lagOneAutocorrelation(line.residuals)).r, theirs.lagOneOfResiduals);
    });
  }
});

type Printed = { source: string; printed: { name: string; printed: unknown }[] };
const printed = ({ printed: table }: Printed, name: string) =>
  Number(table.find((one) => one.name === name)!.printed);
const within = (ours: number, theirs: number, allowed: number) =>
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(allowed);

const inOrder = (y: number[]) => found(fitLine({ x: y.map((_, i) => i + 1), y, confidence: 0.95 }));

describe(`published: ${heatFlow.source}`, () => {
  const { values } = heatFlow.data;
  test("slope over the order of the runs", () => {
    const { slope, intercept } = inOrder(values);
    // Printed -5.6412e-05 from single precision; scipy 1.17.1 has -5.641135800870644e-05, as we do.
    within(slope.estimate, printed(heatFlow, "slope against run order"), 1e-9);
    within(slope.estimate, -5.641135800870644e-5, 1e-16);
    within(slope.standardError, printed(heatFlow, "se of slope"), 5e-9);
    within(slope.t!, printed(heatFlow, "t of slope"), 5e-3);
    within(intercept.estimate, printed(heatFlow, "intercept"), 5e-6);
  });
});

describe(`published: ${beam.source}`, () => {
  const { values } = beam.data;
  test("no slope over the order of the runs", () => {
    const { slope, intercept } = inOrder(values);
    within(slope.t!, printed(beam, "slope t"), 5e-4);
    within(intercept.estimate, printed(beam, "intercept"), 5e-4);
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

  test("line and neighbours see the drift", () => {
    within(inOrder(values).slope.t!, printed(resistor, "slope t"), 0.05);
    within(found(lagOneAutocorrelation(values)).r, printed(resistor, "lag-1 autocorrelation"), 5e-3);
    const slope = resistor.recomputed.find((one) => one.name === "slope per observation")!.value;
    within(inOrder(values).slope.estimate, slope, 1e-13);
  });
});
