import { expect, test } from "vitest";
import { GLOSSARY } from "../../../lib/glossary/terms";

const terms = GLOSSARY.flatMap((group) => [...group.terms]);

test("every term has an address of its own, a meaning and a source", () => {
  expect(new Set(terms.map(({ slug }) => slug)).size).toBe(terms.length);
  for (const { slug, meaning, source } of terms) {
    expect(slug).toMatch(/^[a-z]+(-[a-z]+)*$/);
    expect(meaning).toMatch(/\.$/);
    expect(source).not.toBe("");
  }
});

test("what a term leads to is there", () => {
  const slugs = new Set<string>(terms.map(({ slug }) => slug));
  const stray = terms.flatMap(({ see }) => [...see]).filter((slug) => !slugs.has(slug));
  expect(stray).toEqual([]);
});
