import { describe, expect, test } from "vitest";
import { capabilityIndices } from "../../../lib/capability/indices";
import { capabilityIntervals } from "../../../lib/capability/intervals";
import { normality } from "../../../lib/capability/normality";
import { clopperPearson, expectedOutside, observedOutside } from "../../../lib/capability/outside";
import { mean, sampleStandardDeviation } from "../../../lib/summary/moments";
import definition from "../../reference/capability-definition.json";
import furnace from "../../reference/furnace-film-thickness.json";
import heatFlow from "../../reference/heat-flow-meter.json";

/** A value of the printed table, by its name there. */
function printed(set: { printed: { name: string; printed: unknown }[] }, name: string): number {
  const found = set.printed.find((one) => one.name === name);
  if (typeof found?.printed !== "number") throw new Error(`nothing printed under ${name}`);
  return found.printed;
}

describe(`published: ${definition.source}`, () => {
  test("USL 20, LSL 8, mean 16, s 2", () => {
    const { USL, LSL, mean, s } = definition.data;
    const indices = capabilityIndices({
      mean,
      sdOverall: s,
      sigmaWithin: s,
      tolerance: { lower: LSL, upper: USL },
      target: null,
      naturalBound: null,
    });
    if (!indices.ok) throw new Error(indices.problem.code);
    // Printed to four decimals.
    for (const name of ["Cp", "Cpk", "Cpl", "Cpu"] as const) {
      expect(Math.abs(indices.value[name]! - printed(definition, name))).toBeLessThan(5e-5);
    }
  });
});

describe(`published: ${furnace.source}`, () => {
  const values = furnace.data.thickness_angstrom;
  const tolerance = { lower: printed(furnace, "LSL"), upper: printed(furnace, "USL") };
  const centre = mean(values);
  const sd = sampleStandardDeviation(values);
  // The page calls its indices Cp and so on but takes the overall standard deviation: our P indices.
  const indices = capabilityIndices({
    mean: centre,
    sdOverall: sd,
    sigmaWithin: null,
    tolerance,
    target: printed(furnace, "target"),
    naturalBound: null,
  });
  if (!indices.ok) throw new Error(indices.problem.code);
  const { intervals } = capabilityIntervals({
    indices: indices.value,
    count: values.length,
    degreesOfFreedomWithin: null,
    confidence: 0.95,
  });

  test.each([
    ["Cp", indices.value.Pp],
    ["Cpl", indices.value.Ppl],
    ["Cpu", indices.value.Ppu],
    ["Cpk", indices.value.Ppk],
    ["Cpm", indices.value.Cpm],
    ["Cp 95% CI low", intervals.Pp![0]],
    ["Cp 95% CI high", intervals.Pp![1]],
    ["Cpk 95% CI low", intervals.Ppk![0]],
    ["Cpk 95% CI high", intervals.Ppk![1]],
    ["Cpm 95% CI low", intervals.Cpm![0]],
    ["Cpm 95% CI high", intervals.Cpm![1]],
  ])("%s", (name, ours) => {
    // Printed to five decimals.
    expect(Math.abs(ours! - printed(furnace, name))).toBeLessThan(5e-6);
  });

  test("per cent outside, by the model and counted", () => {
    const expected = expectedOutside({ mean: centre, sigma: sd, tolerance });
    // The page prints 0.00247 for an exact tail of 0.0024645 %, so one unit of the last place is allowed.
    expect(Math.abs(100 * expected.below! - printed(furnace, "% below LSL (normal model)"))).toBeLessThan(
      1e-5,
    );
    expect(Math.abs(100 * expected.above! - printed(furnace, "% above USL (normal model)"))).toBeLessThan(
      5e-6,
    );
    const observed = observedOutside({ values, tolerance });
    expect(observed.below! + observed.above!).toBe(printed(furnace, "% outside observed"));
  });
});

describe(`published: ${heatFlow.source}`, () => {
  test("Anderson-Darling", () => {
    const ours = normality(heatFlow.data.values);
    if (!ours.ok) throw new Error(ours.problem.code);
    // Printed 0.129; an independent recomputation gives 0.1264787831 and the passport says so.
    expect(Math.abs(ours.value.A2 - printed(heatFlow, "Anderson-Darling"))).toBeLessThan(0.003);
    expect(Math.abs(ours.value.A2 - 0.1264787831)).toBeLessThan(5e-11);
  });
});

describe("exact interval of a fraction", () => {
  test("by hand: none of n leaves up to 1 − (α/2)^(1/n), all of n down to (α/2)^(1/n)", () => {
    const [low, high] = clopperPearson({ count: 0, of: 100, confidence: 0.95 });
    expect(low).toBe(0);
    expect(high).toBeCloseTo(1 - 0.025 ** 0.01, 13);
    const all = clopperPearson({ count: 100, of: 100, confidence: 0.95 });
    expect(all[0]).toBeCloseTo(0.025 ** 0.01, 13);
    expect(all[1]).toBe(1);
  });

  test("by hand: 1 of 2 at 50 % leaves 1 − √0.75 to √0.75", () => {
    // P(X ≥ 1) = 1 − (1 − p)² = 0.25 and, mirrored, P(X ≤ 1) = 1 − p² = 0.25.
    const [low, high] = clopperPearson({ count: 1, of: 2, confidence: 0.5 });
    expect(low).toBeCloseTo(1 - Math.sqrt(0.75), 13);
    expect(high).toBeCloseTo(Math.sqrt(0.75), 13);
  });
});
