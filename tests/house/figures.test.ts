import { expect, test } from "vitest";
import { rawFigures, storedLengths } from "./figures";
import { listed, sourceFiles } from "./source-files";

const files = sourceFiles();

test("every figure of a page is written by lib/format, which knows the plant's marks", () => {
  expect(listed(rawFigures(files))).toEqual([]);
});

test("every page reads lengths through app/shown, which knows the plant's unit", () => {
  expect(listed(storedLengths(files))).toEqual([]);
});

test.each([
  ["a fixed figure", "<p>{index.toFixed(2)}</p>"],
  ["a rounded one", "const said = p.toPrecision(2);"],
  ["one in the browser's own way", "<p>{count.toLocaleString()}</p>"],
  ["one of another library", 'new Intl.NumberFormat("en")'],
])("the check finds %s", (_, text) => {
  expect(rawFigures([{ path: "app/x.tsx", text }])).toHaveLength(1);
});

test("and lets places of a picture and numbers for reckoning pass", () => {
  const text = "const d = 'M' + x.toFixed(1);\nconst step = Number(value.toPrecision(12));";
  expect(rawFigures([{ path: "app/x.tsx", text }])).toEqual([]);
});

test("the check finds a page that reads what is stored", () => {
  const text = "const history = await featureHistory(db, id);";
  expect(storedLengths([{ path: "app/x/page.tsx", text }])).toHaveLength(1);
  expect(storedLengths([{ path: "app/capability/studied.ts", text }])).toEqual([]);
});
