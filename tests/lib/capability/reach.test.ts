import { describe, expect, test } from "vitest";
import type { Gate } from "../../../lib/capability/gates";
import { boundDecimals, indexDecimals, reachOf } from "../../../lib/capability/reach";
import { askedWords, indexAsked } from "../../../lib/plan/index-asked";

type Study = Parameters<typeof reachOf>[0];

const gate = (passed: boolean): Gate => ({ gate: "stable", passed, reason: "" });
const bounds = (Cpk: number | null, Ppk: number | null) => ({ Cpk, Ppk }) as Study["lowerBounds"];
const study = (changes: Partial<Study> = {}): Study => ({
  problem: null,
  gates: [gate(true)],
  Cpk: 0.87,
  Ppk: 0.8,
  lowerBounds: bounds(0.76, 0.7),
  modelStudy: null,
  ...changes,
});

describe("what is asked of an index", () => {
  test("is what the plan states, else what is usual", () => {
    expect(indexAsked({ keyCharacteristic: true, indexAsked: null })).toBe(1.33);
    expect(indexAsked({ keyCharacteristic: false, indexAsked: null })).toBe(1);
    expect(indexAsked({ keyCharacteristic: true, indexAsked: 1.67 })).toBe(1.67);
  });

  test.each([
    [1, "1.00"],
    [1.33, "1.33"],
    [1.335, "1.335"],
  ])("%d is written as %s", (asked, written) => {
    expect(askedWords(asked)).toBe(written);
  });

  // Both may be presented as capability, and yet they are not the same to a customer.
  test.each([
    ["0.87 misses 1.33", 0.87, 0.76, "missed"],
    ["1.40 with a bound of 1.21 is not yet shown", 1.4, 1.21, "not-yet"],
    ["1.40 without a bound is not yet shown", 1.4, null, "not-yet"],
    ["2.10 with a bound of 1.85 reaches it", 2.1, 1.85, "shown"],
    ["a bound of just what is asked reaches it", 1.5, 1.33, "shown"],
  ] as const)("%s", (_what, Cpk, bound, verdict) => {
    expect(reachOf(study({ Cpk, lowerBounds: bounds(bound, 0) }), 1.33)).toMatchObject({
      name: "Cpk",
      verdict,
    });
  });

  test("where only performance may be said, Ppk is held against it", () => {
    const failed = study({ gates: [gate(false)], Cpk: 2.1, Ppk: 1.08, lowerBounds: bounds(1.85, 0.9) });
    expect(reachOf(failed, 1)).toEqual({
      name: "Ppk",
      index: 1.08,
      bound: 0.9,
      asked: 1,
      verdict: "not-yet",
    });
    expect(reachOf(study({ Cpk: null, Ppk: 2, lowerBounds: bounds(null, 1.7) }), 1.33)).toMatchObject({
      name: "Ppk",
    });
  });

  test("without an index there is nothing to hold against it", () => {
    expect(reachOf(study({ problem: { code: "no-tolerance" } }), 1.33)).toBeNull();
    expect(reachOf(study({ Cpk: null, Ppk: null }), 1.33)).toBeNull();
  });

  test.each([
    [1.215, 1.33, 2],
    [1.3249, 1.33, 2],
    [1.329, 1.33, 3],
    [1.32999, 1.33, 5],
    [1.33, 1.33, 2],
    [1.334, 1.33, 2],
    [1.3341, 1.334, 3],
    [1.333, 1.333, 3],
  ])(
    "%d against %d is written with %d decimals, so that it does not seem to be what it is not",
    (index, asked, decimals) => {
      expect(indexDecimals({ index, asked })).toBe(decimals);
    },
  );

  test.each([
    [1.334, 1.33, 2],
    [1.33, 1.33, 2],
    [1.15, 1.15, 2],
    [1.339, 1.335, 3],
    [1.3352, 1.3351, 4],
    [1.329, 1.33, 2],
  ])("a bound of %d against %d, rounded down, is written with %d", (bound, asked, decimals) => {
    expect(boundDecimals({ bound, asked })).toBe(decimals);
  });
});
