import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type FormedSubgroups,
  type FormingState,
  formSubgroups,
  LARGEST_SUBGROUP,
  placeMeasurement,
  SUBGROUPS_REMEMBERED,
  startForming,
  WAITS,
} from "../../../lib/subgroups/form-subgroups";

/** Members of every subgroup, from the labels (0 none) and lots of a series. */
function formed(labels: number[] | null, lots: number[], size: number): number[][] {
  return members(formSubgroups({ subgroup: labels, lot: lots }, lots.length, size));
}

function members({ count, start, order }: FormedSubgroups): number[][] {
  return Array.from({ length: count }, (_, s) => [...order.subarray(start[s], start[s + 1])]);
}

const inOneLot = (count: number) => new Array<number>(count).fill(1);

describe("by hand", () => {
  test("without labels: every three in time order, whatever the lots; the last two wait", () => {
    expect(formed(null, [1, 1, 2, 2, 3, 3, 3, 4], 3)).toEqual([
      [0, 1, 2],
      [3, 4, 5],
    ]);
  });

  test("single readings are subgroups of one", () => {
    expect(formed(null, [1, 1, 2], 1)).toEqual([[0], [1], [2]]);
  });

  test("with labels: those of one lot and label, in order of first appearance, also interleaved", () => {
    expect(formed([7, 8, 7, 8, 7], inOneLot(5), 3)).toEqual([
      [0, 2, 4],
      [1, 3],
    ]);
  });

  test("the same label in another lot is another subgroup", () => {
    expect(formed([1, 1, 1, 1], [1, 1, 2, 2], 2)).toEqual([
      [0, 1],
      [2, 3],
    ]);
  });

  test("labelled and not: a subgroup without label counts from when it is complete", () => {
    expect(formed([5, 0, 5, 0, 0], inOneLot(5), 2)).toEqual([
      [0, 2],
      [1, 3],
    ]);
    expect(formed([0, 5, 0, 5], inOneLot(4), 2)).toEqual([
      [1, 3],
      [0, 2],
    ]);
  });

  test("a label joins its subgroup while that is among the last 16 begun, and begins a new one after", () => {
    const between = (others: number) => [1, ...Array.from({ length: others }, (_, i) => i + 2), 1];
    const near = between(SUBGROUPS_REMEMBERED - 1);
    const far = between(SUBGROUPS_REMEMBERED);
    expect(formed(near, inOneLot(near.length), 5)[0]).toEqual([0, near.length - 1]);
    expect(formed(far, inOneLot(far.length), 5)[0]).toEqual([0]);
    expect(formed(far, inOneLot(far.length), 5).at(-1)).toEqual([far.length - 1]);
  });

  test("a subgroup of 1000 is full", () => {
    const many = new Array<number>(LARGEST_SUBGROUP + 2).fill(3);
    expect(formed(many, inOneLot(many.length), 5).map((group) => group.length)).toEqual([
      LARGEST_SUBGROUP,
      2,
    ]);
  });
});

describe("law", () => {
  const measurement = fc.record({
    label: fc.integer({ min: 0, max: 6 }),
    lot: fc.integer({ min: 1, max: 3 }),
  });
  const series = fc.array(measurement, { maxLength: 120 });
  const sizes = fc.integer({ min: 1, max: 6 });

  test("one by one, from a state that was stored in between, gives what the whole series gives", () => {
    fc.assert(
      fc.property(series, sizes, (measurements, size) => {
        let state: FormingState = startForming();
        const groups: number[][] = [];
        measurements.forEach(({ lot, label }, at) => {
          const stored = JSON.parse(JSON.stringify(state)) as FormingState;
          state = stored;
          const waited = label === 0 ? [...state.waiting] : [];
          const number = placeMeasurement(state, { at, lot, label }, size);
          if (number === WAITS) return;
          groups[number] ??= [];
          groups[number].push(...waited, at);
        });
        const labels = measurements.map((one) => one.label);
        const lots = measurements.map((one) => one.lot);
        expect(formed(labels, lots, size)).toEqual(groups);
      }),
    );
  });

  test("every measurement is in one subgroup or waits, and fewer wait than make a subgroup", () => {
    fc.assert(
      fc.property(series, sizes, (measurements, size) => {
        const labels = measurements.map((one) => one.label);
        const groups = formed(
          labels,
          measurements.map((one) => one.lot),
          size,
        );
        const placed = groups.flat().sort((a, b) => a - b);
        expect(new Set(placed).size).toBe(placed.length);
        const left = labels.map((_, at) => at).filter((at) => !placed.includes(at));
        expect(left.length).toBeLessThan(size);
        expect(left.every((at) => labels[at] === 0)).toBe(true);
        for (const group of groups) expect(group).toEqual([...group].sort((a, b) => a - b));
      }),
    );
  });

  test("more measurements never renumber or empty a subgroup", () => {
    fc.assert(
      fc.property(series, sizes, (measurements, size) => {
        const labels = measurements.map((one) => one.label);
        const lots = measurements.map((one) => one.lot);
        const half = Math.floor(measurements.length / 2);
        const before = formed(labels.slice(0, half), lots.slice(0, half), size);
        const after = formed(labels, lots, size);
        before.forEach((group, s) => {
          expect(after[s]!.slice(0, group.length)).toEqual(group);
        });
      }),
    );
  });

  test("the state stays small however long the series", () => {
    const state = startForming();
    for (let at = 0; at < 5000; at++) {
      placeMeasurement(state, { at, lot: 1, label: at % 3 === 0 ? 0 : at }, 9);
      expect(state.open.length).toBeLessThanOrEqual(SUBGROUPS_REMEMBERED);
      expect(state.waiting.length).toBeLessThan(9);
    }
  });
});

describe("edge", () => {
  test("no measurements, no subgroups", () => {
    expect(formed(null, [], 5)).toEqual([]);
  });

  test.each([0, -1, 2.5, 1001, Number.NaN])("a size of %s is refused by name", (size) => {
    const fault = expect.objectContaining({ name: "InvalidInput", field: "size", value: size });
    expect(() => formed(null, [1], size)).toThrow(fault);
    expect(() => placeMeasurement(startForming(), { at: 0, lot: 1, label: 0 }, size)).toThrow(fault);
  });

  test("a column shorter than the series is refused", () => {
    expect(() => formSubgroups({ subgroup: [1], lot: [1, 1] }, 2, 5)).toThrow(/subgroup\.length/);
    expect(() => formSubgroups({ subgroup: null, lot: [1] }, 2, 5)).toThrow(/lot\.length/);
  });
});
