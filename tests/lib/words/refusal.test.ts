import { expect, test } from "vitest";
import { fault, refusalIn, refused, refusedAs } from "../../../lib/words/refusal";
import { WORDS } from "../../../lib/words/words";

test("a refusal speaks English to programs, and the language of the reader by its name and its facts", () => {
  const found = refused("not-verified", 1, 5);
  expect(found.message).toMatch(/^Nothing saved: 1 of 5 good subgroups since the action\./);
  expect(refusalIn(WORDS.en, found.refusal)).toBe(found.message);
  expect(refusalIn(WORDS.de, found.refusal)).toMatch(
    /^Nichts gespeichert: Seit der Maßnahme 1 von 5 guten Stichproben\./,
  );
});

test("it is plain data, so it may cross to another thread", () => {
  const found = refused("shelving-long", 8 * 3_600_000);
  expect(refusalIn(WORDS.de, structuredClone(found.refusal))).toMatch(/höchstens für 8 h zurückgestellt/);
});

test("what a check has found is refused in the same words", () => {
  expect(refusedAs(fault("pin-even"))).toEqual(refused("pin-even"));
});

test.each(["en", "de"] as const)("every refusal says first that nothing was saved (%s)", (language) => {
  const begins = { en: "Nothing saved: ", de: "Nichts gespeichert: " }[language];
  const texts = Object.entries(WORDS[language].refusals).filter(([, text]) => typeof text === "string");
  expect(texts.length).toBeGreaterThan(20);
  expect(texts.filter(([, text]) => !String(text).startsWith(begins)).map(([code]) => code)).toEqual([]);
});
