import { expect, test } from "vitest";
import { recordQuery } from "../../app/record/record-filter";

const BERLIN = { zone: "Europe/Berlin" };

test("days are whole days of the plant's calendar, also the one on which the clock changes", () => {
  // Summer time ended in Germany on 25 October 2026 (EU directive 2000/84/EC: the last Sunday of October), a day of 25 hours.
  const { filter } = recordQuery({ from: "2026-10-25", to: "2026-10-25" }, BERLIN);
  expect(filter.from).toBe(Date.parse("2026-10-24T22:00:00Z"));
  expect(filter.to).toBe(Date.parse("2026-10-25T23:00:00Z") - 1);
});

test("what cannot be read counts as not asked", () => {
  const asked = { from: "2026-13-45", to: "yesterday", person: "-1", text: "x".repeat(201), before: "1e9e" };
  expect(recordQuery(asked, BERLIN)).toEqual({
    query: {},
    filter: { accountId: null, from: null, to: null },
  });
});
