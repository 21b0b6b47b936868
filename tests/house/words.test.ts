import { describe, expect, test } from "vitest";
import { WORDS } from "../../lib/words/words";
import { listed, sourceFiles } from "./source-files";
import { leaves, untranslated, unusedWords } from "./words";

const files = sourceFiles();
const pages = files.filter(
  ({ path, text }) => path.startsWith("app/") && (path.endsWith(".tsx") || text.startsWith('"use server"')),
);

describe("pages say nothing themselves", () => {
  test("each text comes from lib/words", () => {
    expect(pages.length).toBeGreaterThan(100);
    expect(listed(pages.flatMap(untranslated))).toEqual([]);
  });

  test.each([
    ["text", "<p>Nothing here</p>"],
    ["a title", '<Note title="Empty" />'],
    ["a sentence in an expression", '<p>{isLate ? "Too late now" : ""}</p>'],
    ["a sentence with figures", ["<p>{`Only $", "{count} left over`}</p>"].join("")],
    ["an age in English", "<p>{agoWords(at, now)}</p>"],
  ])("the check finds %s", (_, jsx) => {
    expect(untranslated({ path: "app/x.tsx", text: `const a = ${jsx};` })).toHaveLength(1);
  });

  test("and lets through what nobody reads", () => {
    const text = `"use client";\nimport a from "some where else";\nconst b = <p className="one two" id="x">{words.x} {agoWords(at, now, times)} Σ</p>;`;
    expect(untranslated({ path: "app/x.tsx", text })).toEqual([]);
  });
});

describe("German", () => {
  const german = new Map(leaves(WORDS.de).map(({ path, value }) => [path.join("."), value]));
  const texts = leaves(WORDS.en).map(({ path, value }) => ({ at: path.join("."), value }));

  test("has the holes of the English text, each by its name", () => {
    const holes = (text: unknown) => (String(text).match(/\{\w+\}/g) ?? []).sort();
    const wrong = texts.filter(
      ({ at, value }) => typeof value === "string" && holes(value).join() !== holes(german.get(at)).join(),
    );
    expect(wrong.map(({ at }) => at)).toEqual([]);
  });

  test("is said in German, sentence by sentence", () => {
    const same = texts.filter(
      ({ at, value }) =>
        typeof value === "string" &&
        / /.test(value) &&
        /\p{L}{3}/u.test(value.replace(/\{\w+\}/g, "")) &&
        value === german.get(at),
    );
    expect(same.map(({ at }) => at)).toEqual([]);
  });

  test("uses no other letters for its own: no ae for ä, no straight quotation marks", () => {
    const odd = [...german].filter(
      ([, value]) => /\b(fuer|ueber|koennen|groesse)\b|"/i.test(String(value)) && typeof value === "string",
    );
    expect(odd.map(([at]) => at)).toEqual([]);
  });
});

test("no text of the catalogue is left that nothing says", () => {
  const speakers = files.filter(
    ({ path }) => /^(app|db|lib)\/.*\.tsx?$/.test(path) && !path.startsWith("lib/words/"),
  );
  expect(unusedWords(WORDS.en, speakers)).toEqual([]);
});
