import { describe, expect, test } from "vitest";
import { groupReadings } from "../../../lib/components/groups";
import { arrangeCrossed } from "../../../lib/measurement-systems/arrange";
import { biasOf } from "../../../lib/measurement-systems/bias";
import { crossedStudy, POOL_ABOVE } from "../../../lib/measurement-systems/crossed-study";
import { pooledRepeatability } from "../../../lib/measurement-systems/pooled-repeatability";
import resistivity from "../../reference/resistivity-gauge-study.json";

describe(`published: ${resistivity.source}`, () => {
  const printed = (name: string) => resistivity.printed.find((one) => one.name === name)!.printed as number;

  test("pooled repeatability of the worked example", () => {
    const { ss, df } = resistivity.example.pooling_example;
    const pooled = pooledRepeatability(
      ss.map((sumOfSquares, i) => ({ sumOfSquares, degreesOfFreedom: df[i]! })),
    );
    expect(pooled.degreesOfFreedom).toBe(300);
    // Printed 0.10290 to five decimals.
    expect(Math.abs(pooled.standardDeviation - printed("pooled repeatability sd (300 df)"))).toBeLessThan(
      5e-6,
    );
    expect(ss.reduce((sum, one) => sum + one, 0)).toBeCloseTo(printed("sum of SS"), 10);
  });

  const { probe, wafer, run, average, sd_of_6: deviation } = resistivity.data;
  const recomputed = (name: string) => resistivity.recomputed.find((one) => one.name.startsWith(name))!.value;

  test.each([1, 281, 283, 2062, 2362])("probe %i: repeatability and day-to-day spread", (name) => {
    const rows = Array.from(probe.keys()).filter((i) => probe[i] === name);
    const within = pooledRepeatability(
      rows.map((i) => ({ sumOfSquares: 5 * deviation[i]! ** 2, degreesOfFreedom: 5 })),
    );
    expect(within.degreesOfFreedom).toBe(300);
    // The passport gives twelve digits.
    expect(within.standardDeviation).toBeCloseTo(recomputed(`probe ${name}: pooled repeatability`), 10);

    const groups = groupReadings(
      "days",
      rows.map((i) => average[i]!),
      rows.map((i) => 1000 * run[i]! + wafer[i]!),
    );
    const days = pooledRepeatability(
      Array.from(groups.squares, (sumOfSquares, g) => ({
        sumOfSquares,
        degreesOfFreedom: groups.counts[g]! - 1,
      })),
    );
    expect(days.degreesOfFreedom).toBe(50);
    expect(days.standardDeviation).toBeCloseTo(recomputed(`probe ${name}: day-to-day`), 10);
  });

  /** Mean of the probe's days less the mean of all probes, one figure a wafer. */
  const differences = (wanted: number, inRun: number) =>
    [...new Set(wafer)].map((one) => {
      const meanOf = (isOf: (i: number) => boolean) => {
        const own = average.filter((_, i) => run[i] === inRun && wafer[i] === one && isOf(i));
        return own.reduce((sum, value) => sum + value, 0) / own.length;
      };
      return meanOf((i) => probe[i] === wanted) - meanOf(() => true);
    });

  test.each([
    [1, [-0.0372, -0.0094, -0.0261, -0.0252, -0.0383], -0.0272],
    [2, [-0.0507, -0.0657, -0.0398, -0.0534, -0.0469], -0.0513],
  ])(
    "gauge-to-gauge bias of probe 2362 in run %i, as 2.6.1.3 prints it (from memory)",
    (inRun, wafers, mean) => {
      const found = differences(2362, inRun);
      // Four decimals printed; the page works with averages rounded to four decimals too, so a unit more may differ.
      for (const [i, printed] of wafers.entries()) expect(Math.abs(found[i]! - printed)).toBeLessThan(1.1e-4);
      const bias = biasOf(found, { reference: 0, confidence: 0.95 });
      if (!bias.ok) throw new Error(bias.problem.code);
      expect(Math.abs(bias.value.bias - mean)).toBeLessThan(1e-4);
      // The page's finding: the probe reads low on every wafer and in both runs, and its readings want a correction.
      expect(bias.value.interval[1]).toBeLessThan(0);
    },
  );

  test("both runs together give probe 2362 a correction of 0.0393 (from memory), and no other probe one as sure", () => {
    const both = (name: number) =>
      biasOf([...differences(name, 1), ...differences(name, 2)], { reference: 0, confidence: 0.95 });
    const biases = [1, 281, 283, 2062, 2362].map((name) => {
      const bias = both(name);
      if (!bias.ok) throw new Error(bias.problem.code);
      return { name, ...bias.value };
    });
    expect(Math.abs(biases.at(-1)!.bias + 0.0393)).toBeLessThan(1e-4);
    const surest = biases.reduce((a, b) => (Math.abs(b.t!) > Math.abs(a.t!) ? b : a));
    expect(surest.name).toBe(2362);
  });

  test.each([1, 2])("as a crossed study of run %i, wafers by probes: the probes differ", (inRun) => {
    const rows = Array.from(average.keys()).filter((i) => run[i] === inRun);
    const study = crossedStudy(
      arrangeCrossed(rows.map((i) => ({ part: `${wafer[i]}`, operator: `${probe[i]}`, value: average[i]! }))),
      { toleranceWidth: null, poolAbove: POOL_ABOVE, confidence: 0.95 },
    );
    const operator = study.anova.lines.find(({ term }) => term === "operator")!;
    // The page calls the differences significant; five probes leave four degrees of freedom.
    expect(operator.degreesOfFreedom).toBe(4);
    expect(operator.p!).toBeLessThan(0.01);
  });
});
