import { describe, expect, test } from "vitest";
import { causeWords, FreezeForm, positionsOf } from "../../app/features/[id]/engineer-entry";
import { baselineFrom, numbersWords } from "../../app/features/[id]/engineer-view";
import { ENGLISH } from "../../lib/words/words";

const { features: said } = ENGLISH;

/** Sixty subgroups, one an hour. */
const HOURLY = { count: 60, at: Array.from({ length: 60 }, (_, hour) => hour * 3_600_000) };

describe("first and last subgroup, as typed", () => {
  test("people count from 1, the chart from 0", () => {
    expect(positionsOf({ first: 1, last: 25 }, HOURLY, said.answers)).toEqual({ ok: true, from: 0, to: 24 });
  });

  test.each([
    [{ first: 0, last: 5 }, "from 1 to 60"],
    [{ first: 3, last: 61 }, "from 1 to 60"],
    [{ first: 9, last: 5 }, "subgroup 9 comes after subgroup 5"],
  ])("%o is refused in words", (typed, words) => {
    const read = positionsOf(typed, HOURLY, said.answers);
    expect(read.ok ? "" : read.why).toContain(words);
  });

  test("subgroups of one moment go together: a span of time could not tell them apart", () => {
    const daily = { count: 6, at: [1, 1, 2, 2, 2, 3] };
    const read = positionsOf({ first: 4, last: 4 }, daily, said.answers);
    expect(read.ok ? "" : read.why).toMatch(/^subgroups 3 to 5 were measured at the same time/);
    expect(positionsOf({ first: 3, last: 5 }, daily, said.answers)).toEqual({ ok: true, from: 2, to: 4 });
    expect(positionsOf({ first: 6, last: 6 }, daily, said.answers)).toEqual({ ok: true, from: 5, to: 5 });
  });

  test("a half-typed number is no subgroup", () => {
    const form = { feature: "3", first: "1e", last: " 25 ", effective: "everything", effectiveNumber: "" };
    const read = FreezeForm.parse({
      ...form,
      reason: " first limits ",
      count: "60",
      lastAt: "1736121600000",
    });
    expect(read).toMatchObject({ first: 0, last: 25, effectiveNumber: 0, reason: "first limits" });
  });
});

test("a cause is the one of the list, what was added in words, or both", () => {
  expect(causeWords({ cause: "Tool broke", detail: "" })).toBe("Tool broke");
  expect(causeWords({ cause: "", detail: "chips on the stop" })).toBe("chips on the stop");
  expect(causeWords({ cause: "Tool broke", detail: "insert 3" })).toBe("Tool broke: insert 3");
});

describe("a baseline in the address", () => {
  test("is cut to what there is and turned the right way round", () => {
    expect(baselineFrom("10-34", { count: 60 })).toEqual({ from: 10, to: 34 });
    expect(baselineFrom("90-34", { count: 60 })).toEqual({ from: 34, to: 59 });
  });

  test.each([["x"], [undefined], [["1-2"]], ["1-"]])("%o asks for none", (text) => {
    expect(baselineFrom(text, { count: 60 })).toBeNull();
  });
});

test("an exclusion is told by the subgroups it holds today", () => {
  const points = {
    count: 3,
    at: Float64Array.of(100, 200, 300),
    size: new Float64Array(3),
    mean: new Float64Array(3),
    spread: new Float64Array(3),
    excluded: new Uint8Array(3),
    limits: new Int16Array(3),
  };
  expect(numbersWords(points, { from: 150, to: 300 }, said)).toBe("subgroups 2 to 3");
  expect(numbersWords(points, { from: 100, to: 100 }, said)).toBe("subgroup 1");
  expect(numbersWords(points, { from: 400, to: 500 }, said)).toBe("no subgroup any more");
});
