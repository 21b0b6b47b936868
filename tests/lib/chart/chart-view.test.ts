import { describe, expect, test } from "vitest";
import { type ChartFacts, type ChartStretch, calmDomains, viewOf } from "../../../lib/chart/chart-view";
import { type ChartPoint, chartPoints, overviewOf } from "../../../lib/chart/feature-chart";
import { limitRuns } from "../../../lib/chart/limit-runs";
import { columnsOf, pointsOf, readingColumns, readingsOf } from "../../../lib/chart/point-columns";
import { MIXED, RIBBON_KINDS } from "../../../lib/chart/ribbons";
import { roundSpan } from "../../../lib/chart/scale";
import { MOST_SHOWN } from "../../../lib/chart/shown-window";
import { evaluate } from "../../../lib/evaluation/evaluate";
import { joinSignals } from "../../../lib/evaluation/patterns";
import { emptySeries } from "../../../lib/measurements/series";
import { USUAL_RULES } from "../../../lib/plan/suggest-plan";
import { rules as words } from "../../../lib/words/en/rules";

/** Pairs of readings, an hour apart; from subgroup 400 on they lie higher, and every 50th far away. */
function longHistory(subgroups: number) {
  const series = emptySeries(2 * subgroups);
  for (let i = 0; i < series.count; i++) {
    const number = i >> 1;
    const wave = 0.002 * (((i * 7) % 11) - 5);
    series.value[i] = 10 + wave + (number >= 400 ? 0.015 : 0) + (number % 50 === 49 ? 0.2 : 0);
    series.takenAt[i] = 1_000_000 * i;
    series.piece[i] = i + 1;
    series.lot[i] = 1 + Math.floor(number / 60);
    series.fixture[i] = 1 + (i % 2);
    series.tool[i] = 1 + (number % 3);
    series.partTemp[i] = i % 4 === 0 ? Number.NaN : 21.5;
  }
  const setup = {
    plan: {
      chart: "xbar-r" as const,
      subgroupSize: 2,
      rules: USUAL_RULES,
      tolerance: { nominal: 10, lower: 9.9, upper: 10.1 },
      target: null,
      naturalBound: null,
      reduction: null,
    },
    unit: "mm" as const,
    versions: [],
    exclusions: [{ from: 20_000_000, to: 25_000_000, cause: "chips" }],
  };
  const evaluation = evaluate(series, setup);
  const patterns = joinSignals(evaluation.signals);
  return { series, setup, evaluation, patterns };
}

function pointsIn(
  history: ReturnType<typeof longHistory>,
  window: { from: number; to: number },
): ChartPoint[] {
  const { evaluation, ...rest } = history;
  return chartPoints(evaluation, { ...rest, window });
}

const FACTS: ChartFacts = {
  featureId: 1,
  part: "P-1",
  unit: "mm",
  chart: "xbar-r",
  places: 3,
  zone: "UTC",
  count: 600,
  kinds: ["lot", "fixture", "tool"],
  baseline: { from: 90, to: 124 },
  marker: { place: 119.5, label: "since then" },
  isReduced: false,
};

test("where nothing spreads, the axis of the spread is as long as the one above it", () => {
  const one = { from: 0, to: 0 };
  const point = { number: 0, at: 0, size: 1, mean: 0.118583, spread: null, z: null, spreadZ: null };
  const flags = { excluded: false, beyond: false, spreadBeyond: false, member: false, spreadMember: false };
  const sources = Object.fromEntries(RIBBON_KINDS.map((kind) => [kind, 0])) as ChartPoint["sources"];
  const columns = columnsOf([{ ...point, ...flags, sources, readings: [] }], 0);
  const stretch = { ...one, columns, runs: [], phases: [], patterns: [], events: [], causes: {}, names: {} };
  const { domains } = viewOf(
    { ...FACTS, chart: "i-mr", count: 1, kinds: [], baseline: null, marker: null },
    stretch as unknown as ChartStretch,
    { window: one, words },
  );
  // A thousandth of the reading to either side.
  expect(domains.location.high - domains.location.low).toBeCloseTo(0.00024, 4);
  expect(domains.spread).toEqual({ low: 0, high: expect.closeTo(0.00024, 4) });
});

function stretchOf(
  history: ReturnType<typeof longHistory>,
  range: { from: number; to: number },
): ChartStretch {
  const { points, versions } = history.evaluation;
  const event = (place: number, sourceId: number) => ({
    id: place,
    kind: "tool" as const,
    sourceId,
    place,
    label: `at ${place}`,
    title: "",
  });
  return {
    ...range,
    columns: columnsOf(pointsIn(history, range), range.from),
    runs: limitRuns(points, { versions, window: range }),
    phases: [{ from: 25, to: 599, label: "trial limits" }],
    patterns: history.patterns,
    events: [event(99.5, 1), event(150.5, 2), event(219.5, 3), event(150.5, 9)],
    causes: { 5: "chips" },
    names: { lot: {}, fixture: {}, tool: {}, machine: {}, gauge: {}, operator: {}, setup: {} },
  };
}

describe("points as columns", () => {
  test("law: any window of them gives the very points from which they were made", () => {
    const history = longHistory(600);
    const all = pointsIn(history, { from: 0, to: 599 });
    expect(all.some(({ excluded }) => excluded)).toBe(true);
    expect(all.some(({ beyond }) => beyond) && all.some(({ member }) => member)).toBe(true);
    expect(all[0]!.sources.fixture).toBe(MIXED);
    // As they arrive in a browser.
    const columns = JSON.parse(JSON.stringify(columnsOf(all.slice(40), 40)));
    for (const [from, to] of [
      [40, 599],
      [40, 40],
      [333, 421],
    ] as const) {
      const drawn = all.slice(from, to + 1).map(({ readings: _, ...point }) => point);
      expect(pointsOf(columns, { from, to })).toEqual(drawn);
    }
  });

  test("readings of a subgroup keep their figures and their pieces' serials; of others none are known", () => {
    const history = longHistory(100);
    const found = pointsIn(history, { from: 10, to: 20 });
    const serials = new Map([[25, "S-25"]]);
    const columns = JSON.parse(JSON.stringify(readingColumns(found, { from: 10, serials })));
    // Readings 24 and 25 of the series are pieces 25 and 26, and the first of four has no temperature.
    expect(readingsOf(columns, 12)).toEqual([
      {
        value: history.series.value[24],
        measured: history.series.value[24],
        partTemp: null,
        piece: "S-25",
        place: 0,
      },
      {
        value: history.series.value[25],
        measured: history.series.value[25],
        partTemp: 21.5,
        piece: "",
        place: 1,
      },
    ]);
    expect(readingsOf(columns, 9)).toBeNull();
    expect(readingsOf(columns, 21)).toBeNull();
  });
});

describe("what a chart draws of a stretch", () => {
  test("law: the same from whichever stretch holds the window", () => {
    const history = longHistory(600);
    const window = { from: 120, to: 239 };
    const view = (from: number, to: number) =>
      viewOf(FACTS, stretchOf(history, { from, to }), { window, words });
    expect(view(0, 599)).toEqual(view(120, 239));
    expect(view(100, 400)).toEqual(view(120, 239));
  });

  test("every signalled point of the widest window is drawn as such, and no more points than may be", () => {
    const history = longHistory(600);
    const window = { from: 600 - MOST_SHOWN, to: 599 };
    const { points } = viewOf(FACTS, stretchOf(history, { from: 0, to: 599 }), { window, words });
    expect(points).toHaveLength(MOST_SHOWN);
    const marked = new Set(points.filter((p) => p.member || p.spreadMember).map(({ number }) => number));
    const signalled = history.patterns
      .flatMap(({ members }) => members)
      .filter((number) => number >= window.from);
    expect(signalled.length).toBeGreaterThan(100);
    expect(signalled.filter((number) => !marked.has(number))).toEqual([]);
  });

  test("by hand: limits, baseline, marker and events are cut to the window", () => {
    const history = longHistory(600);
    const stretch = stretchOf(history, { from: 0, to: 599 });
    const view = viewOf(FACTS, stretch, { window: { from: 100, to: 219 }, words });
    expect(view.runs.map(({ from, to }) => [from, to])).toEqual([[100, 219]]);
    expect(view.phases).toEqual([{ from: 100, to: 219, label: "trial limits" }]);
    expect(view.baseline).toEqual({ from: 100, to: 124 });
    expect(view.marker).toEqual(FACTS.marker);
    // Before the first point is within; behind the last one is the next window's; tool 9 measured nothing here.
    const tools = view.ribbons.find(({ kind }) => kind === "tool")!;
    expect(tools.events.map(({ place }) => place)).toEqual([99.5, 150.5]);
    expect(viewOf(FACTS, stretch, { window: { from: 130, to: 219 }, words }).marker).toBeNull();
    expect(viewOf(FACTS, stretch, { window: { from: 130, to: 219 }, words }).baseline).toBeNull();
  });
});

describe("the strip of a long history", () => {
  test("at most 2,000 points, and every signalled subgroup among them or in one column of 200 with a mark", () => {
    const history = longHistory(20_000);
    const { corners, marked, excluded } = overviewOf(history.evaluation, history);
    expect(corners.length + marked.marks.length + excluded.marks.length).toBeLessThanOrEqual(2_000);
    const signalled = new Set(history.patterns.flatMap(({ members }) => members));
    expect(signalled.size).toBeGreaterThan(2_000);
    const columns = new Set(marked.marks.map((number) => Math.floor((number * 200) / 20_000)));
    expect([...signalled].filter((number) => !columns.has(Math.floor((number * 200) / 20_000)))).toEqual([]);
  });
});

describe("axes that stay in place", () => {
  const axes = (low: number, high: number) => ({ location: { low, high }, spread: { low: 0, high: 4 } });

  test("by hand: kept while it holds what is shown, longer where it does not, anew where it is mostly empty", () => {
    const before = axes(0, 10);
    expect(calmDomains(before, axes(1, 9))).toBe(before);
    expect(calmDomains(before, axes(2, 12)).location).toEqual({ low: 0, high: 12 });
    expect(calmDomains(before, axes(2, 7)).location).toEqual({ low: 2, high: 7 });
    expect(calmDomains(before, axes(20, 30)).location).toEqual({ low: 20, high: 30 });
  });

  test("by hand: a span ends at multiples of the step that gives at most twelve ticks", () => {
    expect(roundSpan({ low: 0.3, high: 10.7 })).toEqual({ low: 0, high: 11 });
    expect(roundSpan({ low: 2, high: 8 })).toEqual({ low: 2, high: 8 });
    expect(roundSpan({ low: 5, high: 5 })).toEqual({ low: 5, high: 5 });
  });
});
