import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { countPoints } from "../../../lib/chart/count-points";
import { continueEvaluation } from "../../../lib/evaluation/continue-evaluation";
import { countWorking } from "../../../lib/evaluation/count-working";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { EvaluationSetup } from "../../../lib/evaluation/setup";
import { standingOf } from "../../../lib/evaluation/standing";
import { limitsForSize } from "../../../lib/limits/limits-for-size";
import { standardiseLocation } from "../../../lib/limits/standardise";
import { sliced } from "../../../lib/measurements/order";
import type { CountPlan, FeaturePlan } from "../../../lib/plan/feature-plan";
import published from "../../reference/varying-counts.json";
import { seriesOf } from "../series-of";

const plan: FeaturePlan = {
  chart: "i-mr",
  subgroupSize: 1,
  rules: ["beyond-3s", "two-of-three-2s", "nine-one-side"],
  tolerance: { lower: null, upper: null },
  target: null,
  naturalBound: null,
  reduction: null,
};
const setupOf = (counts: CountPlan, changed: Partial<FeaturePlan> = {}): EvaluationSetup => ({
  plan: { ...plan, ...changed, counts },
  unit: "none",
  versions: [],
  exclusions: [],
});
const seriesFor = (data: { counts: readonly number[]; sizes: readonly number[] }) =>
  seriesOf(data.counts, { inspected: data.sizes });

function zOf({ points, versions }: ReturnType<typeof evaluate>): number[] {
  return Array.from(points.mean, (mean, i) =>
    standardiseLocation(versions[points.limits[i]!]!, { mean, size: points.size[i]! }),
  );
}

function drawn(counts: CountPlan, data: { counts: readonly number[]; sizes: readonly number[] }) {
  const series = seriesFor(data);
  const evaluation = evaluate(series, setupOf(counts));
  const window = { from: 0, to: evaluation.points.count - 1 };
  const shown = (kind: "threeSigma" | "probability") =>
    countPoints(evaluation, { series, counts, window, kind });
  return { series, evaluation, shown };
}

test("by hand: 10 of 100 and 26 of 300: p̄ = 36/400 = 0.09; z = (p − p̄)/√(0.0819/n)", () => {
  const { evaluation } = drawn({ chart: "p", size: null }, { counts: [10, 26], sizes: [100, 300] });
  const [first, second] = zOf(evaluation);
  expect(first).toBeCloseTo(0.01 / Math.sqrt(0.0819 / 100), 12);
  expect(second).toBeCloseTo((26 / 300 - 0.09) / Math.sqrt(0.0819 / 300), 12);
});

describe(`computed independently: ${published.source}`, () => {
  test.each([
    ["p, each with its own size", { chart: "p", size: null }, published.orders],
    ["p, beside a usual size of 100", { chart: "p", size: 100 }, published.orders],
    ["u, each with its own size", { chart: "u", size: null }, published.cloth],
    ["u, beside a usual 10 units", { chart: "u", size: 10 }, published.cloth],
  ] as const)("%s: rate, limits of every point, Pearson's chi-square", (_, counts, data) => {
    const { series, evaluation, shown } = drawn(counts, data);
    const working = countWorking(evaluation, { series, counts, frozen: [] })!;
    expect(working.rate).toBeCloseTo(data.rate, 13);
    expect([working.agrees, working.samples]).toEqual([true, data.counts.length]);
    expect(working.counts / working.inspected).toBe(data.rate);
    for (const [i, point] of shown("threeSigma").entries()) {
      expect(point.value).toBe(data.counts[i]! / data.sizes[i]!);
      expect(point.limits!.lower).toBeCloseTo(data.lower[i]!, 13);
      expect(point.limits!.upper).toBeCloseTo(data.upper[i]!, 13);
    }
    // Homogeneity says the same by another way: the squares of all z add up to the statistic of the table.
    const squares = zOf(evaluation).reduce((sum, z) => sum + z * z, 0);
    expect(squares).toBeCloseTo(data.pearson, 10);
    const exact = new Map(data.exact.map(([size, lower, upper]) => [size, [lower, upper]]));
    for (const { size, limits } of shown("probability")) {
      expect([limits!.lower * size, limits!.upper * size].map(Math.round)).toEqual(exact.get(size));
    }
  });

  test("printed (from memory): a centre of 0.096 and the eleventh order beyond its limit, and no other", () => {
    const { shown } = drawn({ chart: "p", size: null }, published.orders);
    const points = shown("threeSigma");
    expect(points[0]!.limits!.centre.toFixed(3)).toBe("0.096");
    expect(points.flatMap(({ beyond }, i) => (beyond ? [i + 1] : []))).toEqual([11]);
  });

  test("printed (from memory): a centre of 1.42, and 0.29 and 2.55 for the first roll; no roll beyond", () => {
    const { shown } = drawn({ chart: "u", size: null }, published.cloth);
    const points = shown("threeSigma");
    const [{ limits }] = points as [(typeof points)[number]];
    expect(Math.abs(limits!.centre - 1.42)).toBeLessThan(0.005);
    // The book rounds the centre to 1.42 before: that moves its upper limit by 0.005.
    expect(Math.abs(limits!.lower - 0.29)).toBeLessThan(0.005);
    expect(Math.abs(limits!.upper - 2.55)).toBeLessThan(0.0051);
    expect(points.some(({ beyond }) => beyond)).toBe(false);
  });
});

/** As lines inspect: mostly some hundred pieces, now and then very few. */
const sample = fc
  .record({ size: fc.integer({ min: 3, max: 400 }), share: fc.double({ min: 0, max: 0.3, noNaN: true }) })
  .map(({ size, share }) => ({ size, count: Math.round(size * share) }));
const samples = fc.array(sample, { minLength: 30, maxLength: 60 });

describe("law", () => {
  test("going on from a stored state says what the whole history does, with a chart with a memory as well", () => {
    let signals = 0;
    fc.assert(
      fc.property(
        samples,
        fc.integer({ min: 25, max: 29 }),
        fc.constantFrom<CountPlan>(
          { chart: "p", size: null },
          { chart: "p", size: 90 },
          { chart: "u", size: 20 },
        ),
        (given, cut, counts) => {
          const setup = setupOf(counts, { alsoWatch: { kind: "ewma", smoothing: 0.2, width: 2.5 } });
          const series = seriesOf(
            given.map(({ count }) => count),
            { inspected: given.map(({ size }) => size) },
          );
          const whole = evaluate(series, setup);
          const begun = evaluate(sliced(series, 0, cut), setup);
          const { progress } = begun;
          if (progress.limits === null) return; // Nothing was found in the baseline.
          const continued = continueEvaluation(progress, sliced(series, cut, series.count), setup)!;
          expect(continued.progress).toEqual(whole.progress);
          expect([...begun.signals, ...continued.signals]).toEqual(whole.signals);
          signals += continued.signals.length;
        },
      ),
    );
    expect(signals).toBeGreaterThan(50);
  });

  test("the usual size is but a unit: signals and z do not depend on it", () => {
    fc.assert(
      fc.property(samples, fc.integer({ min: 1, max: 1000 }), (given, size) => {
        const data = { counts: given.map(({ count }) => count), sizes: given.map((one) => one.size) };
        const [own, usual] = [null, size].map((each) => drawn({ chart: "p", size: each }, data).evaluation);
        if (own!.progress.limits === null) return;
        const [z, other] = [zOf(own!), zOf(usual!)];
        for (const [i, one] of z.entries()) expect(other[i]).toBeCloseTo(one, 9);
        expect(usual!.signals).toEqual(own!.signals);
      }),
    );
  });

  test("counts that all state the usual size are those that state none", () => {
    fc.assert(
      fc.property(samples, (given) => {
        const counts = given.map(({ count }) => count);
        const setup = setupOf({ chart: "p", size: 400 });
        const stated = evaluate(seriesOf(counts, { inspected: counts.map(() => 400) }), setup);
        const { values, ...rest } = evaluate(seriesOf(counts), setup);
        expect(stated).toEqual({ ...rest, values: Float64Array.from(values) });
      }),
    );
  });

  test("a point is drawn beyond its limits where it is judged so, and its own limits are those of its size", () => {
    fc.assert(
      fc.property(samples, (given) => {
        const data = { counts: given.map(({ count }) => count), sizes: given.map((one) => one.size) };
        const { evaluation, shown } = drawn({ chart: "p", size: null }, data);
        if (evaluation.progress.limits === null) return;
        const judged = evaluation.signals.filter(({ rule }) => rule === "beyond-3s").map(({ at }) => at);
        const points = shown("threeSigma");
        expect(points.flatMap(({ beyond }, i) => (beyond ? [i] : []))).toEqual(judged);
        for (const [i, { limits, size }] of points.entries()) {
          const { location } = limitsForSize(evaluation.versions[0]!, evaluation.points.size[i]!);
          expect(limits!.upper).toBeCloseTo(Math.min(1, location.upper / 100), 12);
          expect(limits!.lower).toBeCloseTo(Math.max(0, location.lower / 100), 12);
          expect(size).toBe(given[i]!.size);
        }
      }),
    );
  });
});

describe("edge", () => {
  test("by hand: the board's strip has one pair of limits, and a point as far from the centre as in its own sigma", () => {
    // p̄ = 30/300 = 0.1; 24 of 200 lie 0.02/√(0.09/200) off, 6 of 100 lie −0.04/√(0.09/100).
    const counts: CountPlan = { chart: "p", size: 100 };
    const setup = setupOf(counts);
    const { progress } = evaluate(seriesOf([24, 6], { inspected: [200, 100] }), setup);
    const standing = standingOf(progress, setup);
    expect(standing.size).toBe(1);
    const z = standing.means.map((mean) => (mean - standing.centre!) / standing.sigma!);
    expect(z[0]).toBeCloseTo(0.02 / Math.sqrt(0.09 / 200), 12);
    expect(z[1]).toBeCloseTo(-0.04 / Math.sqrt(0.09 / 100), 12);
  });

  test("the lower limit stops at 0 and the upper one at 1", () => {
    const { shown } = drawn({ chart: "p", size: null }, { counts: [1, 150, 3], sizes: [2, 300, 4] });
    const [few] = shown("threeSigma");
    expect(few!.limits).toMatchObject({ lower: 0, upper: 1 });
  });

  test("nothing found, or every piece, gives no limits; a sample of one piece is judged", () => {
    const counts: CountPlan = { chart: "p", size: null };
    expect(drawn(counts, { counts: [0, 0], sizes: [5, 9] }).evaluation.progress.limits).toBeNull();
    expect(drawn(counts, { counts: [5, 9], sizes: [5, 9] }).evaluation.progress.limits).toBeNull();
    expect(zOf(drawn(counts, { counts: [1, 4], sizes: [1, 9] }).evaluation)[0]).toBeCloseTo(1, 12); // p̄ = ½.
  });
});
