import { describe, expect, test } from "vitest";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import { lotMeanLimits } from "../../../lib/limits/lot-mean-limits";
import { standardiseLocation } from "../../../lib/limits/standardise";
import { summarise } from "../../../lib/subgroups/summarise";
import lithography from "../../reference/lithography-line-width.json";

const { cassette, line_width: widths } = lithography.data;
const cassettes = [...new Set(cassette)].map((id) => widths.filter((_, i) => cassette[i] === id));

test("by hand: lots of 4 with ranges of 2 and means 0, 2, 4, 2: σ between = √((2/d₂(2))² − σ²w/4)", () => {
  // Readings −1, 0, 0, 1 about each mean: R̄ = 2, σw = 2/d₂(4); moving ranges 2, 2, 2.
  const lots = [0, 2, 4, 2].map((mean) => summarise([-1, 0, 0, 1].map((one) => one + mean)));
  const found = lotMeanLimits("xbar-r", lots);
  if (!found.ok) throw new Error(found.problem.code);
  // d₂(4) = 2.059 to three decimals (ASTM E2587, from memory): half a unit of it is 2.4e-4 of 2/d₂.
  expect(Math.abs(found.value.sigma - 2 / 2.059)).toBeLessThan(2.4e-4);
  expect(found.value.centre).toBeCloseTo(2, 12);
  expect(found.value.betweenLots ** 2).toBeCloseTo(Math.PI - found.value.sigma ** 2 / 4, 12);
});

describe(`published: ${lithography.source}, cassettes as lots of 15`, () => {
  const found = lotMeanLimits(
    "xbar-s",
    cassettes.map((values) => summarise(values)),
  );
  if (!found.ok) throw new Error(found.problem.code);
  const limits = found.value;

  test("limits of lot means are mean ± 2.66 MR̄ of the cassette means (NIST/SEMATECH e-Handbook 6.3.2.2)", () => {
    const means = cassettes.map((values) => values.reduce((sum, value) => sum + value, 0) / values.length);
    const centre = means.reduce((sum, value) => sum + value, 0) / means.length;
    const ranges = means.slice(1).map((value, i) => Math.abs(value - means[i]!));
    const reach = 2.66 * (ranges.reduce((sum, range) => sum + range, 0) / ranges.length);
    const { location } = limitsForSize(limits, 15);
    expect(location.centre).toBeCloseTo(centre, 10);
    // 3/d₂(2) is 2.6587; the handbook rounds it to 2.66, half a unit of which is 0.19 % of the reach.
    expect(Math.abs(location.upper - centre - reach)).toBeLessThan(0.0019 * reach);
  });

  test("a point at its limit lies three of its own sigma off", () => {
    const { location } = limitsForSize(limits, 15);
    expect(standardiseLocation(limits, { mean: location.upper, size: 15 })).toBeCloseTo(3, 10);
  });
});

test("edge: lots that differ no more than their readings explain have nothing to add", () => {
  const lots = [0, 0.01, 0, 0.01].map((mean) => summarise([-1, 0, 1].map((one) => one + mean)));
  expect(lotMeanLimits("xbar-r", lots)).toEqual({ ok: false, problem: { code: "no-variation" } });
});
