import { describe, expect, test } from "vitest";
import { suggestChart, suggestKind, suggestNaturalBound, suggestRules } from "../../../lib/plan/suggest-plan";
import { seriesOf } from "../series-of";

const values = (count: number) => Array.from({ length: count }, (_, i) => i);
/** Lot ids 1, 1, …, 2, 2, … with so many readings each. */
const lotsOf = (...sizes: number[]) => sizes.flatMap((size, lot) => Array<number>(size).fill(lot + 1));

describe("chart and subgroup size (common practice, no source)", () => {
  test.each([
    ["labels of five", { subgroup: lotsOf(5, 5, 5, 2) }, 17, { chart: "xbar-r", subgroupSize: 5 }],
    [
      "labels of one lot count apart from those of the next",
      { subgroup: [1, 1, 1, 1], lot: [1, 1, 2, 2] },
      4,
      { chart: "xbar-r", subgroupSize: 2 },
    ],
    ["ten readings a lot, always", { lot: lotsOf(10, 10, 10) }, 30, { chart: "xbar-s", subgroupSize: 10 }],
    ["four readings a lot, always", { lot: lotsOf(4, 4, 4) }, 12, { chart: "xbar-r", subgroupSize: 4 }],
    ["lots of many sizes", { lot: lotsOf(3, 7, 4, 9) }, 23, { chart: "xbar-r", subgroupSize: 5 }],
    ["large lots", { lot: lotsOf(60, 60) }, 120, { chart: "xbar-r", subgroupSize: 5 }],
    ["one reading a lot", { lot: lotsOf(1, 1, 1) }, 3, { chart: "i-mr", subgroupSize: 1 }],
    ["neither lots nor labels", {}, 9, { chart: "i-mr", subgroupSize: 1 }],
  ])("%s", (_, columns, count, expected) => {
    expect(suggestChart(seriesOf(values(count), columns))).toEqual(expected);
  });
});

describe("kind, bound and rules", () => {
  test.each([
    ["Output bore position", 0, "position"],
    ["Base flatness", null, "form"],
    ["Bore perpendicularity", null, "orientation"],
    ["Total run-out of seat", null, "runout"],
    ["Input bore diameter", 62, "size"],
    ["torque", null, "other"],
  ])("%s", (name, nominal, kind) => {
    expect(suggestKind(name, nominal)).toBe(kind);
  });

  test("a form deviation is bounded by 0, and gets only rules that do not presume symmetry", () => {
    expect(suggestNaturalBound("form", null, 0.01)).toBe(0);
    expect(suggestNaturalBound("form", null, -0.01)).toBeNull();
    expect(suggestNaturalBound("size", 9.9, 9.95)).toBeNull();
    expect(suggestRules(0)).toEqual(["beyond-3s"]);
    expect(suggestRules(null)).toContain("nine-one-side");
  });
});
