import { expect, test } from "vitest";
import { MOST_MEASUREMENTS, readBody } from "../../app/api/v1/measurements/body";
import { cellOf } from "../../lib/intake/repeated-rows";

const PIECE = { piece: "0001", taken_at: "2026-03-02T06:10:00Z", part: "P-100", lot: "L-1", tool: "T-1" };

function posted(body: unknown) {
  const read = readBody(body);
  if (!read.ok) throw new Error(`${read.path}: ${read.reason}`);
  return read.posted;
}

test("what stands beside the measurements holds for all of them, and a measurement's own word wins", () => {
  const { rows, refusals, paths } = posted({
    ...PIECE,
    measurements: [
      { feature: "bore", value: 25.003 },
      { feature: "depth", value: 40.012, tool: "T-2", lot: null },
    ],
  });
  const columns = ["piece", "taken_at", "part", "lot", "tool", "feature", "value"] as const;
  expect(rows.map(({ line }) => line)).toEqual([1, 2]);
  expect(rows.map((row) => columns.map((column) => cellOf(row, column)))).toEqual([
    ["0001", "2026-03-02T06:10:00Z", "P-100", "L-1", "T-1", "bore", 25.003],
    ["0001", "2026-03-02T06:10:00Z", "P-100", "L-1", "T-2", "depth", 40.012],
  ]);
  expect(refusals).toEqual([]);
  expect(paths).toEqual(["measurements[0]", "measurements[1]"]);
});

test("what was inspected holds for all counts of a sample, and is a number", () => {
  const { rows, refusals } = posted({
    ...PIECE,
    inspected: 180,
    measurements: [
      { feature: "scratched", value: 4 },
      { feature: "dents", value: 9, inspected: 60 },
      { feature: "dents", value: 9, inspected: "60" },
    ],
  });
  expect(rows.map((row) => cellOf(row, "inspected"))).toEqual([180, 60]);
  expect(refusals).toMatchObject([{ field: "inspected", reason: "“inspected” must be a number." }]);
});

test("rows are counted over all pieces, and each knows its place", () => {
  const one = { ...PIECE, measurements: [{ feature: "bore", value: 1 }] };
  const { rows, paths } = posted({ pieces: [one, { ...one, piece: "0002" }] });
  expect(rows.map(({ line }) => line)).toEqual([1, 2]);
  expect(paths).toEqual(["pieces[0].measurements[0]", "pieces[1].measurements[0]"]);
});

test("a bad measurement or piece is refused with its field, its place and itself, and the others are taken", () => {
  const good = { feature: "bore", value: 25.003 };
  const { rows, refusals, paths } = posted({
    pieces: [
      {
        ...PIECE,
        measurements: [good, { feature: "bore", value: "25,003" }, { feature: "bore", valeu: 1 }, 7],
      },
      { ...PIECE, lot: 12, measurements: [good] },
      { ...PIECE, measurements: [] },
      { ...PIECE, measurements: [good] },
    ],
  });
  expect(rows.map(({ line }) => paths[line - 1])).toEqual([
    "pieces[0].measurements[0]",
    "pieces[3].measurements[0]",
  ]);
  expect(refusals.map(({ line, field, reason }) => [paths[line - 1], field, reason])).toEqual([
    ["pieces[0].measurements[1]", "value", "“value” must be a number."],
    [
      "pieces[0].measurements[2]",
      "valeu",
      expect.stringMatching(/^“valeu” is no field here\. Known are .*value/),
    ],
    ["pieces[0].measurements[3]", "row", "It must be an object in braces."],
    ["pieces[1]", "lot", "“lot” must be a text in quotes."],
    ["pieces[2]", "measurements", "The piece has no measurement."],
  ]);
  expect(refusals[0]?.raw).toBe('{"feature":"bore","value":"25,003"}');
});

test.each([
  [[], "", "one piece as a JSON object"],
  [null, "", "one piece as a JSON object"],
  ["text", "", "one piece as a JSON object"],
  [{}, "", "neither “measurements”"],
  [{ pieces: {} }, "pieces", "“pieces”"],
  [{ pieces: [] }, "pieces", "holds no piece"],
  [{ pieces: [1], plant: 2 }, "plant", "“plant” is no field here. Known are pieces."],
])("a body that is none as a whole: %o", (body, path, reason) => {
  expect(readBody(body)).toMatchObject({ ok: false, path, reason: expect.stringContaining(reason) });
});

test("the bound on one request is named, and nothing beyond it is looked at", () => {
  const measurements = Array.from({ length: MOST_MEASUREMENTS + 1 }, () => ({ feature: "bore", value: 1 }));
  expect(readBody({ ...PIECE, measurements })).toEqual({
    ok: false,
    path: `measurements[${MOST_MEASUREMENTS}]`,
    reason: expect.stringContaining("at most 5000 measurements"),
  });
});

test("pieces that cannot be read count towards the bound, so that a request of nothing else is soon over", () => {
  expect(readBody({ pieces: Array.from({ length: 1_000_000 }, () => 0) })).toEqual({
    ok: false,
    path: `pieces[${MOST_MEASUREMENTS}]`,
    reason: expect.stringContaining("at most 5000 measurements"),
  });
  expect(posted({ pieces: Array.from({ length: MOST_MEASUREMENTS }, () => 0) }).refusals).toHaveLength(5000);
});

test("a million brackets and a name of the language itself do no harm", () => {
  const deep = JSON.parse(`{"measurements": [${"[".repeat(100_000)}${"]".repeat(100_000)}]}`);
  expect(posted(deep).refusals).toHaveLength(1);
  const proto = JSON.parse(
    '{"measurements": [{"feature": "bore", "value": 1, "__proto__": {"unit": "mm"}}]}',
  );
  const { rows, refusals } = posted(proto);
  expect(rows).toEqual([]);
  expect(refusals[0]?.field).toBe("__proto__");
});
