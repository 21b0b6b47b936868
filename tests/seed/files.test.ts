import { readFileSync } from "node:fs";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { demoFiles } from "../../seed/demo/files";
import { demoRows, isWeekend } from "../../seed/demo/measure";
import { SPOILED_ROWS, weekendFiles } from "../../seed/demo/weekend-files";

const rows = [...demoRows()];
const read = (text: string, delimiter: string) =>
  Papa.parse<Record<string, string>>(text, { header: true, delimiter, skipEmptyLines: true });

describe("files of the first load", () => {
  const files = demoFiles();

  test("one for each line and week, in order of arrival", () => {
    expect(files).toHaveLength(26);
    expect(new Set(files.map(({ name }) => name)).size).toBe(26);
    expect(files[0]!.name).toBe("line-a-2026-w34.csv");
    expect(files.at(-1)!.name).toBe("line-b-2026-w46.csv");
  });

  test("an independent reader finds every row but the weekend's, and the values as generated", () => {
    const parsed = files.map(({ text }) => read(text, ","));
    expect(parsed.flatMap(({ errors }) => errors)).toEqual([]);
    const found = parsed.flatMap(({ data }) => data);
    const loaded = rows.filter((row) => !isWeekend(row));
    expect(found).toHaveLength(loaded.length);

    const key = (piece: string, part: string, feature: string) => `${part}/${piece}/${feature}`;
    const expected = new Map(loaded.map((row) => [key(row.piece, row.part, row.feature), row]));
    expect(expected.size).toBe(loaded.length);
    for (const line of found) {
      const row = expected.get(key(line.piece!, line.part!, line.feature!));
      if (row?.value !== Number(line.value) || row.takenAt !== Date.parse(line.taken_at!)) {
        expect.fail(JSON.stringify(line));
      }
    }
  });
});

describe("the weekend's files", () => {
  const [tidy, long, wide] = weekendFiles();

  test.each(weekendFiles().map((file) => [file.name, file.text] as const))(
    "seed/files/%s is what the generator writes",
    (name, text) => {
      expect(readFileSync(new URL(`../../seed/files/${name}`, import.meta.url), "utf8")).toBe(text);
      expect(text.length).toBeLessThan(100_000);
      expect(text).not.toMatch(/NaN|undefined|Infinity/);
    },
  );

  test("together they hold the weekend, but for what GA-3 read on Saturday, and three bad rows", () => {
    const weekend = rows.filter(isWeekend);
    const saturday = weekend.filter(({ shift }) => shift >= 15);
    const [tidyRows, longRows, wideRows] = [
      read(tidy!.text, ","),
      read(long!.text, ","),
      read(wide!.text, ";"),
    ];
    expect([tidyRows, longRows, wideRows].flatMap(({ errors }) => errors)).toEqual([]);

    expect(tidyRows.data.length + longRows.data.length - SPOILED_ROWS.length).toBe(
      weekend.length - saturday.length,
    );
    expect(wideRows.data).toHaveLength(new Set(saturday.map(({ piece }) => piece)).size);
    const depth = saturday.filter(({ feature }) => feature === "Input bore depth").map(({ value }) => value);
    expect(wideRows.data.map((line) => Number(line["Input bore depth"]!.replace(",", ".")))).toEqual(depth);
    expect(wide!.text).not.toContain(".");
  });

  test("the three bad rows have a letter in the value, a day that November lacks, and a unit of another shop", () => {
    const lines = read(long!.text, ",").data;
    const bad = lines.slice(-3);
    expect(bad.map((line) => Number.isNaN(Number(line.Reading)))).toEqual([true, false, false]);
    expect(bad.map((line) => line.Clock!.startsWith("2026-11-31"))).toEqual([false, true, false]);
    expect(bad.map((line) => line["Read in"])).toEqual(["mm", "mm", "cm"]);
    const good = lines.slice(0, -3);
    expect(good.every((line) => Number.isFinite(Number(line.Reading)))).toBe(true);
    expect(good.every((line) => ["mm", "deg"].includes(line["Read in"]!))).toBe(true);
  });
});
