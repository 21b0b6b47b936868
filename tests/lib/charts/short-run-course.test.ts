import fc from "fast-check";
import { expect, test } from "vitest";
import { shortRunChart } from "../../../lib/charts/short-run";
import { shortRunCourse } from "../../../lib/charts/short-run-course";
import { evaluate } from "../../../lib/evaluation/evaluate";
import { joinSignals } from "../../../lib/evaluation/patterns";
import { evaluateRules } from "../../../lib/rules/judge";
import { ruleBySlug, rulesForSpread } from "../../../lib/rules/known-rules";
import { summariseSubgroup } from "../../../lib/subgroups/summarise";
import { runs } from "../../laws";
import { HOUR, START, seriesOf } from "../series-of";

const RULES = ["beyond-3s", "nine-one-side"];

function judged(values: readonly number[], { chart, offset }: { chart: "i-mr" | "xbar-r"; offset: number }) {
  const plan = {
    chart,
    subgroupSize: chart === "i-mr" ? 1 : 2,
    rules: RULES,
    tolerance: { lower: null, upper: null },
    target: null,
    naturalBound: null,
    reduction: null,
  };
  const version = { version: 1, effectiveFrom: 0, chart, centre: 10, sigma: 0.1, estimator: "mean-range" };
  return evaluate(seriesOf(values, { takenAt: values.map((_, i) => START + i * HOUR + offset) }), {
    plan,
    unit: "mm",
    versions: [{ ...version, estimator: "mean-range" }],
    exclusions: [{ from: START + 6 * HOUR, to: START + 7 * HOUR, cause: "chips" }],
  });
}

test("by hand: two features take turns, in sigma from the target of each", () => {
  const [a, b] = [[10.1, 10.3], [9.9]].map((values, f) => judged(values, { chart: "i-mr", offset: f }));
  const course = shortRunCourse({
    chart: "i-mr",
    rules: RULES,
    features: [
      { name: "a", target: 10, evaluation: a! },
      { name: "b", target: 10, evaluation: b! },
    ],
  });
  const points = [0, 1, 2].map(course.pointAt);
  expect(points.map(({ feature }) => feature)).toEqual(["a", "b", "a"]);
  expect(points.map(({ location }) => Math.round(location * 1e9) / 1e9)).toEqual([1, -1, 3]);
  // A moving range spans two features: |−1 − 1| = 2, |3 − (−1)| = 4.
  expect(points.map(({ spreadInSigma }) => spreadInSigma && Math.round(spreadInSigma))).toEqual([null, 2, 4]);
  expect(course.latestOf("a")).toBe(2);
  expect(course.latestOf("b")).toBe(1);
  expect(course.latestOf("c")).toBeNull();
});

test.each(["i-mr", "xbar-r"] as const)(
  "law: on a chart of %s it is the plain chart of all points in the order of time, judged as one series",
  (chart) => {
    const values = fc.array(
      fc.integer({ min: -40, max: 40 }).map((step) => 10 + step / 100),
      { minLength: 2, maxLength: 30 },
    );
    fc.assert(
      fc.property(fc.array(values, { minLength: 1, maxLength: 4 }), (all) => {
        // The first two measure at the same moments.
        const features = all.map((each, f) => ({
          name: `f${f}`,
          target: 10 + f / 100,
          evaluation: judged(each, { chart, offset: f < 2 ? 0 : f }),
        }));
        const course = shortRunCourse({ chart, rules: RULES, features });
        const plain = features
          .flatMap(({ name, evaluation: { points, values, formed } }) =>
            Array.from(points.at, (at, number) => ({ name, at, number, points, values, formed })),
          )
          .filter(({ points, number }) => points.excluded[number] === 0)
          .sort((a, b) => a.at - b.at);
        const drawn = shortRunChart({
          chart,
          targets: new Map(features.map(({ name, target }) => [name, { target, sigma: 0.1 }])),
          points: plain.map(({ name, values, formed, number }) => ({
            feature: name,
            subgroup: summariseSubgroup(values, formed, number),
          })),
        });
        expect(Array.from({ length: course.count }, (_, i) => course.pointAt(i))).toEqual(
          drawn.map((point, i) => ({
            ...point,
            at: plain[i]!.at,
            number: plain[i]!.number,
            size: plain[i]!.points.size[plain[i]!.number],
          })),
        );
        const rules = RULES.map(ruleBySlug);
        const signals = (of: "location" | "spread") =>
          evaluateRules(
            of === "location" ? rules : rulesForSpread(rules),
            drawn.map((point) => point![of]),
          ).map((firing) => ({ ...firing, chart: of, atTime: plain[firing.at]!.at }));
        const all_ = [...signals("location"), ...signals("spread")].sort((a, b) => a.at - b.at);
        expect(course.patterns).toEqual(joinSignals(all_));
      }),
      { numRuns: runs(40) },
    );
  },
);
