import { describe, expect, test } from "vitest";
import { evaluate } from "../../../lib/evaluation/evaluate";
import { joinSignals } from "../../../lib/evaluation/patterns";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import { limitsWords, standingWords } from "../../../lib/evaluation/standing-words";
import { START, seriesOf } from "../series-of";

const setup: EvaluationSetup = {
  plan: {
    chart: "i-mr",
    subgroupSize: 1,
    rules: ["beyond-3s"],
    tolerance: { lower: 9, upper: 11 },
    target: null,
    naturalBound: null,
    reduction: null,
  },
  unit: "mm",
  versions: [],
  exclusions: [],
};
const steady = Array.from({ length: 30 }, (_, i) => 10 + [0.1, -0.1, 0.05, 0][i % 4]!);

function words(values: readonly number[], tolerance = setup.plan.tolerance): string {
  const evaluation = evaluate(seriesOf(values), setup);
  const patterns = joinSignals(evaluation.signals);
  return standingWords(evaluation, {
    chart: "i-mr",
    tolerance,
    patterns,
    day: (at) => `hour ${(at - START) / 3_600_000}`,
  });
}

describe("where a feature stands, in words", () => {
  test.each([
    ["nothing measured", [], "No measurement yet."],
    ["nothing signals", steady, "Steady: no signal in 30 subgroups."],
    [
      "something signals",
      [...steady, 12],
      /^Signals since hour 30: Beyond 3 sigma above; moving range beyond 3 sigma above\.$/,
    ],
    // Three quiet points after the step back, which is itself a moving range beyond its limit.
    [
      "it came back",
      [...steady, 12, 10, 10, 10.05, 10],
      /^Back to normal: 3 subgroups without a signal since hour 31/,
    ],
  ])("%s", (_, values, expected) => {
    if (typeof expected === "string") expect(words(values)).toBe(expected);
    else expect(words(values)).toMatch(expected);
  });

  test("a feature that is steady outside its tolerance says both", () => {
    expect(words(steady, { lower: 11, upper: 12 })).toMatch(/^Steady: .* outside the tolerance/);
    expect(words(steady, { lower: null, upper: null })).not.toContain("tolerance");
  });

  test("limits: none yet with what is missing, none for want of variation, trial, frozen by whom", () => {
    const limits = (values: readonly number[]) =>
      limitsWords(evaluate(seriesOf(values), setup), null, String);
    expect(limits([10])).toMatch(/^No limits yet: 1 subgroup of at least 2/);
    expect(limits(Array<number>(9).fill(10))).toMatch(/the first 9 subgroups show no variation/);
    // Also when later ones do: trial limits rest on the first 25 and never move by themselves.
    expect(limits([...Array<number>(30).fill(10), ...steady])).toMatch(
      /^No limits, so nothing is judged: the first 25 subgroups show no variation.*can be frozen/,
    );
    expect(limits(steady.slice(0, 10))).toBe("Trial limits from the first 10 subgroups; final ones need 20.");
    expect(limits(steady)).toBe("Trial limits from the first 25 subgroups; nobody has frozen them.");
  });
});
