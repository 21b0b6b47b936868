import { expect, test } from "vitest";
import { fileName } from "../../../lib/format/file-name";

test.each([
  ["H-210 Bore Ø 62, mean", "h-210-bore-o-62-mean"],
  ["Maß über Kugeln", "ma-uber-kugeln"],
  ["../../etc", "etc"],
  ["…", "steadyrest"],
])("a file named after %s", (words, name) => {
  expect(fileName(words)).toBe(name);
});
