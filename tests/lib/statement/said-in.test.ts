import { describe, expect, test } from "vitest";
import { withMarks, withUsualMarks } from "../../../lib/format/marks";
import { marksAsSigned, saidIn } from "../../../lib/statement/said-in";
import { signedWindowIn } from "../../../lib/statement/signed-window";
import { stateFeature } from "../../../lib/statement/state-feature";
import { WORDS } from "../../../lib/words/words";
import { featureOf } from "../../jobs/statement-feature";
import furnace from "../../reference/furnace-film-thickness.json";

const READINGS = furnace.data.thickness_angstrom;
const TOLERANCE = { lower: 460, upper: 660 };

type Changes = Parameters<typeof stateFeature>[1];

async function signed(given: Partial<Parameters<typeof featureOf>[0]> = {}, changes: Partial<Changes> = {}) {
  const { behind, asked, namesOf } = featureOf({ values: READINGS, tolerance: TOLERANCE, ...given });
  return (await stateFeature(behind, { ...asked, ...changes }, namesOf)).feature;
}

/** No source: what a reader of German must not find in a German sentence. */
const ENGLISH_WORDS = /\b(the|of|and|with|not|no|readings?|gauge|subgroups?|pieces?|lots?|made)\b/i;

describe("what was signed, in German", () => {
  test.each([
    ["as it is", {}, {}],
    ["with a gauge not studied", {}, { gaugeShare: null }],
    ["with a coarse gauge", {}, { gaugeShare: 0.4 }],
    ["with few readings", { values: READINGS.slice(0, 20) }, {}],
    ["with four readings", { values: READINGS.slice(0, 4) }, {}],
    ["with readings all alike", { values: READINGS.map(() => 550) }, {}],
    ["without a tolerance", { tolerance: { lower: null, upper: null } }, {}],
    ["with one limit", { tolerance: { lower: null, upper: 660 } }, {}],
    ["with a wandering process", { values: READINGS.map((value, i) => value + i) }, {}],
    ["by a fitted model", {}, { model: "weibull" }],
    ["by a fitted model that cannot be", { values: [-5, ...READINGS] }, { model: "weibull" }],
    ["by the permissible error", {}, { gaugeBasis: WORDS.en.claims.basis.error("GA-1") }],
    ["by a study", {}, { gaugeBasis: WORDS.en.claims.basis.ofThis(3, "GA-1", "2026-01-02") }],
    [
      "by a study on another feature",
      {},
      { gaugeBasis: WORDS.en.claims.basis.ofAnother(3, "GA-1", "2026-01-02", "Bohrung", "H-210") },
    ],
    ["by a study on none", {}, { gaugeBasis: WORDS.en.claims.basis.ofNone(3, "GA-1", "2026-01-02") }],
  ] as const)("is whole %s", async (_, given, changes) => {
    const feature = await signed(given, changes);
    const said = saidIn(feature, WORDS.de);
    expect(said.isWhole).toBe(true);
    for (const text of [said.claim, said.gaugeBasis ?? "", ...said.gates.map(({ reason }) => reason)])
      expect(text).not.toMatch(ENGLISH_WORDS);
    // The same gates with the same outcome, and the same figures in the claim.
    expect(said.gates.map(({ gate, passed }) => [gate, passed])).toEqual(
      feature.study.gates.map(({ gate, passed }) => [gate, passed]),
    );
    const figures = (text: string) => text.match(/\d+(\.\d+)?/g);
    expect(figures(said.claim)).toEqual(figures(feature.study.claim));
  });

  test("is whole where a figure was beyond its bound and is on it as written", async () => {
    const feature = await signed({ values: READINGS.map((value, i) => value + i) });
    const written = (text: string) =>
      text
        .replace(/autocorrelation 0\.\d\d/, "autocorrelation 0.20")
        .replace(/(over \d+ points, )p below 0\.0001/, "$1p 0.05");
    const study = {
      ...feature.study,
      claim: written(feature.study.claim),
      gates: feature.study.gates.map((gate) => ({ ...gate, reason: written(gate.reason) })),
    };
    expect(study.gates[4]).toMatchObject({
      passed: false,
      reason: expect.stringMatching(/0\.20 over .*p 0\.05:/),
    });
    expect(saidIn({ ...feature, study }, WORDS.de)).toMatchObject({ isWhole: true });
  });

  test("is English to a reader of English, word by word as signed", async () => {
    const feature = await signed();
    expect(saidIn(feature, WORDS.en)).toEqual({
      claim: feature.study.claim,
      gates: feature.study.gates,
      gaugeBasis: null,
      isWhole: true,
    });
  });

  test("stays as it was signed where a sentence is not the one that follows from its figures", async () => {
    const feature = await signed();
    const older = { ...feature, study: { ...feature.study, claim: `${feature.study.claim} As agreed.` } };
    expect(saidIn(older, WORDS.de)).toMatchObject({ claim: older.study.claim, isWhole: false });
    const basis = await signed({}, { gaugeBasis: "By the gauge's own book." });
    expect(saidIn(basis, WORDS.de)).toMatchObject({ gaugeBasis: "By the gauge's own book.", isWhole: false });
  });
});

test("figures of a German sheet have the German marks, whatever stands in between", () => {
  expect(withMarks("12345.6", marksAsSigned("de"))).toBe("12\u202f345,6");
  expect(withMarks("12345.6", marksAsSigned("en"))).toBe("12,345.6");
  expect(withUsualMarks(() => withMarks("1.5"))).toBe("1.5");
});

describe("the name of a signed window", () => {
  const plant = { name: "Werk", zone: "UTC" };
  const span = { from: Date.UTC(2026, 7, 1), to: Date.UTC(2026, 7, 31, 23, 59), lots: null };
  test.each([
    ["last 90 days", "letzte 90 Tage"],
    ["all measurements", "alle Messungen"],
    ["1 Aug 2026 to 31 Aug 2026", "1. Aug. 2026 bis 31. Aug. 2026"],
    // No pattern of ours: as it was signed.
    ["the summer", "the summer"],
  ])("%s is %s", (signed, german) => {
    const content = { window: { words: signed, ...span }, plant };
    expect(signedWindowIn(content, WORDS.de)).toBe(german);
    expect(signedWindowIn(content, WORDS.en)).toBe(signed);
  });
});
