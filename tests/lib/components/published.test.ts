import { describe, expect, test } from "vitest";
import { lagOneAutocorrelation } from "../../../lib/autocorrelation/lag-one";
import { bartlettTest, leveneTest } from "../../../lib/components/equal-spread";
import { nestedComponents } from "../../../lib/components/nested";
import { oneWayAnova } from "../../../lib/components/one-way";
import type { Computed } from "../../../lib/computed";
import furnace from "../../reference/furnace-film-thickness.json";
import gear from "../../reference/gear-diameter.json";
import heatFlow from "../../reference/heat-flow-meter.json";
import lithography from "../../reference/lithography-line-width.json";
import strd from "../../reference/strd-anova.json";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

/** A value of the printed table, by its name there. */
function printed(set: { printed: { name: string; printed: unknown }[] }, name: string): number {
  const entry = set.printed.find((one) => one.name === name);
  if (entry === undefined) throw new Error(`nothing printed under ${name}`);
  return Number(entry.printed);
}

/** A value that the passport gives as recomputed by an independent program. */
function recomputed(set: { recomputed: { name: string; value: unknown }[] }, name: string): number {
  const entry = set.recomputed.find((one) => one.name === name);
  if (typeof entry?.value !== "number") throw new Error(`nothing recomputed under ${name}`);
  return entry.value;
}

function expectWithin(ours: number | null, theirs: number, allowed: number): void {
  expect(ours).not.toBeNull();
  expect(Math.abs(ours! - theirs)).toBeLessThanOrEqual(allowed);
}

describe(`certified: ${strd.source}`, () => {
  // Digits that two-pass arithmetic reaches on each set; the offset of SmLs04 (1e6) and SmLs07 (1e12)
  // was lost when the readings became doubles, and no program can bring it back.
  const digitsOf = { SiRstv: 12, SmLs01: 14, SmLs04: 8, SmLs07: 2 };

  for (const [set, digits] of Object.entries(digitsOf)) {
    test(`${set}: at least ${digits} correct digits`, () => {
      const groups = strd.data[set as keyof typeof strd.data];
      const values = groups.flat().map(Number);
      const ids = groups.flatMap((group, i) => group.map(() => i));
      const { between, within, F } = found(oneWayAnova(values, ids));
      const correct = (ours: number, name: string) => {
        const certified = printed(strd, `${set} ${name}`);
        return -Math.log10(Math.max(Math.abs(ours / certified - 1), 1e-16));
      };
      expect(correct(between.sumOfSquares, "ss_b")).toBeGreaterThan(digits);
      expect(correct(within.sumOfSquares, "ss_w")).toBeGreaterThan(digits);
      expect(correct(F!, "F")).toBeGreaterThan(digits);
      const total = between.sumOfSquares + within.sumOfSquares;
      expect(correct(between.sumOfSquares / total, "r2")).toBeGreaterThan(digits);
      expect(correct(Math.sqrt(within.meanSquare), "sd")).toBeGreaterThan(digits);
      expect([between.degreesOfFreedom, within.degreesOfFreedom]).toEqual(
        strd.printed.find((one) => one.name === `${set} df`)!.printed,
      );
    });
  }
});

describe(`published: ${gear.source}`, () => {
  const { diameter, batch } = gear.data;

  test("one-way analysis of variance", () => {
    const { between, within, F, p } = found(oneWayAnova(diameter, batch));
    // Printed to six decimals; F to four.
    expectWithin(between.sumOfSquares, printed(gear, "SS batch (df 9)"), 5e-7);
    expectWithin(within.sumOfSquares, printed(gear, "SS residual (df 90)"), 5e-7);
    expectWithin(between.sumOfSquares + within.sumOfSquares, printed(gear, "SS total"), 5e-7);
    expectWithin(F, printed(gear, "F"), 5e-5);
    expectWithin(Math.sqrt(within.meanSquare), printed(gear, "residual sd"), 5e-6);
    expectWithin(p, recomputed(gear, "p of the ANOVA F"), 1e-12);
  });

  test("Bartlett and Levene", () => {
    const bartlett = found(bartlettTest(diameter, batch));
    const levene = found(leveneTest(diameter, batch));
    // NIST computed these in single precision: 20.7858 for 20.785873 and 1.70591 for 1.705918.
    expectWithin(bartlett.statistic, printed(gear, "Bartlett T"), 1e-3);
    expectWithin(levene.statistic, printed(gear, "Levene (median) W"), 1e-4);
    expectWithin(bartlett.p, recomputed(gear, "p of Bartlett"), 1e-12);
    expectWithin(levene.p, recomputed(gear, "p of Levene"), 1e-12);
  });
});

describe(`published: ${furnace.source}`, () => {
  const { lines } = found(
    nestedComponents({
      values: furnace.data.thickness_angstrom,
      levels: [
        { name: "run", ids: furnace.data.run },
        { name: "zone[run]", ids: furnace.data.zone },
      ],
    }),
  );

  test.each([
    ["SS run (df 20)", lines[0]!.sumOfSquares, 5e-3],
    ["SS zone[run] (df 63)", lines[1]!.sumOfSquares, 0.05],
    ["SS within (df 84)", lines[2]!.sumOfSquares, 0.5],
    ["MS run", lines[0]!.meanSquare, 5e-3],
    ["MS zone[run]", lines[1]!.meanSquare, 5e-4],
    ["MS within", lines[2]!.meanSquare, 5e-4],
    ["F run", lines[0]!.F, 5e-6],
    ["F zone[run]", lines[1]!.F, 5e-6],
    ["p zone[run]", lines[1]!.p, 5e-14],
    ["variance component run", lines[0]!.variance, 5e-6],
    ["variance component zone[run]", lines[1]!.variance, 5e-6],
    ["variance component within", lines[2]!.variance, 5e-6],
    ["% run", 100 * lines[0]!.share!, 5e-3],
    ["% zone[run]", 100 * lines[1]!.share!, 5e-3],
    ["% within", 100 * lines[2]!.share!, 5e-3],
  ])("%s to half a unit of the last printed place", (name, ours, allowed) => {
    expectWithin(ours, printed(furnace, name), allowed);
  });

  test("p of runs, printed as 1e-07, recomputed as 1.39390304449e-07", () => {
    expectWithin(lines[0]!.p, 1.39390304449e-7, 1e-17);
  });

  test("degrees of freedom as printed beside the sums of squares", () => {
    expect(lines.map((line) => line.degreesOfFreedom)).toEqual([20, 63, 84]);
  });
});

describe(`published: ${lithography.source}`, () => {
  test("three levels: cassette, wafer, site", () => {
    const { lines, words } = found(
      nestedComponents({
        values: lithography.data.line_width,
        levels: [
          { name: "cassette", ids: lithography.data.cassette },
          { name: "wafer", ids: lithography.data.wafer },
        ],
      }),
    );
    expectWithin(lines[0]!.sumOfSquares, recomputed(lithography, "SS cassette (df 29)"), 1e-9);
    expectWithin(lines[1]!.sumOfSquares, recomputed(lithography, "SS wafer in cassette (df 60)"), 1e-9);
    expectWithin(lines[2]!.sumOfSquares, recomputed(lithography, "SS site in wafer (df 360)"), 1e-9);
    expectWithin(lines[0]!.variance, recomputed(lithography, "variance component cassette"), 1e-11);
    expectWithin(lines[1]!.variance, recomputed(lithography, "variance component wafer"), 1e-11);
    expectWithin(lines[2]!.variance, recomputed(lithography, "variance component site"), 1e-11);
    // The handbook's verdict in words: the largest source is lot to lot.
    expect(words).toMatch(/^Most of the variation is cassette/);
  });

  test("lag-1 autocorrelation in measuring order", () => {
    const { r } = found(lagOneAutocorrelation(lithography.data.line_width));
    expectWithin(r, recomputed(lithography, "lag-1 autocorrelation in measuring order"), 1e-11);
  });
});

describe(`published: ${heatFlow.source}`, () => {
  test("Bartlett and Levene over the quarters of the series", () => {
    const { values } = heatFlow.data;
    const quarter = values.map(
      (_, i) => [1, 2, 3].filter((k) => i >= Math.floor((values.length * k) / 4)).length,
    );
    // Bartlett printed to three decimals; Levene as recomputed in the passport.
    expectWithin(
      found(bartlettTest(values, quarter)).statistic,
      printed(heatFlow, "Bartlett over 4 quarters of the series"),
      5e-4,
    );
    expectWithin(
      found(leveneTest(values, quarter)).statistic,
      recomputed(heatFlow, "Levene (median) over quarters"),
      1e-10,
    );
  });
});
