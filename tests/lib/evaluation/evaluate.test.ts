import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { continueEvaluation } from "../../../lib/evaluation/continue-evaluation";
import { evaluate } from "../../../lib/evaluation/evaluate";
import { excursionWords } from "../../../lib/evaluation/excursion-words";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import { standingOf } from "../../../lib/evaluation/standing";
import { sliced } from "../../../lib/measurements/order";
import type { FeaturePlan, LimitsVersion } from "../../../lib/plan/feature-plan";
import { runs } from "../../laws";
import { HOUR, START, seriesOf } from "../series-of";

const plan: FeaturePlan = {
  chart: "xbar-r",
  subgroupSize: 2,
  rules: ["beyond-3s", "nine-one-side", "six-trend"],
  tolerance: { lower: 9, upper: 11 },
  target: 10,
  naturalBound: null,
  reduction: null,
};

function setup(more: Partial<EvaluationSetup> = {}, changed: Partial<FeaturePlan> = {}): EvaluationSetup {
  return { plan: { ...plan, ...changed }, unit: "mm", versions: [], exclusions: [], ...more };
}

function version(more: Partial<LimitsVersion> = {}): LimitsVersion {
  return {
    version: 1,
    effectiveFrom: Number.MIN_SAFE_INTEGER,
    chart: "xbar-r",
    centre: 10,
    sigma: 0.1,
    estimator: "mean-range",
    ...more,
  };
}

const singles = { chart: "i-mr", subgroupSize: 1 } as const;

describe("points", () => {
  test("by hand: four readings in twos have means 10.1 and 10.4, ranges 0.2 and 0.4", () => {
    const { points } = evaluate(seriesOf([10, 10.2, 10.2, 10.6]), setup({ versions: [version()] }));
    expect(points.count).toBe(2);
    expect(points.mean[0]).toBeCloseTo(10.1, 12);
    expect(points.mean[1]).toBeCloseTo(10.4, 12);
    expect(points.spread[0]).toBeCloseTo(0.2, 12);
    expect(points.spread[1]).toBeCloseTo(0.4, 12);
    expect([...points.at]).toEqual([START + HOUR, START + 3 * HOUR]);
  });

  test("a subgroup that is not complete is no point yet", () => {
    const { points, progress } = evaluate(seriesOf([10, 10.2, 10.2]), setup({ versions: [version()] }));
    expect(points.count).toBe(1);
    expect(progress.waiting).toEqual([10.2]);
  });

  test("a labelled subgroup that is the newest and smaller than planned still grows; earlier ones count whatever their size", () => {
    const series = seriesOf([10, 10.2, 10.4, 10.6], { subgroup: [1, 2, 2, 3] });
    const { points } = evaluate(series, setup({ versions: [version()] }));
    expect([...points.size]).toEqual([1, 2]);
    expect(points.spread[0]).toBeNaN();
  });

  test("moving ranges pass over a reading that is left out, and begin anew with other limits", () => {
    const versions = [
      version({ chart: "i-mr" }),
      version({ chart: "i-mr", version: 2, effectiveFrom: START + 3 * HOUR, centre: 11 }),
    ];
    const exclusions = [{ from: START + HOUR, to: START + HOUR, cause: "chip under the anvil" }];
    const { points } = evaluate(seriesOf([10, 15, 10.3, 11, 11.2]), setup({ versions, exclusions }, singles));
    // By hand: |10.3 − 10| across the one left out, none at the first point of version 2, |11.2 − 11| after it.
    expect(points.excluded).toEqual(Uint8Array.of(0, 1, 0, 0, 0));
    expect(points.spread[2]).toBeCloseTo(0.3, 12);
    expect([points.spread[0], points.spread[1], points.spread[3]]).toEqual([
      Number.NaN,
      Number.NaN,
      Number.NaN,
    ]);
    expect(points.spread[4]).toBeCloseTo(0.2, 12);
    expect([...points.limits]).toEqual([0, 0, 0, 1, 1]);
  });
});

describe("limits", () => {
  test("without frozen limits the first 25 subgroups carry trial limits, and later ones do not move them", () => {
    const steady = Array.from({ length: 50 }, (_, i) => 10 + [0.1, -0.1, 0.05, -0.05, 0][i % 5]!);
    const first = evaluate(seriesOf(steady), setup());
    const longer = evaluate(seriesOf([...steady, 14, 15, 16, 17]), setup());
    expect(first.versions).toMatchObject([{ version: 0 }]);
    expect(longer.versions).toEqual(first.versions);
    expect(standingOf(first.progress, setup())).toMatchObject({ limitsVersion: 0, tooFewForFinal: false });
  });

  test("below 20 subgroups the standing says that there are too few for final limits", () => {
    const few = Array.from({ length: 38 }, (_, i) => 10 + [0.1, -0.1, 0.05][i % 3]!);
    expect(standingOf(evaluate(seriesOf(few), setup()).progress, setup()).tooFewForFinal).toBe(true);
  });

  test("readings that are all alike give points, no limits and no signal", () => {
    const { points, versions, signals } = evaluate(seriesOf(Array<number>(60).fill(10)), setup());
    expect([points.count, versions.length, signals.length]).toEqual([30, 0, 0]);
  });

  test("the first version also judges what came before it", () => {
    const versions = [version({ effectiveFrom: START + 100 * HOUR })];
    const { signals } = evaluate(seriesOf([10, 10, 11, 11]), setup({ versions }));
    expect(signals.map(({ rule, at }) => [rule, at])).toEqual([["beyond-3s", 1]]);
  });

  test("by hand: a mean of two is beyond when it lies more than 3 · 0.1/√2 = 0.2121 from the centre", () => {
    const at = (mean: number) =>
      evaluate(seriesOf([mean, mean]), setup({ versions: [version()] })).signals.length;
    expect(at(10.2121)).toBe(0);
    expect(at(10.2122)).toBe(1);
    expect(at(9.7878)).toBe(1);
  });
});

describe("temperature", () => {
  test("by hand: 100 mm of steel at 30 °C read 0.0115 mm too large; a reading without temperature stays as it is", () => {
    const reduction = { length: 100, expansion: 11.5e-6 };
    const series = seriesOf([100.0115, 100.02], { partTemp: [30, Number.NaN] });
    const { values } = evaluate(series, setup({}, { ...singles, reduction }));
    expect(values[0]).toBeCloseTo(100, 12);
    expect(values[1]).toBe(100.02);
    expect(series.value[0]).toBe(100.0115);
  });

  test("by hand: the same in inches, 1/25.4 of it", () => {
    const reduction = { length: 100, expansion: 11.5e-6 };
    const series = seriesOf([4], { partTemp: [30] });
    const { values } = evaluate(series, setup({ unit: "in" }, { ...singles, reduction }));
    expect(values[0]).toBeCloseTo(4 - 0.0115 / 25.4, 14);
  });
});

describe("excursions", () => {
  const limits = setup({ versions: [version({ chart: "i-mr" })] }, { ...singles, rules: ["beyond-3s"] });
  const quiet = [10, 10.05, 9.95];

  test("one begins with a signal and has returned to normal after three points without one", () => {
    const { excursions } = evaluate(seriesOf([10, 10.4, 10.4, ...quiet, ...quiet]), limits);
    // The step down to 10 is a moving range of 0.4, beyond 3.686 sigma: it belongs to the excursion.
    expect(excursions).toHaveLength(1);
    expect(excursions[0]).toMatchObject({ firstAt: START + HOUR, latestAt: START + 3 * HOUR, quiet: 3 });
  });

  test("another signal before that joins it", () => {
    const { excursions, progress } = evaluate(seriesOf([10, 10.4, ...quiet.slice(0, 2), 10.4]), limits);
    expect(excursions).toHaveLength(1);
    expect(progress.excursion).not.toBeNull();
  });

  test("is told in the order of the rules, location before spread", () => {
    const rules = [
      { chart: "spread", rule: "beyond-3s", direction: "up" },
      { chart: "location", rule: "nine-one-side", direction: "down" },
      { chart: "location", rule: "beyond-3s", direction: "down" },
    ] as const;
    expect(excursionWords(rules, "xbar-r")).toBe(
      "Beyond 3 sigma below; 9 below centre; range beyond 3 sigma above",
    );
  });
});

describe("going on", () => {
  test("readings of which the first 25 subgroups are all alike are gone on from, without limits", () => {
    const judged = setup({}, singles);
    const values = Array.from({ length: 40 }, (_, i) => (i < 30 ? 10 : 10 + i / 100));
    const at = (count: number) => evaluate(sliced(seriesOf(values), 0, count), judged);
    const [before, next] = [at(39), sliced(seriesOf(values), 39, 40)];
    expect(before.progress.limits).toBeNull();
    expect(continueEvaluation(before.progress, next, judged)).toMatchObject({
      progress: at(40).progress,
      signals: [],
    });
    // While 25 are not there yet, the next ones may bring limits.
    expect(continueEvaluation(at(24).progress, sliced(seriesOf(values), 24, 25), judged)).toBeNull();
  });

  const reading = fc.record({
    value: fc.integer({ min: -30, max: 30 }).map((step) => 10 + step / 50),
    label: fc.integer({ min: 0, max: 4 }),
    lot: fc.integer({ min: 0, max: 2 }),
  });
  const charts = fc.constantFrom<Partial<FeaturePlan>>(
    singles,
    { chart: "xbar-r", subgroupSize: 3 },
    { chart: "xbar-s", subgroupSize: 4 },
  );

  test("law: from a stored state with new readings comes what the whole history gives", () => {
    let continued = 0;
    fc.assert(
      fc.property(
        fc.array(reading, { minLength: 1, maxLength: 300 }),
        charts,
        fc.boolean(),
        // So many first ones are all alike: a gauge that resolves too little gives no trial limits, then or later.
        fc.constantFrom(0, 0, 60, 200),
        fc.array(fc.nat({ max: 300 }), { maxLength: 4 }),
        (readings, chart, frozen, alike, cuts) => {
          const series = seriesOf(
            readings.map((one, i) => (i < alike ? 10 : one.value)),
            { subgroup: readings.map((one) => one.label), lot: readings.map((one) => one.lot) },
          );
          const versions = frozen
            ? [version(), version({ version: 2, effectiveFrom: START + 40 * HOUR, centre: 10.1, sigma: 0.2 })]
            : [];
          const exclusions = [{ from: START + 20 * HOUR, to: START + 24 * HOUR, cause: "test" }];
          const judged = setup({ versions, exclusions }, chart);
          const whole = evaluate(series, judged);

          let at = 0;
          let progress = evaluate(sliced(series, 0, 0), judged).progress;
          const signals = [];
          for (const cut of [...cuts.sort((a, b) => a - b), series.count]) {
            const to = Math.min(cut, series.count);
            if (to <= at) continue;
            // Stored and read again, as between two intakes.
            const stored = JSON.parse(JSON.stringify(progress)) as typeof progress;
            const went = continueEvaluation(stored, sliced(series, at, to), judged);
            if (went) continued++;
            const upTo = evaluate(sliced(series, 0, to), judged);
            if (went) {
              expect(went.progress).toEqual(JSON.parse(JSON.stringify(upTo.progress)));
              signals.push(...went.signals);
            } else {
              signals.splice(0, signals.length, ...upTo.signals);
            }
            progress = upTo.progress;
            at = to;
          }
          expect(signals).toEqual(whole.signals);
        },
      ),
      { numRuns: runs(400) },
    );
    expect(continued).toBeGreaterThan(100);
  });
});
