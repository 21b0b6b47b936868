import { mean as meanOf, sampleStandardDeviation } from "simple-statistics";
import { describe, expect, test } from "vitest";
import constants from "../reference/constants.json";
import { commandLine } from "./command";
import type { SignalJson, StudyJson } from "./study-json";
import { type TidyRow, tidyFile } from "./tidy-file";

/*
 * The study once more in plain loops, against what the command line prints: sums and look-back over whole
 * arrays, constants from a table computed by other programs, means from a general library.
 */

const { json, file } = commandLine();

const RELATIVE = 1e-11;

function near(ours: number, theirs: number): void {
  expect(Math.abs(ours - theirs)).toBeLessThanOrEqual(RELATIVE * Math.abs(theirs));
}

function constantsOf(subgroupSize: number) {
  const found = constants.cases.find(({ input }) => input.subgroupSize === subgroupSize);
  return found!.expected as { d2: number; d3: number; c4: number };
}

/** Readings that look random and are the same every time: the generator of Park and Miller (1988, from memory). */
function readings(count: number, seed: number): number[] {
  let state = seed;
  const uniform = () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
  // The sum of twelve uniforms is near normal. A step after two thirds gives the rules something to find.
  return Array.from({ length: count }, (_, i) => {
    let sum = -6;
    for (let k = 0; k < 12; k++) sum += uniform();
    return Number((25 + 0.01 * sum + (i > (2 * count) / 3 ? 0.012 : 0)).toFixed(4));
  });
}

const range = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
const consecutive = (values: readonly number[], size: number) =>
  Array.from({ length: Math.floor(values.length / size) }, (_, i) => values.slice(i * size, (i + 1) * size));

/** Firings by looking back from every point, in the sorted order of place and rule. */
function firings(z: readonly number[], chart: SignalJson["chart"]): SignalJson[] {
  const found: SignalJson[] = [];
  const run = (at: number, length: number) =>
    Array.from({ length }, (_, i) => at - length + 1 + i).filter((i) => i >= 0);
  for (let at = 0; at < z.length; at++) {
    for (const side of [1, -1]) {
      const beyond = (i: number, distance: number) => side * z[i]! > distance;
      const fire = (rule: string, members: number[]) => found.push({ chart, rule, at, members });
      if (beyond(at, 3)) fire("beyond-3s", [at]);
      const nine = run(at, 9);
      if (nine.length === 9 && nine.every((i) => beyond(i, 0))) fire("nine-one-side", nine);
      if (chart === "spread") continue;
      const two = run(at, 3).filter((i) => beyond(i, 2));
      if (beyond(at, 2) && two.length >= 2) fire("two-of-three-2s", two);
      const six = run(at, 6);
      const rises = six.slice(1).every((i) => side * (z[i]! - z[i - 1]!) > 1e-9);
      if (six.length === 6 && rises) fire("six-trend", six);
    }
  }
  return found;
}

const RULES = "beyond-3s,nine-one-side,two-of-three-2s,six-trend";

function bySortedPlace(signals: readonly SignalJson[]): SignalJson[] {
  const key = ({ chart, rule, at }: SignalJson) => `${chart} ${String(at).padStart(6)} ${rule}`;
  return signals.toSorted((a, b) => (key(a) < key(b) ? -1 : 1));
}

async function study(rows: readonly TidyRow[], ...options: string[]) {
  const name = file("rows.csv", tidyFile(rows));
  const { features } = await json<StudyJson>("study", name, "--rules", RULES, ...options);
  return features[0]!;
}

describe("subgroups of equal size", () => {
  const values = readings(503, 17);

  test.each([
    ["xbar-r", 5, "all"],
    ["xbar-r", 4, "first:25"],
    ["xbar-s", 5, "all"],
    ["xbar-s", 12, "first:20"],
  ] as const)("%s of %i, baseline %s", async (chart, size, baseline) => {
    const subgroups = consecutive(values, size);
    const first = baseline === "all" ? subgroups : subgroups.slice(0, Number(baseline.slice(6)));
    const { d2, d3, c4 } = constantsOf(size);
    const isRange = chart === "xbar-r";
    const spreadOf = isRange ? range : (subgroup: number[]) => sampleStandardDeviation(subgroup);
    const unbiased = isRange ? d2 : c4;
    const scatter = isRange ? d3 : Math.sqrt(1 - c4 * c4);
    const centre = meanOf(first.flat());
    const sigma = meanOf(first.map(spreadOf)) / unbiased;

    const found = await study(
      values.map((value) => ({ feature: "bore", value })),
      ...["--chart", chart, "--subgroup", String(size), "--baseline", baseline],
    );
    // 503 readings leave an incomplete subgroup over, which is not charted.
    expect(found).toMatchObject({ chart, count: 503, subgroups: subgroups.length });
    const { limits, signals } = found;
    near(limits!.centre, centre);
    near(limits!.sigma, sigma);
    near(limits!.location.lower, centre - (3 * sigma) / Math.sqrt(size));
    near(limits!.location.upper, centre + (3 * sigma) / Math.sqrt(size));
    near(limits!.spread!.centre, unbiased * sigma);
    near(limits!.spread!.upper, (unbiased + 3 * scatter) * sigma);
    near(limits!.spread!.lower, Math.max(0, unbiased - 3 * scatter) * sigma);
    expect(limits!.bySize).toBeUndefined();

    const location = subgroups.map((subgroup) => (meanOf(subgroup) - centre) / (sigma / Math.sqrt(size)));
    const spread = subgroups.map((subgroup) => (spreadOf(subgroup) - unbiased * sigma) / (scatter * sigma));
    const expected = [...firings(location, "location"), ...firings(spread, "spread")];
    expect(expected.length).toBeGreaterThan(5);
    expect(bySortedPlace(signals)).toEqual(bySortedPlace(expected));
  });
});

describe("single readings", () => {
  const values = readings(220, 99);

  test.each(["all", "first:40"])("i-mr, baseline %s", async (baseline) => {
    const first = baseline === "all" ? values : values.slice(0, 40);
    const moving = values.slice(1).map((value, i) => Math.abs(value - values[i]!));
    const { d2, d3 } = constantsOf(2);
    const centre = meanOf(first);
    const sigma = meanOf(moving.slice(0, first.length - 1)) / d2;

    const rows = values.map((value) => ({ feature: "bore", value }));
    const { limits, signals, chart, subgroups } = await study(rows, "--baseline", baseline);
    expect({ chart, subgroups }).toEqual({ chart: "i-mr", subgroups: 220 });
    near(limits!.centre, centre);
    near(limits!.sigma, sigma);
    near(limits!.location.lower, centre - 3 * sigma);
    near(limits!.location.upper, centre + 3 * sigma);
    near(limits!.spread!.upper, (d2 + 3 * d3) * sigma);

    const location = values.map((value) => (value - centre) / sigma);
    const spread = moving.map((one) => (one - d2 * sigma) / (d3 * sigma));
    // The first reading has no moving range, so range i is that of reading i + 1.
    const expected = [
      ...firings(location, "location"),
      ...firings(spread, "spread").map((signal) => ({
        ...signal,
        at: signal.at + 1,
        members: signal.members.map((member) => member + 1),
      })),
    ];
    expect(expected.length).toBeGreaterThan(5);
    expect(bySortedPlace(signals)).toEqual(bySortedPlace(expected));
  });
});

describe("subgroups of unequal size", () => {
  const values = readings(400, 5);
  const sizes = [3, 5, 4, 5, 6, 5, 2];
  const subgroups: number[][] = [];
  for (let from = 0; from + 6 <= values.length; ) {
    const size = sizes[subgroups.length % sizes.length]!;
    subgroups.push(values.slice(from, from + size));
    from += size;
  }
  const rows = subgroups.flatMap((subgroup, number) =>
    subgroup.map((value) => ({ feature: "bore", value, subgroup: `s${number}` })),
  );

  test.each(["xbar-r", "xbar-s"] as const)("%s, baseline first:30", async (chart) => {
    const first = subgroups.slice(0, 30);
    const centre = meanOf(first.flat());
    const isRange = chart === "xbar-r";
    const weights = first.map(({ length }) => (constantsOf(length).d2 / constantsOf(length).d3) ** 2);
    const sigma = isRange
      ? sum(first.map((one, i) => (weights[i]! * range(one)) / constantsOf(one.length).d2)) / sum(weights)
      : Math.sqrt(
          sum(first.map((one) => (one.length - 1) * sampleStandardDeviation(one) ** 2)) /
            sum(first.map((one) => one.length - 1)),
        );

    const { limits, signals, ...found } = await study(rows, "--chart", chart, "--baseline", "first:30");
    // The newest labelled subgroup waits while it is smaller than the usual size of five.
    const charted = subgroups.at(-1)!.length < 5 ? subgroups.slice(0, -1) : subgroups;
    expect(found).toMatchObject({ chart, count: rows.length, subgroups: charted.length });
    near(limits!.centre, centre);
    near(limits!.sigma, sigma);
    // The most frequent size is five; each size has limits of its own.
    near(limits!.location.upper, centre + (3 * sigma) / Math.sqrt(5));
    expect(limits!.bySize!.map(({ size }) => size)).toEqual([2, 3, 4, 5, 6]);
    for (const { size, location, spread } of limits!.bySize!) {
      const { d2, d3, c4 } = constantsOf(size);
      near(location.lower, centre - (3 * sigma) / Math.sqrt(size));
      near(spread!.upper, (isRange ? d2 + 3 * d3 : c4 + 3 * Math.sqrt(1 - c4 * c4)) * sigma);
    }

    const location = charted.map((one) => ((meanOf(one) - centre) * Math.sqrt(one.length)) / sigma);
    const spread = charted.map((one) => {
      const { d2, d3, c4 } = constantsOf(one.length);
      return isRange
        ? (range(one) - d2 * sigma) / (d3 * sigma)
        : (sampleStandardDeviation(one) - c4 * sigma) / (Math.sqrt(1 - c4 * c4) * sigma);
    });
    const expected = [...firings(location, "location"), ...firings(spread, "spread")];
    expect(expected.length).toBeGreaterThan(5);
    expect(bySortedPlace(signals)).toEqual(bySortedPlace(expected));
  });
});
