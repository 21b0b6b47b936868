import { describe, expect, test } from "vitest";
import { FarValues, nearSpan } from "../../../lib/intake/far-values";

describe("how far is far, by hand: ten widths of the tolerance on either side of nominal", () => {
  test.each([
    ["both limits", { nominal: 112, lower: 111.95, upper: 112.05 }, 111, 113],
    ["limits that lie to one side of nominal", { nominal: 25, lower: 25.01, upper: 25.05 }, 24.6, 25.4],
    ["no nominal: from the middle", { nominal: null, lower: 9.9, upper: 10.1 }, 8, 12],
    [
      "an upper limit alone: the width is that from nominal",
      { nominal: 0, lower: null, upper: 0.05 },
      -0.5,
      0.5,
    ],
    ["a lower limit alone", { nominal: 50, lower: 49.8, upper: null }, 48, 52],
  ])("%s", (_what, bounds, low, high) => {
    expect(nearSpan(bounds)?.low).toBeCloseTo(low, 10);
    expect(nearSpan(bounds)?.high).toBeCloseTo(high, 10);
  });

  test.each([
    ["no limits", { nominal: 112, lower: null, upper: null }],
    ["one limit and no nominal", { nominal: null, lower: null, upper: 5 }],
    ["a limit at nominal alone", { nominal: 5, lower: null, upper: 5 }],
    ["nothing", { nominal: null, lower: null, upper: null }],
  ])("nothing is far where no width is known: %s", (_what, bounds) => {
    expect(nearSpan(bounds)).toBeNull();
  });
});

describe("what is remarked", () => {
  const withRows = (lines: readonly number[]) => {
    const far = new FarValues();
    for (const line of lines) far.add({ line, feature: "Bore", value: 1120.2 });
    return far.remark();
  };

  test("nothing, one, some, and more than are named: the first rows whatever came first", () => {
    expect(withRows([])).toBe("");
    expect(withRows([17])).toMatch(
      /^1 value lies more than 10 .* in row 17 \(“Bore”, 1120\.2\): .* stored as it is\.$/,
    );
    expect(withRows([30, 17])).toMatch(/^2 values .* in rows 17 \(“Bore”, 1120\.2\), 30 \(/);
    const many = withRows(Array.from({ length: 20 }, (_, i) => 40 - i));
    expect(many).toMatch(/^20 values .* the first in rows 21 /);
    expect(many.match(/“Bore”/g)).toHaveLength(8);
    expect(many).toContain(" 28 (");
    expect(many).not.toContain(" 29 (");
  });
});
