import { expect, test } from "vitest";
import { boardAddress, boardFilter, boardPlace, choicesOf, filterBoard } from "../../app/board/board-filter";
import type { BoardRow } from "../../db/queries/board";
import { ENGLISH } from "../../lib/words/words";

const ALL = { line: "", part: "", source: "", find: "" };

function row(name: string, number: string, sources: BoardRow["sources"]): BoardRow {
  const part = { number, revision: "C", name: "housing", line: "line 1", material: "" };
  return {
    feature: { name, kind: "size", part } as BoardRow["feature"],
    standing: null,
    alarm: null,
    sources,
    latestLot: null,
  };
}

const ROWS = [
  row("bore", "H-210", { fixture: "FX-2", gauge: "G-1" }),
  row("face", "H-210", { fixture: "FX-10" }),
  row("bore", "B-7", {}),
];

test("an address says what the board shows, and is read back as it was written", () => {
  const filter = { line: "line 1", part: "H-210", source: "fixture FX-2", find: "bore ø" };
  const place = { act: 2, watch: 3, quiet: 12, rest: 4 };
  const asked = Object.fromEntries(new URL(boardAddress(filter, place), "http://plant").searchParams);
  expect(boardFilter(asked)).toEqual(filter);
  expect(boardPlace(asked)).toEqual(place);
});

test("what is as usual is left out of the address", () => {
  expect(boardAddress(ALL)).toBe("/");
  expect(boardAddress(ALL, { act: 2, watch: 1, quiet: null, rest: 1 })).toBe("/?act=2");
});

test("a place that nobody can mean is the usual one", () => {
  for (const text of ["0", "-1", "1.5", "one", "", "9".repeat(20)]) {
    expect(boardPlace({ act: text, quiet: text })).toEqual({ act: 1, watch: 1, quiet: null, rest: 1 });
  }
  expect(boardPlace({ act: ["2", "3"] }).act).toBe(1);
});

test("a filter leaves in what passes all its fields, and finds words of the feature and of its part", () => {
  const kinds = ENGLISH.charts.features;
  const names = (filter: Partial<typeof ALL>) =>
    filterBoard(ROWS, { ...ALL, ...filter }, kinds).map(
      ({ feature }) => `${feature.part.number} ${feature.name}`,
    );
  expect(names({})).toEqual(["H-210 bore", "H-210 face", "B-7 bore"]);
  expect(names({ part: "H-210" })).toEqual(["H-210 bore", "H-210 face"]);
  expect(names({ source: "fixture FX-2" })).toEqual(["H-210 bore"]);
  expect(names({ find: "BORE b-7" })).toEqual(["B-7 bore"]);
  expect(names({ part: "H-210", find: "bore" })).toEqual(["H-210 bore"]);
  expect(names({ find: "nothing like it" })).toEqual([]);
});

test("what can be chosen stands once each, numbers in their order", () => {
  expect(choicesOf(ROWS)).toEqual({
    lines: ["line 1"],
    parts: ["B-7", "H-210"],
    sources: ["fixture FX-2", "fixture FX-10", "gauge G-1"],
  });
});
