import { describe, expect, test } from "vitest";
import { judgedChanges, readFeatureForm as readIn } from "../../app/plan/feature-entry";
import type { FeatureRow } from "../../db/queries/features";
import { ENGLISH } from "../../lib/words/words";

const readFeatureForm = (form: FormData) => readIn(form, ENGLISH);

const TYPED: Record<string, string> = {
  name: " Bore A ",
  kind: "size",
  nominal: "52",
  lower: "51,979",
  upper: "52.009",
  target: "",
  naturalBound: "",
  unit: "mm",
  resolution: "0.001",
  subgroupSize: "5",
  chart: "xbar-r",
  countedOn: "",
  alsoWatch: "none",
  length: "",
  expansion: "11.5",
  reason: " Drawing C ",
};

function form(changes: Record<string, string> = {}, rules = ["beyond-3s", "nine-one-side"]): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries({ ...TYPED, ...changes })) data.set(name, value);
  for (const rule of rules) data.append("rules", rule);
  return data;
}

test("a form becomes an entry: numbers read, edges trimmed, the coefficient per kelvin", () => {
  const read = readFeatureForm(form({ keyCharacteristic: "on" }));
  expect(read).toMatchObject({
    ok: true,
    reason: "Drawing C",
    entry: {
      name: "Bore A",
      kind: "size",
      nominal: 52,
      lower: 51.979,
      upper: 52.009,
      target: null,
      naturalBound: null,
      keyCharacteristic: true,
      subgroupSize: 5,
      rules: ["beyond-3s", "nine-one-side"],
      reduced: false,
    },
  });
  expect(read.ok && read.entry.expansion).toBeCloseTo(11.5e-6, 15);
});

describe("every field that will not do says so, and what was typed is kept", () => {
  test.each([
    ["name", "  ", "needs a name"],
    ["upper", "52.0.9", '"52.0.9" is not a number'],
    ["subgroupSize", "2.5", "whole number"],
    ["subgroupSize", "", "Enter how many"],
    ["subgroupSize", "0", "at least 1"],
  ])("%s %j", (name, value, words) => {
    const read = readFeatureForm(form({ [name]: value }));
    expect(read.ok).toBe(false);
    if (read.ok) return;
    expect(Object.keys(read.faults)).toEqual([name]);
    expect(Object.values(read.faults)[0]).toContain(words);
    expect(read.fields).toMatchObject({ [name]: value, upper: name === "upper" ? value : "52.009" });
  });

  test("a kind, a unit or a rule that the form does not offer", () => {
    expect(readFeatureForm(form({ kind: "colour" })).ok).toBe(false);
    expect(readFeatureForm(form({ unit: "furlong" })).ok).toBe(false);
    expect(readFeatureForm(form({}, ["made-up"]))).toMatchObject({
      faults: { rules: "There is no such rule." },
    });
    expect(readFeatureForm(form({}, []))).toMatchObject({
      faults: { rules: expect.stringContaining("at least one") },
    });
  });

  test("a form without any field", () => {
    expect(readFeatureForm(new FormData()).ok).toBe(false);
  });
});

describe("charts beside those of measured values", () => {
  const entryOf = (changes: Record<string, string>) => {
    const read = readFeatureForm(form(changes));
    return read.ok ? read.entry : read.faults;
  };

  test("an EWMA takes what is typed, and the usual figure where a field is empty", () => {
    expect(entryOf({ alsoWatch: "ewma", smoothing: "0,1", width: "" })).toMatchObject({
      alsoWatch: { kind: "ewma", smoothing: 0.1, width: 2.962 },
      counts: null,
    });
  });

  test("a fast initial response begins at h/2", () => {
    expect(entryOf({ alsoWatch: "cusum", decisionInterval: "4", headStart: "on" })).toMatchObject({
      alsoWatch: { kind: "cusum", reference: 0.5, decisionInterval: 4, headStart: 2 },
    });
  });

  test("figures that do not suit are named", () => {
    expect(entryOf({ alsoWatch: "ewma", smoothing: "1.5" })).toEqual({
      alsoWatch: "λ of the weighted average lies from 0.01 to 1.",
    });
  });

  test("a chart of counts stands singly, on so many pieces; without the number it is refused", () => {
    expect(entryOf({ chart: "np", countedOn: "200" })).toMatchObject({
      chart: "i-mr",
      subgroupSize: 1,
      counts: { chart: "np", size: 200 },
    });
    expect(entryOf({ chart: "np" })).toEqual({ countedOn: expect.stringContaining("on how many") });
  });

  test("on a p or u chart samples may differ in size, so that the number may be left to each count", () => {
    expect(entryOf({ chart: "u" })).toMatchObject({ chart: "i-mr", counts: { chart: "u", size: null } });
    expect(entryOf({ chart: "p", countedOn: "200" })).toMatchObject({ counts: { chart: "p", size: 200 } });
  });

  test("the index asked for is stated or left to what is usual", () => {
    expect(entryOf({ indexAsked: "1,67" })).toMatchObject({ indexAsked: 1.67 });
    expect(entryOf({ indexAsked: "" })).toMatchObject({ indexAsked: null });
    for (const indexAsked of ["0", "-1.33", "13.3"])
      expect(entryOf({ indexAsked })).toEqual({
        indexAsked: expect.stringContaining("above 0 and at most 10"),
      });
  });

  test("an uncertainty of the coefficient is typed in millionths and is not below 0", () => {
    const read = readFeatureForm(form({ expansionUncertainty: "0.5" }));
    expect(read.ok && read.entry.expansionUncertainty).toBeCloseTo(0.5e-6, 18);
    expect(entryOf({ temperatureUncertainty: "-1" })).toEqual({
      temperatureUncertainty: "An uncertainty is 0 or more.",
    });
  });
});

describe("a reason is asked for", () => {
  const stored: FeatureRow = {
    id: 1,
    partId: 1,
    part: { number: "H-210", revision: "C", name: "", line: "", material: "" },
    name: "Bore A",
    kind: "size",
    nominal: 52,
    unit: "mm",
    resolution: 0.001,
    keyCharacteristic: false,
    indexAsked: null,
    length: null,
    expansion: null,
    reduced: false,
    temperatureUncertainty: null,
    expansionUncertainty: null,
    plan: {
      chart: "xbar-r",
      subgroupSize: 5,
      rules: ["nine-one-side", "beyond-3s"],
      tolerance: { lower: 51.979, upper: 52.009 },
      target: null,
      naturalBound: null,
      reduction: null,
    },
  };

  const changesOf = (changes: Record<string, string>, rules?: string[]) => {
    const read = readFeatureForm(form(changes, rules));
    return read.ok ? judgedChanges(stored, read.entry) : ["unreadable"];
  };

  test("not for another name or the order of rules", () => {
    expect(changesOf({ name: "Bore B" })).toEqual([]);
  });

  test("for whatever changes how measurements are judged", () => {
    expect(changesOf({ upper: "52.01" })).toEqual(["tolerance"]);
    expect(changesOf({ lower: "" })).toEqual(["tolerance"]);
    expect(changesOf({ chart: "xbar-s", subgroupSize: "10" })).toEqual(["chart", "subgroup size"]);
    expect(changesOf({}, ["beyond-3s"])).toEqual(["run rules"]);
    expect(changesOf({ length: "52", reduced: "on" })).toEqual(["reduction to 20 °C"]);
  });
});
