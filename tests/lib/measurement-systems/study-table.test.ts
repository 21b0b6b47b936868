import { describe, expect, test } from "vitest";
import { InvalidInput } from "../../../lib/checks";
import { UnreadableFile } from "../../../lib/intake/unreadable-file";
import { calibrationStanding, calibrationWords } from "../../../lib/measurement-systems/calibration";
import {
  type CrossedFact,
  classesInProcess,
  converted,
  gaugedWidth,
  gaugeShare,
} from "../../../lib/measurement-systems/gauge-share";
import { type StudyData, type StudySettings, studyResult } from "../../../lib/measurement-systems/study-data";
import { MOST_ROWS, readStudyTable, rowsOfText } from "../../../lib/measurement-systems/study-table";
import reference from "../../reference/gauge-studies.json";

const SETTINGS: StudySettings = { toleranceWidth: 1, resolution: null, confidence: 0.95 };

function read(text: string, kind: StudyData["kind"], known: number | null = null) {
  return readStudyTable(rowsOfText(text), { kind, reference: known });
}

function dataOf(text: string, kind: StudyData["kind"], known: number | null = null): StudyData {
  const table = read(text, kind, known);
  if (!table.ok) throw new Error(table.faults.map(({ why }) => why).join(" "));
  return table.data;
}

function faultsOf(text: string, kind: StudyData["kind"] = "crossed") {
  const table = read(text, kind, 10);
  return table.ok ? [] : table.faults;
}

const CROSSED = {
  kind: "crossed",
  readings: [
    { part: "1", operator: "A", value: 1.5 },
    { part: "1", operator: "A", value: 1.6 },
    { part: "2", operator: "A", value: 2.5 },
    { part: "2", operator: "A", value: 2.25 },
  ],
};

describe("tables of a crossed study", () => {
  test.each([
    ["tabs", "part\toperator\tvalue\n1\tA\t1.5\n1\tA\t1.6\n2\tA\t2.5\n2\tA\t2.25\n"],
    [
      "commas, other heads, other order",
      "Reading,Appraiser,Sample\r\n1.5,A,1\r\n1.6,A,1\r\n2.5,A,2\r\n2.25,A,2",
    ],
    [
      "semicolons and decimal commas",
      "part;operator;trial;value\n1;A;1;1,5\n1;A;2;1,6\n\n2;A;1;2,5\n2;A;2;2,25\n",
    ],
    ["spaces", "part operator value\n1 A 1.5\n1   A 1.6\n2 A 2.5\n2 A 2.25"],
  ])("parted by %s", (_, text) => expect(dataOf(text, "crossed")).toEqual(CROSSED));

  test("as on paper: a row for each operator and trial, a column for each part", () => {
    const data = dataOf("operator\ttrial\t1\t2\nA\t1\t1.5\t2.5\nA\t2\t1.6\t2.25", "crossed");
    expect(
      data.kind === "crossed" && [...data.readings].sort((a, b) => a.part.localeCompare(b.part)),
    ).toEqual(CROSSED.readings);
  });

  test("every fault names its line and column", () => {
    const text =
      "part\toperator\ttrial\tvalue\n1\tA\t1\t1.5x\n\n\tA\t1\t2.5\n1\tA\t1\t3\n1\tB\t1\t\n2\tA\t1\t4,5";
    expect(faultsOf(text).map(({ line, column }) => [line, column])).toEqual([
      [2, "value"],
      [4, "part"],
      [6, "value"],
      [7, "value"],
      [5, "trial"],
    ]);
    expect(faultsOf(text)[4]!.why).toContain("was on line 2 already");
  });

  test.each([
    ["", "is empty"],
    ["part\toperator\n1\tA", "no column “value”"],
    ["operator\ttrial\nA\t1", "neither a column “value” nor one for each part"],
    ["1\tA\t2\n1\tB\t3", "has to name the columns"],
    ["part\tpiece\toperator\tvalue\n1\t1\tA\t2", "both name the part"],
    ["part\toperator\tvalue", "no readings below"],
  ])("%j: %s", (text, why) => expect(faultsOf(text)[0]?.why).toContain(why));

  test("a table with more rows than any study has", () => {
    const text = `part,operator,value\n${"1,A,2\n".repeat(MOST_ROWS)}`;
    expect(faultsOf(text)[0]?.why).toContain(`${MOST_ROWS + 1} rows`);
  });

  test("a quote that is never closed is refused with its line", () =>
    expect(() => rowsOfText('part,operator,value\n"1,A,2\n')).toThrow(UnreadableFile));
});

describe("tables of the other studies", () => {
  test("type-1: bare readings, or a column with a head", () => {
    const data = { kind: "type-1", reference: 10, values: [10.01, -9.99] };
    expect(dataOf("10.01\n−9.99", "type-1", 10)).toEqual(data);
    expect(dataOf("trial,value\n1,10.01\n2,-9.99", "type-1", 10)).toEqual(data);
    expect(read("10.01\n9.99", "type-1").ok).toBe(false);
  });

  test("bias and linearity", () =>
    expect(dataOf("reference;value\n2;2,05\n2;2,1\n4;4", "bias-linearity")).toEqual({
      kind: "bias-linearity",
      readings: [
        { reference: 2, value: 2.05 },
        { reference: 2, value: 2.1 },
        { reference: 4, value: 4 },
      ],
    }));

  test("setups, of one part where none is named", () =>
    expect(dataOf("setup,value\nmonday,1\ntuesday,2", "setup")).toEqual({
      kind: "setup",
      readings: [
        { piece: "1", setup: "monday", value: 1 },
        { piece: "1", setup: "tuesday", value: 2 },
      ],
    }));
});

/** A study of the reference file as a person would paste it. */
type Case = { id: string; kind: string; input: Record<string, unknown>; expected: Record<string, unknown> };
const cases = reference.cases as unknown as Case[];

describe(`computed independently, pasted as tables: ${reference.source}`, () => {
  test.each(cases.filter(({ kind }) => kind === "crossed-gauge-study").map((one) => [one.id, one] as const))(
    "%s",
    (id, { input, expected }) => {
      const measurements = input.measurements as number[][][];
      const lines = measurements.flatMap((row, part) =>
        row.flatMap((cell, operator) => cell.map((value) => `${part + 1}\tO${operator + 1}\t${value}`)),
      );
      const data = dataOf(`part\toperator\tvalue\n${lines.join("\n")}`, "crossed");
      const outcome = studyResult(data, { ...SETTINGS, toleranceWidth: input.toleranceWidth as number });
      if (!outcome.ok || outcome.result.kind !== "crossed") throw new Error(id);
      const pools = expected["poolingAt0.25"] === "pool";
      const theirs = expected[pools ? "componentsWithoutInteraction" : "componentsWithInteraction"] as {
        percentTolerance: { gauge: number };
        distinctCategories: number;
      };
      expect(outcome.result.study.pooled).toBe(pools);
      // The file's own tolerance: relative 1e-9.
      expect(outcome.result.study.percentTolerance!.grr / theirs.percentTolerance.gauge).toBeCloseTo(1, 9);
      expect(outcome.result.study.ndc).toBe(theirs.distinctCategories);
    },
  );

  test.each(cases.filter(({ kind }) => kind === "linearity-and-bias").map((one) => [one.id, one] as const))(
    "%s",
    (id, { input, expected }) => {
      const references = input.references as number[];
      const lines = (input.biasReadings as number[][]).flatMap((row, i) =>
        row.map((bias) => `${references[i]},${(references[i]! + bias).toFixed(6)}`),
      );
      const outcome = studyResult(dataOf(`reference,value\n${lines.join("\n")}`, "bias-linearity"), SETTINGS);
      if (!outcome.ok || outcome.result.kind !== "bias-linearity") throw new Error(id);
      // Sizes of 2 to 10 and deviations of 1e-4: what a difference of doubles loses stays below 1e-14.
      expect(outcome.result.linearity!.line.slope.estimate).toBeCloseTo(expected.slope as number, 12);
      expect(outcome.result.pieces.map(({ bias }) => bias!.count)).toEqual([12, 12, 12, 12, 12]);
    },
  );
});

describe("what does not make a study is said in words", () => {
  const row = (part: string, operator: string, value = 1) => ({ part, operator, value });
  test.each([
    [[row("1", "A"), row("1", "B")], "it has 1 part"],
    [[row("1", "A"), row("2", "A")], "1 operator"],
    [
      [row("1", "A"), row("1", "A"), row("1", "B"), row("2", "A"), row("2", "A"), row("2", "B")],
      "part 1 by operator B has 1 reading, others have 2",
    ],
    [[row("1", "A"), row("1", "B"), row("2", "A")], "part 2 by operator B has 0 readings"],
    [[row("1", "A"), row("1", "B"), row("2", "A"), row("2", "B")], "at least 2 trials"],
  ])("crossed %#", (readings, why) =>
    expect(studyResult({ kind: "crossed", readings }, SETTINGS)).toMatchObject({
      ok: false,
      message: expect.stringContaining(why),
    }),
  );

  test.each<[StudyData, Partial<StudySettings>, string]>([
    [
      { kind: "type-1", reference: 1, values: [1, 2] },
      { toleranceWidth: null },
      "judges against a tolerance",
    ],
    [{ kind: "type-1", reference: 1, values: [1, 1, 1] }, {}, "all readings are alike"],
    [{ kind: "type-1", reference: 1, values: [1] }, {}, "at least 2"],
    [{ kind: "bias-linearity", readings: [{ reference: 1, value: 1 }] }, {}, "at least 3"],
    [
      {
        kind: "setup",
        readings: [
          { piece: "1", setup: "a", value: 1 },
          { piece: "1", setup: "b", value: 2 },
        ],
      },
      {},
      "twice in one setup",
    ],
    [
      {
        kind: "setup",
        readings: [
          { piece: "1", setup: "a", value: 1 },
          { piece: "1", setup: "a", value: 2 },
        ],
      },
      {},
      "two setups or more",
    ],
  ])("%j", (data, changes, why) =>
    expect(studyResult(data, { ...SETTINGS, ...changes })).toMatchObject({
      ok: false,
      message: expect.stringContaining(why),
    }),
  );

  test("a result is plain figures: as JSON it is the same", () => {
    const data = dataOf("reference,value\n2,2.1\n2,2.2\n4,4.3\n4,4.1", "bias-linearity");
    const outcome = studyResult(data, SETTINGS);
    expect(JSON.parse(JSON.stringify(outcome))).toEqual(outcome);
  });
});

describe("the share of a tolerance", () => {
  const feature = {
    id: 7,
    unit: "mm" as const,
    nominal: 300,
    length: null,
    plan: { tolerance: { lower: 299.9, upper: 300.1 }, naturalBound: null },
  };
  const study = (changes: Partial<CrossedFact>): CrossedFact => ({
    id: 1,
    featureId: null,
    unit: "mm",
    madeOn: "2026-01-01",
    grr: 0.002,
    ...changes,
  });
  const stated = { A: 1.7, K: 300 };

  test("by hand: 6 × 0.002 of 0.2 is 6 %", () => {
    const share = gaugeShare(feature, { studies: [study({})], stated });
    expect(share?.share).toBeCloseTo(0.06, 12);
    expect(share).toMatchObject({ sigma: 0.002, basis: { kind: "study", id: 1, isOfThisFeature: false } });
  });

  test("the feature's own study comes before a newer one on another, and of its own the newest", () => {
    const studies = [
      study({ id: 1, madeOn: "2026-05-01" }),
      study({ id: 2, featureId: 7, madeOn: "2025-01-01" }),
      study({ id: 3, featureId: 7, madeOn: "2025-02-01" }),
      study({ id: 4, featureId: 8, madeOn: "2026-06-01" }),
    ];
    expect(gaugeShare(feature, { studies, stated })?.basis).toMatchObject({ id: 3, isOfThisFeature: true });
    expect(gaugeShare({ ...feature, id: 9 }, { studies, stated })?.basis).toMatchObject({ id: 4 });
  });

  test("by hand: without a study E = 1.7 + 300/300 = 2.7 µm, and 2E of 0.2 mm is 2.7 %", () => {
    const share = gaugeShare(feature, { studies: [], stated });
    expect(share?.share).toBeCloseTo(0.027, 12);
    expect(share).toMatchObject({ sigma: null, basis: { kind: "permissible-error", length: 300 } });
  });

  test("a study in inches serves a feature in mm by the exact 25.4, one in degrees does not", () => {
    expect(
      gaugeShare(feature, { studies: [study({ unit: "in", grr: 0.0001 })], stated: null })?.sigma,
    ).toBeCloseTo(0.00254, 15);
    expect(gaugeShare(feature, { studies: [study({ unit: "deg" })], stated: null })).toBeNull();
    expect(converted(1, "none", "mm")).toBeNull();
  });

  test("law: the share is the same whichever unit the drawing uses", () => {
    const inches = {
      ...feature,
      unit: "in" as const,
      nominal: 300 / 25.4,
      plan: { tolerance: { lower: 299.9 / 25.4, upper: 300.1 / 25.4 }, naturalBound: null },
    };
    for (const studies of [[study({})], []]) {
      expect(gaugeShare(inches, { studies, stated })!.share).toBeCloseTo(
        gaugeShare(feature, { studies, stated })!.share,
        10,
      );
    }
  });

  test("a natural bound stands in for a limit that is not there; one limit alone gives no width", () => {
    expect(gaugedWidth({ tolerance: { lower: null, upper: 0.2 }, naturalBound: 0 })).toBe(0.2);
    expect(gaugedWidth({ tolerance: { lower: null, upper: 0.2 }, naturalBound: null })).toBeNull();
    const oneSided = { ...feature, plan: { tolerance: { lower: null, upper: 1 }, naturalBound: null } };
    expect(gaugeShare(oneSided, { studies: [study({})], stated })).toBeNull();
  });

  test("an angle has no permissible error in mm, and nothing known gives nothing", () => {
    expect(gaugeShare({ ...feature, unit: "deg" }, { studies: [], stated })).toBeNull();
    expect(gaugeShare(feature, { studies: [], stated: null })).toBeNull();
  });

  test("a standard deviation that is none is refused by name", () =>
    expect(() => gaugeShare(feature, { studies: [study({ grr: -1 })], stated })).toThrow(InvalidInput));

  test("by hand: σ seen 5, gauge 3, so the process has 4 and 1.41 · 4/3 = 1.88 tells 1 class", () => {
    expect(classesInProcess({ seen: 5, gauge: 3 })).toBe(1);
    expect(classesInProcess({ seen: 3, gauge: 5 })).toBe(0);
    expect(classesInProcess({ seen: 3, gauge: 0 })).toBeNull();
  });
});

describe("calibration", () => {
  test.each([
    [null, "no date entered", "not-stated"],
    ["2026-11-16", "due today", "due"],
    ["2026-11-17", "due in 1 day", "due"],
    ["2026-12-16", "due in 30 days", "due"],
    ["2026-12-17", "due in 31 days", "good"],
    ["2026-11-15", "overdue for 1 day", "overdue"],
    ["2025-11-16", "overdue for 365 days", "overdue"],
  ])("due %s: %s", (due, words, state) => {
    const standing = calibrationStanding(due, "2026-11-16");
    expect(calibrationWords(standing)).toBe(words);
    expect(standing.state).toBe(state);
  });

  test("a change of the clock in between counts no day more or less", () =>
    expect(calibrationStanding("2026-11-01", "2026-10-24")).toEqual({ state: "due", days: 8 }));
});
