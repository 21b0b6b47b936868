import { expect, test } from "vitest";
import {
  lookWords,
  progressShare,
  progressWords,
  resultWords,
  sizeWords,
} from "../../app/intake/result-words";
import { ENGLISH } from "../../lib/words/words";

const { results } = ENGLISH.desk;

const none = { accepted: 0, refused: 0, duplicates: 0, corrections: 0, late: 0, signals: 0, alarms: 0 };

test.each([
  [
    { accepted: 320, refused: 3, duplicates: 12, corrections: 2, late: 5, signals: 4, alarms: 1 },
    "320 measurements stored, 3 rows refused, 12 there already, 2 corrected, 5 late; 4 signals, 1 alarm.",
  ],
  [{ ...none, accepted: 1 }, "1 measurement stored; no signals, no alarms."],
  [{ ...none, duplicates: 800, refused: 3 }, "0 measurements stored, 3 rows refused, 800 there already."],
  [{ ...none, corrections: 1, signals: 1 }, "0 measurements stored, 1 corrected; 1 signal, no alarms."],
])("%j reads %j", (counts, words) => {
  expect(resultWords({ ...none, ...counts }, results)).toBe(words);
});

test("features that need a look", () => {
  expect([0, 1, 5].map((count) => lookWords(count, results))).toEqual([
    "No feature needs a look.",
    "1 feature needs a look.",
    "5 features need a look.",
  ]);
});

test("progress runs from nothing over half, when all is read, to the whole", () => {
  const reading = { step: "reading", done: 50, total: 100, rows: 12_345 } as const;
  const storing = { step: "storing", done: 3, total: 4 } as const;
  expect([null, reading, storing].map(progressShare)).toEqual([null, 0.25, 0.875]);
  expect(progressWords(reading, results)).toBe("Reading: 12,345 measurements so far");
  expect(progressWords(storing, results)).toBe("Storing and judging: feature 4 of 4");
});

test("a sheet does not tell its length, so its progress has no share", () => {
  expect(progressShare({ step: "reading", done: 1000, total: 0, rows: 1000 })).toBeNull();
});

test.each([
  [1, "1 byte"],
  [84_992, "83\u00a0KB"],
  [13_002_342, "12.4\u00a0MB"],
  [2_147_483_648, "2\u00a0GB"],
])("%d bytes are %s", (bytes, words) => {
  expect(sizeWords(bytes, results)).toBe(words);
});
