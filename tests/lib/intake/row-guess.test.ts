import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { RowGuess } from "../../../lib/intake/row-guess";
import { runs } from "../../laws";
import { type Taken, TIDY_HEADER, take } from "./tidy-file";

const COLUMNS = TIDY_HEADER.split(",");

/** Everything that a file came to, but for how its refused rows were written. */
function cameTo({ rows, refusals, notices, names, counts, batches }: Taken) {
  const sizes = batches.map(({ count }) => count);
  return { rows, refusals: refusals.map(({ raw: _, ...rest }) => rest), notices, names, counts, sizes };
}

/** The same file with the first field of every row quoted, which takes each the usual way. */
function quoted([header = "", ...rows]: readonly string[]): string[] {
  // One that is empty is no row, and one that begins with a quote has it already.
  return [header, ...rows.map((row) => row.replace(/^[^,\r"][^,\r]*|^(?=,)/, (first) => `"${first}"`))];
}

/** How often rows were taken by a guess while `work` ran. */
function guessesDuring(work: () => void): number {
  const taken = vi.spyOn(RowGuess.prototype, "take");
  try {
    work();
    return taken.mock.calls.length;
  } finally {
    taken.mockRestore();
  }
}

/** Pieces of a few features each, as a plant writes them. */
function plainFile(pieces: number, features: number): string[] {
  const rows: string[] = [];
  for (let p = 1; p <= pieces; p++)
    for (let f = 1; f <= features; f++) {
      const at = `2024-01-01T06:${String(p).padStart(2, "0")}:00Z`;
      rows.push(
        `S${p},${at},P-1,F${f},${f},${f - 1},${f + 1},mm,${f}.0${p},L1,FX-1,T-1,M,G,O,20.${Math.floor(p / 4)}`,
      );
    }
  return [TIDY_HEADER, ...rows];
}

/** Some pieces state it, some do not, and of one it is none that can be. */
function inspectedOf(piece: string): string {
  const number = Number(piece.slice(1));
  return number % 3 === 0 ? "" : number === 5 ? "0" : `${10 * number}`;
}

describe("a row that is expected", () => {
  test("comes to what it would come to the usual way: by hand, 48 of 9 pieces of 7 features", () => {
    const lines = plainFile(9, 7);
    let found: Taken | null = null;
    const guesses = guessesDuring(() => {
      found = take(lines);
    });
    // Everything of the first piece is new, of the other eight the first row; and where the last row of a file ends,
    // nothing behind it shows.
    expect(guesses).toBe(8 * 6 - 1);
    expect(guessesDuring(() => take(quoted(lines)))).toBe(0);
    expect(cameTo(found as unknown as Taken)).toEqual(cameTo(take(quoted(lines))));
  });

  test("whose value is none is refused in the same words", () => {
    const lines = plainFile(3, 4);
    lines[10] = (lines[10] ?? "").replace(/mm,[^,]*/, "mm,2.0O2");
    const { refusals } = take(lines);
    expect(refusals).toMatchObject([{ line: 11, field: "value", raw: lines[10] }]);
    expect(refusals).toMatchObject(take(quoted(lines)).refusals.map(({ raw: _, ...rest }) => rest));
  });

  test("is not looked for where every row is a piece of its own", () => {
    const rows = Array.from(
      { length: 3000 },
      (_, i) => `S${i},2024-01-01T06:00:00Z,P-1,F1,,,,mm,${i},,,,,,,`,
    );
    const tried = vi.spyOn(RowGuess.prototype, "try");
    take([TIDY_HEADER, ...rows]);
    expect(tried.mock.calls.length).toBeLessThan(1100);
    tried.mockRestore();
  });
});

const BLEMISHES = [
  (line: string) => line,
  (line: string) => line.replace(/mm,/, " mm ,"),
  (line: string) => line.replace(/mm,[^,]*/, "mm,"),
  (line: string) => line.replace(/mm,[^,]*/, "mm, 1.5"),
  (line: string) => line.replace(/mm,[^,]*/, "mm,1e3"),
  (line: string) => line.replace(/mm,[^,]*/, "in,1.25"),
  (line: string) => line.replace(/mm,[^,]*/, 'mm,"1.5"'),
  (line: string) => line.replace("P-1", '"P-1"'),
  (line: string) => line.replace("FX-", "Fü-"),
  (line: string) => line.replace("2024-", "20x4-"),
  (line: string) => line.replace(/,[^,]*$/, ",999"),
  (line: string) => `${line},,`,
  (line: string) => `${line},more`,
  (line: string) => line.slice(0, line.lastIndexOf(",")),
  (line: string) => `${line}\r`,
  () => "",
  () => " , ,,",
];

test("law: whatever rows hold and however columns stand, guessing changes nothing", () => {
  let guesses = 0;
  fc.assert(
    fc.property(
      fc.record({
        pieces: fc.integer({ min: 1, max: 6 }),
        features: fc.integer({ min: 1, max: 5 }),
        blemishes: fc.array(fc.record({ at: fc.nat(40), how: fc.nat(BLEMISHES.length - 1) }), {
          maxLength: 6,
        }),
        order: fc.oneof(
          fc.constant([...COLUMNS]),
          fc.shuffledSubarray(COLUMNS, { minLength: COLUMNS.length }),
          fc.constant(["remark", ...COLUMNS.slice(0, 8), "line", ...COLUMNS.slice(8)]),
          fc.constantFrom(
            [...COLUMNS, "inspected"],
            [...COLUMNS.slice(0, 8), "inspected", ...COLUMNS.slice(8)],
          ),
        ),
        batchRows: fc.integer({ min: 1, max: 20 }),
        cuts: fc.array(fc.nat(2000), { maxLength: 4 }),
      }),
      ({ pieces, features, blemishes, order: columns, batchRows, cuts }) => {
        const order: readonly string[] = columns;
        const lines = plainFile(pieces, features).map((line) => {
          const texts = line.split(",");
          const isHeader = line === TIDY_HEADER;
          return order
            .map((column) =>
              column === "inspected" && !isHeader
                ? inspectedOf(texts[0] ?? "")
                : (texts[COLUMNS.indexOf(column)] ?? column),
            )
            .join(",");
        });
        for (const { at, how } of blemishes) {
          const place = 1 + (at % (lines.length - 1));
          lines[place] = BLEMISHES[how]?.(lines[place] ?? "") ?? "";
        }
        const options = { batchRows, cuts };
        guesses += guessesDuring(() => {
          expect(cameTo(take(lines, {}, options))).toEqual(cameTo(take(quoted(lines), {}, { batchRows })));
        });
      },
    ),
    { numRuns: runs(400) },
  );
  expect(guesses).toBeGreaterThan(500);
});

test("a row that is expected is checked and refused the same where not all of its columns are wanted, which are left out", () => {
  const lines = plainFile(9, 7);
  for (const [line, from, to] of [
    [20, /20\.\d$/, "900"],
    [33, /,L1,/, ",L2,"],
    [41, /,L1,/, `,${"L".repeat(300)},`],
    [52, /mm,[^,]*/, "mm,2.0O2"],
  ] as const)
    lines[line] = (lines[line] ?? "").replace(from, to);
  const [all, some] = [take(lines), take(lines, {}, { wanted: ["lot"] })];
  expect(some.refusals).toEqual(all.refusals);
  expect(some.refusals).toHaveLength(3);
  expect(some.counts).toEqual(all.counts);
  const seen = ({ rows }: Taken) =>
    rows.map(({ line, feature, value, takenAt, lot }) => ({ line, feature, value, takenAt, lot }));
  expect(seen(some)).toEqual(seen(all));
});
