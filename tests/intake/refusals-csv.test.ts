import Papa from "papaparse";
import { expect, test } from "vitest";
import { refusalsCsv } from "../../app/intake/refusals-csv";

const row = (raw: string) => ({ line: 7, field: "value", reason: "“x” is no number.", raw });

/** Read by an independent program: papaparse. */
const read = (text: string) => Papa.parse<string[]>(text.replace(/^\ufeff/, ""), { skipEmptyLines: true });

test("an independent reader finds every cell, with quotes, commas and line ends in it", () => {
  const raw = 'a,"b ""c"""\r\nnext';
  const { data, errors } = read(refusalsCsv([row(raw)]));
  expect(errors).toEqual([]);
  expect(data).toEqual([
    ["line", "field", "reason", "row as it stood"],
    ["7", "value", "“x” is no number.", raw],
  ]);
});

test.each(["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1"])(
  "a spreadsheet must not run a cell that begins like %j (OWASP, CSV Injection; from memory)",
  (raw) => {
    expect(read(refusalsCsv([row(raw)])).data[1]?.[3]).toBe(`'${raw}`);
  },
);

test("without refusals there is a header alone", () => {
  expect(read(refusalsCsv([])).data).toHaveLength(1);
});
