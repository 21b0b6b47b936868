import { parse } from "papaparse";
import { expect, test } from "vitest";
import { readingsCsv } from "../../../app/gauges/readings-csv";
import { refusalsCsv } from "../../../app/intake/refusals-csv";
import { csvText } from "../../../lib/format/csv";

/* What a spreadsheet takes for a formula: OWASP, "CSV Injection", from memory. Read back by papaparse. */
const FORMULAS = ["=1+1", "+cmd|' /C calc'!A0", "-2+3", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("x")'];

function cells(text: string): string[] {
  return (parse(text.replace(/^\ufeff/, "")).data as string[][]).flat();
}

test.each(FORMULAS)("%j is a text in every table that is handed out", (formula) => {
  const crossed = {
    kind: "crossed",
    readings: [{ part: formula, operator: formula, value: -1.5 }],
  } as unknown as Parameters<typeof readingsCsv>[0];
  const tables = [
    csvText([[formula, -1.5]]),
    refusalsCsv([{ line: 1, field: "value", reason: formula, raw: formula }]),
    readingsCsv(crossed),
  ];
  for (const table of tables) {
    expect(cells(table)).toContain(`'${formula}`);
    expect(cells(table).filter((cell) => /^[=+@\t\r]/.test(cell))).toEqual([]);
  }
});

test("a negative number stays a number", () => {
  expect(csvText([[-1.5, null]])).toBe("\ufeff-1.5,\r\n");
});
