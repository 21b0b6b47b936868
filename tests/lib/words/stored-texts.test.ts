import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { decimalFault } from "../../../lib/intake/numbers";
import { WORDS } from "../../../lib/words/words";

const { say } = WORDS.de.storedTexts;
const ROOT = join(import.meta.dirname, "../../..");

/** The files that compose what intake stores or answers in English, and how many sentences each has at least. */
const SPEAKERS: readonly [path: string, least: number][] = [
  ["lib/intake/mapping.ts", 10],
  ["lib/intake/suggest-mapping.ts", 7],
  ["lib/intake/preview.ts", 2],
  ["lib/intake/numbers.ts", 10],
  ["lib/intake/times.ts", 4],
  ["lib/intake/statements.ts", 9],
  ["lib/intake/row-interpreter.ts", 4],
  ["lib/intake/figure-faults.ts", 2],
  ["lib/intake/far-values.ts", 3],
  ["lib/plan/count-refusal.ts", 7],
  ["lib/intake/sniff-file.ts", 12],
  ["lib/intake/csv.ts", 6],
  ["lib/intake/cells.ts", 2],
  ["lib/intake/encoding.ts", 1],
  ["lib/intake/zip-directory.ts", 5],
  ["lib/intake/qif/qif-document.ts", 4],
  ["db/intake/qif.ts", 7],
  ["db/intake/xlsx.ts", 4],
  ["db/intake/workbook-parts.ts", 3],
  ["db/intake/import-file.ts", 3],
  ["db/intake/store-staged.ts", 1],
  ["db/intake/store-rows.ts", 1],
  ["db/intake/filed-features.ts", 3],
  ["app/intake/uploads.ts", 2],
];

/** Pieces that other sentences are made of, which stand whole in the examples, faults of the program itself, and SQL. */
const PIECES = [
  /^“1” holds “1”, but the decimal mark/,
  /^1 Change the decimal mark/,
  /\(1\)\. Limits are absolute/,
  /^Export the measurements/,
  /^ (A quote that opens|Is the separator right)/,
  /^The workbook is refused unread: 1\./,
  /^The workbook is damaged at part “1”: 1\./,
  /^Nothing received: 1,/,
  /vanished inside a transaction|^pathOf requires/,
  /^select /,
];

describe("what intake says is said in German", () => {
  test.each(SPEAKERS)("%s", (path, least) => {
    const sentences = sentencesOf(readFileSync(join(ROOT, path), "utf8"));
    expect(sentences.length).toBeGreaterThanOrEqual(least);
    const left = sentences.filter((text) => say(text) === text && !PIECES.some((piece) => piece.test(text)));
    expect(left).toEqual([]);
  });

  test.each([
    decimalFault("1.234,5", "."),
    decimalFault("10,01", "."),
    decimalFault("1,001", "."),
    "B 2: the nominal 5 lies outside its tolerance limits (none to 4). Limits are absolute, not deviations from nominal.",
    "Line 4: a field is longer than 65,536 bytes. A quote that opens in this row is probably never closed.",
    "Line 4: a field is longer than 65,536 bytes. Is the separator right?",
    "The workbook is refused unread: it holds more than 5,000 parts. Export the measurements as CSV.",
    "The workbook is damaged at part “xl/styles.xml”: its packed bytes are not readable. Save it again.",
    "Nothing received: the server's disk is full. Ask whoever runs the server to make room, then send the file again.",
    "The same file as intake 4: all 30 measurements were there already, nothing was added.",
    "Undone. 1 measurement taken back. 2 corrected values came back as before. The features were judged anew.",
  ])("%s", (english) => {
    const german = say(english);
    expect(german).not.toBe(english);
    expect(german).not.toMatch(/\b(the|is|was|none|file|values?|measurements?|decimal|Change)\b/);
  });

  test.each([
    [
      "Line 3: “4 mm” holds text after the number. Keep the number alone; a unit belongs in its own column.",
      "Zeile 3: „4 mm“ enthält Text nach der Zahl. Die Zahl muss allein stehen; die Einheit gehört in eine eigene Spalte.",
    ],
    [
      "The file has no column “Ø”. Choose another column for lower_tolerance.",
      "Die Datei hat keine Spalte „Ø“. Wählen Sie eine andere Spalte für „Untere Toleranzgrenze“.",
    ],
    [
      "A 7: this row states lower tolerance limit 24.9, line 2 states none. The measurement is taken, the first statement stands.",
      "A 7: Diese Zeile nennt die untere Toleranzgrenze 24.9, Zeile 2: keine Angabe. Die Messung wird angenommen, die erste Angabe gilt.",
    ],
    ["“{column}” is not a number.", "„{column}“ ist keine Zahl."],
    ["“$& a\nb” is not a number.", "„$& a\nb“ ist keine Zahl."],
  ])("%s", (english, german) => {
    expect(say(english)).toBe(german);
    expect(WORDS.en.storedTexts.say(english)).toBe(english);
  });

  test("what people or other programs wrote stays", () => {
    expect(say("Gauge 7 was dropped.")).toBe("Gauge 7 was dropped.");
    expect(say("")).toBe("");
  });
});

/** The sentences of a source file, 1 in place of whatever is put in. */
function sentencesOf(source: string): string[] {
  const code = source
    .replace(/\/\*.*?\*\//gs, "")
    .replace(/(?<=^|\s)\/\/.*$/gm, "")
    .replace(/["`]\s*\+\s*["`]/g, "");
  const texts = [...code.matchAll(/`((?:[^`\\]|\\.)*)`|"((?:[^"\\\n]|\\.)*)"|'((?:[^'\\\n]|\\.)*)'/g)].map(
    ([, template, double, single]) => template ?? double ?? single ?? "",
  );
  return texts
    .map((text) => text.replaceAll(`$${"{EXPORT}"}`, "Export the measurements as CSV, XLSX or QIF results."))
    .map((text) => text.replace(/\$\{(shown|quoted\((?:[^{}]|\{[^{}]*\})*?\))\}/g, "“1”"))
    .map((text) => text.replace(/\$\{(?:[^{}]|\{[^{}]*\})*\}/g, "1"))
    .filter((text) => /\p{L} .*[.?]$/su.test(text) && !text.includes("/"));
}
