import { describe, expect, test } from "vitest";
import { type StudyData, studyResult } from "../../../lib/measurement-systems/study-data";
import { shownGaugeStudy } from "../../../lib/units/shown-gauge-study";
import reference from "../../reference/gauge-studies.json";

// Readings of another program's example, ten parts by three operators by three trials, in mm.
const [part] = reference.cases.filter(({ kind }) => kind === "crossed-gauge-study");
const measurements = (part!.input as { measurements: number[][][] }).measurements;
const crossed = {
  kind: "crossed" as const,
  readings: measurements.flatMap((operators, p) =>
    operators.flatMap((trials, o) => trials.map((value) => ({ part: `${p}`, operator: `${o}`, value }))),
  ),
};
const settings = { toleranceWidth: 0.5, resolution: 0.0001, confidence: 0.95 };

describe("a crossed study shown in inches", () => {
  const own = studyResult(crossed, settings);
  const shown = shownGaugeStudy({ data: crossed, settings, unit: "mm" }, "in");
  if (
    !own.ok ||
    own.result.kind !== "crossed" ||
    shown?.result.kind !== "crossed" ||
    shown.data.kind !== "crossed"
  )
    throw new Error("The study gives no figures.");
  const [before, after] = [own.result.study, shown.result.study];
  const { readings } = shown.data;

  test("law: shares, classes and the verdict on the interaction have no unit", () => {
    expect(after.ndc).toBe(before.ndc);
    expect(after.pooled).toBe(before.pooled);
    expect(after.percentTolerance!.grr).toBeCloseTo(before.percentTolerance!.grr, 8);
    expect(after.percentStudy!.grr).toBeCloseTo(before.percentStudy!.grr, 8);
  });

  test("law: standard deviations are lengths, mean squares squares of lengths", () => {
    expect(25.4 * after.deviations.grr).toBeCloseTo(before.deviations.grr, 10);
    expect(25.4 ** 2 * after.repeatabilityInterval.interval[1]).toBeCloseTo(
      before.repeatabilityInterval.interval[1],
      10,
    );
  });

  test("its readings keep every step: four decimals of a mm are six of an inch", () => {
    for (const [i, { value }] of readings.entries()) {
      expect(value).toBe(Number(value.toFixed(6)));
      expect(Math.abs(25.4 * value - crossed.readings[i]!.value)).toBeLessThan(0.00005);
    }
  });
});

test("a type-1 study by hand: known size 25.4 mm is 1 in, Cg is what it was", () => {
  const data: StudyData = {
    kind: "type-1",
    reference: 25.4,
    values: [25.41, 25.4, 25.39, 25.4, 25.41, 25.39],
  };
  const shown = shownGaugeStudy({ data, settings, unit: "mm" }, "in");
  const own = studyResult(data, settings);
  if (!own.ok || own.result.kind !== "type-1" || shown?.result.kind !== "type-1")
    throw new Error("no figures");
  expect(shown.data).toMatchObject({ reference: 1 });
  expect(shown.result.study.Cg).toBeCloseTo(own.result.study.Cg, 10);
  expect(25.4 * shown.result.study.bias).toBeCloseTo(own.result.study.bias, 12);
});

test("nothing is shown anew where the unit stays, or is none", () => {
  expect(shownGaugeStudy({ data: crossed, settings, unit: "mm" }, "mm")).toBeNull();
  expect(shownGaugeStudy({ data: crossed, settings, unit: "none" }, "in")).toBeNull();
});
