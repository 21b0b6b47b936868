import { describe, expect, test } from "vitest";
import { pageAsked, paged } from "../../../lib/format/paged";

const SEVEN = ["a", "b", "c", "d", "e", "f", "g"];
const page = (asked: number) => paged(SEVEN, { page: asked, size: 3 });

describe("pages of a list", () => {
  test("by hand: seven rows on pages of three", () => {
    expect(page(1)).toEqual({ rows: ["a", "b", "c"], page: 1, pages: 3, from: 1, to: 3, count: 7 });
    expect(page(3)).toEqual({ rows: ["g"], page: 3, pages: 3, from: 7, to: 7, count: 7 });
  });

  test("edge: what fits on one page is one page, nothing is one page without rows", () => {
    expect(paged(SEVEN, { page: 1, size: 7 }).pages).toBe(1);
    expect(paged([], { page: 1, size: 3 })).toEqual({
      rows: [],
      page: 1,
      pages: 1,
      from: 0,
      to: 0,
      count: 0,
    });
  });

  test("edge: behind the end comes the last page, what is no page number is the first", () => {
    expect(page(9).page).toBe(3);
    expect(page(0).page).toBe(1);
    expect(page(1.5).page).toBe(1);
    expect(page(Number.NaN).page).toBe(1);
  });

  test("law: the pages together are the list", () => {
    const all = Array.from({ length: 3 }, (_, i) => page(i + 1)).flatMap(({ rows }) => rows);
    expect(all).toEqual(SEVEN);
  });
});

test.each([
  ["3", 3],
  [undefined, 1],
  ["", 1],
  ["-1", 1],
  ["2.5", 1],
  ["x", 1],
  [["2", "3"], 1],
  ["9".repeat(30), 1],
])("an address that asks for page %j gets page %i", (asked, page) => expect(pageAsked(asked)).toBe(page));
