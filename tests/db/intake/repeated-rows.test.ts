import fc from "fast-check";
import { expect, test } from "vitest";
import { type ReadRows, readRows } from "../../../db/intake/import-rows";
import { RepeatedRows, type TidyRow } from "../../../lib/intake/repeated-rows";
import { utc, zoneTable } from "../../../lib/intake/zone";
import { runs } from "../../laws";

/*
 * Requests that come again and again are read from what was made of them before. The reader of rows as text says what is
 * right: with the memory and without it the same must come out, to the last bit and word.
 */

type Shared = NonNullable<TidyRow["shared"]>;
type Own = TidyRow["cells"];

/** All there is to say of what was read. */
function told({ staging, names, remarks, accepted }: ReadRows) {
  const runsOfPieces = Array.from({ length: staging.runs }, (_, run) => staging.piecesOf(run));
  const numbers = runsOfPieces.map((pieces) => Uint32Array.from(pieces, (_, i) => i + 1));
  return {
    accepted,
    names,
    pieces: runsOfPieces,
    features: staging.features.map((feature) => staging.load(feature, numbers)),
    oneOfEach: staging.oneOfEach,
    span: [staging.firstTakenAt, staging.lastTakenAt, staging.lastLine],
    refusals: remarks.refusals,
    notices: remarks.notices,
  };
}

const rowsOf = (shared: Shared, measurements: readonly Own[]): TidyRow[] =>
  measurements.map((cells, i) => ({ line: i + 1, cells, shared }));

const PIECE: Shared = {
  piece: "S-1",
  taken_at: "2026-03-02T06:10:00Z",
  part: "P-1",
  lot: "L-1",
  fixture: "FX-1",
};
const MEASUREMENTS: Own[] = [
  { feature: "Bore", value: 25.003, unit: "mm", tool: "T-1" },
  { feature: "Depth", value: 40.012, unit: "in", tool: "T-2" },
  { feature: "Angle", value: 12, unit: "deg" },
  { feature: "Burr", value: 3 },
];

/** What a request may have that the usual one does not: mostly little, at times something that no reader takes. */
const text = fc.oneof(
  { weight: 9, arbitrary: fc.constantFrom("L-1", "L-2", "A B", null) },
  fc.constantFrom("Schicht ä", " L-3 ", "A  B", "", "x".repeat(201), "tab\there"),
);
const time = fc.oneof(
  { weight: 9, arbitrary: fc.integer({ min: 0, max: 4e12 }).map((at) => new Date(at).toISOString()) },
  fc.constantFrom(
    "2026-03-02 06:10",
    "20260302T0610",
    "2026-03-02T06:10:00+02:00",
    " 2026-03-02",
    "2.3.2026",
    "soon",
    null,
  ),
);
const value = fc.oneof(
  { weight: 40, arbitrary: fc.double({ min: -1e3, max: 1e3, noNaN: true }) },
  fc.constantFrom(-0, 0, 5e-324, 1e21, 1.5e-9, 1e50, 1.1e50, 1e308, null),
);
const temperature = fc.oneof(fc.double({ min: -55, max: 155, noNaN: true }), fc.constantFrom(-0, null));
const shared: fc.Arbitrary<Partial<Shared>> = fc.record(
  {
    piece: fc.oneof(
      fc.integer({ min: 1, max: 9 }).map((n) => `S-${n}`),
      text,
    ),
    taken_at: time,
    part: fc.constantFrom("P-1", "P-1", "P-2"),
    lot: text,
    fixture: text,
    operator: text,
    subgroup: text,
    part_temp_c: temperature,
    inspected: fc.constantFrom(null, null, null, 50, 0),
  },
  { requiredKeys: ["taken_at"] },
);
const own: fc.Arbitrary<Own> = fc.record(
  {
    feature: fc.constantFrom("Bore", "Burr", "bore", "Flatness"),
    value,
    unit: fc.constantFrom("mm", "in", "MM", "µm", "stone", null),
    tool: text,
    taken_at: time,
    part_temp_c: temperature,
    upper_tolerance: fc.constantFrom(30, 10, null),
  },
  { requiredKeys: [] },
);
/** What differs from the usual request: of the piece, and of one of its measurements. */
const request = fc.record({
  shared,
  values: fc.array(value, { minLength: 4, maxLength: 4 }),
  at: fc.nat({ max: 11 }),
  own,
});

test("law: what comes again is read as the reader of rows reads it", () => {
  let fromMemory = 0;
  let asked = 0;
  fc.assert(
    fc.property(fc.array(request, { minLength: 2, maxLength: 12 }), (requests) => {
      const repeated = new RepeatedRows();
      for (const { shared: changes, values, at, own: change } of requests) {
        // Two of three requests change no measurement but by its value.
        const measurements = MEASUREMENTS.map((each, i) => ({
          ...each,
          value: values[i],
          ...(i === at ? change : {}),
        }));
        const rows = rowsOf({ ...PIECE, ...changes }, measurements);
        const expected = told(readRows(rows, { zone: utc, refusals: [] }));
        asked++;
        if (repeated.read(rows, utc)) fromMemory++;
        expect(told(readRows(rows, { zone: utc, refusals: [], repeated }))).toEqual(expected);
      }
    }),
    { numRuns: runs(50) },
  );
  // Else the law would say nothing.
  expect(fromMemory).toBeGreaterThan(asked / 20);
});

test("a request like the one before is read from memory, in its own values, names, time and temperature", () => {
  const repeated = new RepeatedRows();
  readRows(rowsOf(PIECE, MEASUREMENTS), { zone: utc, refusals: [], repeated });
  const next = {
    ...PIECE,
    piece: "S-2",
    taken_at: "2026-03-02T06:11:00Z",
    lot: "L-2",
    operator: "OP-1",
    part_temp_c: 21.5,
  };
  const again = repeated.read(
    rowsOf(
      next,
      MEASUREMENTS.map((each, i) => ({ ...each, value: i })),
    ),
    utc,
  );
  expect(again?.batch.value).toEqual(Float64Array.of(0, 1, 2, 3));
  expect(again?.batch.takenAt).toEqual(new Float64Array(4).fill(Date.UTC(2026, 2, 2, 6, 11)));
  expect(again?.batch.partTemp).toEqual(new Float64Array(4).fill(21.5));
  expect(again?.batch.pieces).toEqual(["", "S-2"]);
  expect(again?.names).toMatchObject({ lot: ["", "L-2"], operator: ["", "OP-1"], tool: ["", "T-1", "T-2"] });
});

test("another feature, tool, unit, row or zone is for the reader", () => {
  const repeated = new RepeatedRows();
  readRows(rowsOf(PIECE, MEASUREMENTS), { zone: utc, refusals: [], repeated });
  const [first = {}, ...others] = MEASUREMENTS;
  for (const measurements of [
    [...others, first],
    [{ ...first, tool: "T-9" }, ...others],
    [{ ...first, unit: "µm" }, ...others],
    [{ ...first, gauge: "G-1" }, ...others],
    others,
  ])
    expect(repeated.read(rowsOf(PIECE, measurements), utc)).toBeNull();
  expect(repeated.read(rowsOf(PIECE, MEASUREMENTS), zoneTable("Europe/Berlin"))).toBeNull();
  expect(repeated.read(rowsOf(PIECE, MEASUREMENTS), utc)).not.toBeNull();
});
