import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { interpretCsv } from "../../../lib/intake/interpret";
import { LARGEST_MEASUREMENT } from "../../../lib/intake/numbers";
import { UnreadableFile } from "../../../lib/intake/unreadable-file";
import { utc, zoneTable } from "../../../lib/intake/zone";
import { runs } from "../../laws";
import { TIDY_HEADER, take, takeCells, tidyMapping, tidyRow } from "./tidy-file";

describe("spreadsheet cells", () => {
  const head = ["piece", "taken_at", "feature", "value", "unit"];

  test("pass the same checks as CSV fields", () => {
    const when = new Date(Date.UTC(2024, 0, 31, 14, 5));
    const { rows, refusals } = takeCells([
      head,
      ["S1", when, "a", 1.5, "mm"],
      [7, when, "a", { formula: "B2*2", result: 3 }, "mm"],
      ["S3", when, "a", { formula: "B2*2", result: null }, "mm"],
      ["S4", when, "a", { error: "#N/A" }],
      ["S5", when, "a", { formula: "1/0", result: { error: "#DIV/0!" } }],
      ["S6", when, "a", true],
      ["S7", 45_322.5, "a", 1],
      ["S8", when, "a", "1,5"],
      ["S9", new Date(Number.NaN), "a", 1],
      [],
      ["S10", when, "a", 2],
    ]);
    expect(rows.map(({ piece, value, line }) => [piece, value, line])).toEqual([
      ["S1", 1.5, 2],
      ["7", 3, 3],
      ["S10", 2, 12],
    ]);
    expect(rows[0]?.takenAt).toBe(when.getTime());
    expect(refusals.map(({ line, field }) => [line, field])).toEqual([
      [4, "value"],
      [5, "value"],
      [6, "value"],
      [7, "value"],
      [8, "taken_at"],
      [9, "value"],
      [10, "taken_at"],
    ]);
    expect(refusals[0]?.reason).toContain("formula without a stored result");
    expect(refusals[4]?.reason).toContain("serial date");
    expect(refusals[0]?.raw).toContain("S3\t2024-01-31T14:05:00.000\ta\t=B2*2");
  });

  test("a wall time in a date cell is one of the plant", () => {
    const { rows } = takeCells(
      [head, ["S1", new Date(Date.UTC(2024, 6, 31, 14, 5)), "a", 1]],
      {},
      { zone: zoneTable("Europe/Berlin") },
    );
    expect(rows[0]?.takenAt).toBe(Date.UTC(2024, 6, 31, 12, 5));
  });

  test("numbers keep every bit whatever decimal mark the texts use", () => {
    fc.assert(
      fc.property(
        fc.double({ noNaN: true, min: -LARGEST_MEASUREMENT, max: LARGEST_MEASUREMENT }),
        fc.constantFrom<"." | ",">(".", ","),
        (number, decimal) => {
          const { rows } = takeCells([head, ["S", "2024-01-31", "a", number]], {
            decimal,
            separator: ";",
            columns: tidyMapping(head.join(",")).columns,
            piece: ["piece"],
          });
          expect(rows[0]?.value).toBe(number + 0);
        },
      ),
      { numRuns: runs(500) },
    );
  });
});

describe("batches", () => {
  const file = [
    TIDY_HEADER,
    ...Array.from({ length: 60 }, (_, i) =>
      tidyRow({
        piece: `S${Math.floor(i / 3)}`,
        feature: `"F ""${i % 3}"""`,
        value: i % 17 === 5 ? "bad" : `${i}.5`,
        lot: `Lös${Math.floor(i / 10)}`,
        unit: i % 7 === 0 ? "in" : "mm",
      }),
    ),
  ];
  const bytes = new TextEncoder().encode(file.join("\r\n"));
  const mapping = tidyMapping(TIDY_HEADER);

  test("how the file is cut and how long a batch is change nothing", () => {
    const whole = take(bytes, mapping);
    expect(whole.rows).toHaveLength(56);
    fc.assert(
      fc.property(
        fc.array(fc.nat(bytes.length), { maxLength: 30 }),
        fc.integer({ min: 1, max: 80 }),
        (cuts, batchRows) => {
          const { rows, refusals, notices, names, batches } = take(bytes, mapping, { cuts, batchRows });
          expect(rows).toEqual(whole.rows);
          expect(refusals).toEqual(whole.refusals);
          expect(notices).toEqual(whole.notices);
          expect(names).toEqual(whole.names);
          expect(batches.every(({ count, value }) => count === value.length && count <= batchRows)).toBe(
            true,
          );
        },
      ),
      { numRuns: runs(60) },
    );
  });

  test("a batch owns its arrays and its pieces", () => {
    const { batches } = take(bytes, mapping, { batchRows: 10 });
    const [first, second] = batches;
    expect(first?.pieces).not.toBe(second?.pieces);
    expect(first?.pieces[0]).toBe("");
    expect(first?.value.buffer).not.toBe(second?.value.buffer);
  });

  test("a file that names something new in every row is stopped: the mapping is wrong", () => {
    const lines = ["feature,value,lot", ...Array.from({ length: 30 }, (_, i) => `f${i},1,l${i}`)];
    expect(() => take(lines, {}, { limits: { features: 20, names: 100 } })).toThrow(/more than 20 features/);
    expect(() => take(lines, {}, { limits: { features: 100, names: 20 } })).toThrow(
      /lot column holds more than 20/,
    );
  });

  test("a file that states new limits in every row is read in bounded memory", () => {
    let accepted = 0;
    const sink = { batch: () => undefined, refusal: () => undefined, notice: () => undefined };
    const stream = interpretCsv(tidyMapping("feature,value,nominal"), { zone: utc }, sink);
    stream.push(new TextEncoder().encode("feature,value,nominal\n"));
    for (let i = 0; i < 150_000; i++) stream.push(new TextEncoder().encode(`a,1,${i}\n`));
    stream.end();
    ({ accepted } = stream.counts);
    expect(accepted).toBe(150_000);
    expect(stream.counts.notices).toBe(1);
  });
});

test("whatever the bytes, a file is read, its rows refused, or the file turned away in words", () => {
  const piece = fc.constantFrom(
    "feature",
    "value",
    "unit",
    ",",
    "\n",
    '"',
    "1",
    ".",
    "5",
    "mm",
    "\r",
    "=",
    "\u00e9",
    " ",
    "e9",
    "-",
  );
  const text = fc
    .array(piece, { maxLength: 80 })
    .map((pieces) => new TextEncoder().encode(`feature,value,unit\n${pieces.join("")}`));
  fc.assert(
    fc.property(fc.oneof(text, fc.uint8Array({ maxLength: 200 })), (bytes) => {
      try {
        const { counts, rows, refusals } = take(bytes, tidyMapping("feature,value,unit"));
        expect(counts.accepted + counts.refused).toBe(counts.rows);
        expect([rows.length, refusals.length]).toEqual([counts.accepted, counts.refused]);
        expect(rows.every(({ value }) => Number.isFinite(value))).toBe(true);
      } catch (problem) {
        if (!(problem instanceof UnreadableFile)) throw problem;
        expect(problem.message).toMatch(/[.]$/);
      }
    }),
    { numRuns: runs(3_000) },
  );
});
