import { expect, test } from "vitest";
import { GLOSSARY } from "../../../lib/glossary/terms";
import { WORDS } from "../../../lib/words/words";

const terms = GLOSSARY.flatMap((group) => [...group.terms]);

test.each(["en", "de"] as const)(
  "every term has an address of its own, a meaning and a source (%s)",
  (language) => {
    const { glossary, terms: names } = WORDS[language];
    expect(terms.map(({ slug }) => slug).sort()).toEqual(Object.keys(names).sort());
    for (const { slug } of terms) {
      expect(slug).toMatch(/^[a-z]+(-[a-z]+)*$/);
      const { meaning, source } = glossary.entries[slug];
      expect(meaning).toMatch(/\.$/);
      expect(source).not.toBe("");
    }
  },
);

test("no term leads to itself", () => {
  expect(terms.filter(({ slug, see }) => see.includes(slug))).toEqual([]);
});
