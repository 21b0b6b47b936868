import { expect, test } from "vitest";
import { type BenchFeature, readBenchCell as readIn } from "../../../lib/intake/bench-cell";
import { ENGLISH } from "../../../lib/words/words";

const readBenchCell = (text: string, feature: BenchFeature, inspected?: string) =>
  readIn(text, feature, { cells: ENGLISH.bench.sheet.cells, figures: ENGLISH.figures }, inspected);

const bore = {
  id: 1,
  name: "Bore",
  unit: "mm",
  resolution: 0.001,
  nominal: 25,
  lower: 24.98,
  upper: 25.02,
  counts: null,
} as const;

test.each([
  ["", { kind: "empty" }],
  ["  ", { kind: "empty" }],
  ["25.003", { kind: "value", value: 25.003 }],
  ["25,003", { kind: "value", value: 25.003 }],
  ["25.02", { kind: "value", value: 25.02 }],
  ["24.98", { kind: "value", value: 24.98 }],
])("a cell of %o", (text, expected) => {
  expect(readBenchCell(text, bore)).toEqual(expected);
});

test("by hand: 25.023 lies 0.003 above 25.020, 24.9 lies 0.080 below 24.980, and both are stored", () => {
  expect(readBenchCell("25.023", bore)).toEqual({
    kind: "outside",
    value: 25.023,
    words: "0.0030\u00a0mm above the tolerance of 24.980 to 25.020\u00a0mm.",
  });
  expect(readBenchCell("24,9", bore)).toMatchObject({
    value: 24.9,
    words: "0.0800\u00a0mm below the tolerance of 24.980 to 25.020\u00a0mm.",
  });
});

test("one limit only, and none", () => {
  expect(readBenchCell("0.06", { ...bore, nominal: 0, lower: null, upper: 0.05 })).toMatchObject({
    kind: "outside",
    words: "0.0100\u00a0mm above the tolerance of at most 0.050\u00a0mm.",
  });
  expect(readBenchCell("-99", { ...bore, lower: null })).toEqual({ kind: "value", value: -99 });
  expect(readBenchCell("1e9", { ...bore, lower: null, upper: null })).toEqual({ kind: "value", value: 1e9 });
});

test("by hand: ten widths of 0.04 are 0.4, so 24.59 is asked for once more and 24.61 is not", () => {
  expect(readBenchCell("24.61", bore)).toMatchObject({ kind: "outside" });
  expect(readBenchCell("24.59", bore)).toMatchObject({
    kind: "far",
    value: 24.59,
    words: expect.stringMatching(/below the tolerance .* 10 tolerance widths .* is this what you read\?$/),
  });
});

test.each(["25.0.3", "1,000.5", "25.0o3", "--", "25 003"])("what is no number says so: %s", (text) => {
  expect(readBenchCell(text, bore)).toEqual({
    kind: "fault",
    words: `“${text}” is not a number. Type digits and one point or comma.`,
  });
});

test.each([
  ["p", null, "4", "180", { kind: "value", value: 4 }],
  ["p", null, "4", "", { kind: "fault", words: "Type under Inspected on how many it was found." }],
  ["p", 200, "4", "", { kind: "value", value: 4 }],
  ["p", 200, "201", "", { kind: "fault", words: "More than the 200 pieces that were inspected." }],
  ["p", 200, "4", "3", { kind: "fault", words: "More than the 3 pieces that were inspected." }],
  ["p", 200, "4", "12,5", { kind: "fault", words: "12.5 is no whole number of inspected pieces." }],
  ["u", null, "4", "2,5", { kind: "value", value: 4 }],
  ["u", 1, "4.5", "", { kind: "fault", words: "A count is a whole number from 0 on." }],
  // The column is for charts of shares; others are on what the plan says.
  ["np", 50, "4", "180", { kind: "value", value: 4 }],
] as const)("a count on a %s chart of %o: %o of %o", (chart, size, text, inspected, expected) => {
  const dents = {
    ...bore,
    unit: "none",
    nominal: null,
    lower: null,
    upper: null,
    counts: { chart, size },
  } as const;
  expect(readBenchCell(text, dents, inspected)).toEqual(expected);
});
