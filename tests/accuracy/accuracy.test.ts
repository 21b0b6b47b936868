import { describe, expect, test } from "vitest";
import { accuracyTable, correctDigits, MOST_DIGITS } from "./table";

/**
 * Fewest correct digits of any figure of a set.
 *
 * Where fewer than 13 are asked for the doubles themselves are the reason: with an offset of 1e6 beside a spread of
 * 0.1 (SmLs04, NumAcc3) the readings lost six digits before any arithmetic, with one of 1e12 (SmLs07) twelve. The condition of Longley's
 * regression costs four to five digits even by orthogonal triangularisation.
 */
const FEWEST: Record<string, number> = {
  Michelso: 13,
  NumAcc1: 15,
  NumAcc3: 9,
  PiDigits: 14,
  Lew: 14,
  SiRstv: 12.5,
  SmLs01: 14,
  SmLs04: 9.5,
  SmLs07: 3.5,
  Norris: 13,
  NoInt1: 14,
  Pontius: 12,
  Longley: 10.5,
};

const rows = accuracyTable();

describe("certified: NIST Statistical Reference Datasets", () => {
  test("every set that is kept is in the table", () => {
    expect([...new Set(rows.map(({ set }) => set))].sort()).toEqual(Object.keys(FEWEST).sort());
  });

  test.each(Object.entries(FEWEST))("%s: at least %d correct digits of each figure", (set, fewest) => {
    for (const { figure, digits } of rows.filter((row) => row.set === set)) {
      expect(digits, figure).toBeGreaterThanOrEqual(fewest);
    }
  });
});

test("by hand: digits are those of the relative error, of the error itself at 0, and fifteen at most", () => {
  expect(correctDigits(1.001, 1)).toBeCloseTo(3, 10);
  expect(correctDigits(0.01, 0)).toBeCloseTo(2, 10);
  expect(correctDigits(7, 7)).toBe(MOST_DIGITS);
  expect(correctDigits(-5, 7)).toBe(0);
});
