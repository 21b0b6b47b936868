import { describe, expect, test } from "vitest";
import { sentenceOf } from "../../../lib/drift/sentence";
import { ENGLISH } from "../../../lib/words/words";

/** A fixture that holds two features, which moved by 0.02 and 0.04 mm of a tolerance 0.4 mm wide. */
function told(value: number) {
  const shift = (feature: string, by: number) => ({
    part: "H-210 rev C",
    feature,
    unit: "mm",
    shiftInSigma: 2,
    shift: by,
    standardError: 0.001,
    shareOfTolerance: by / 0.4,
    moved: 0.99,
  });
  const flag = {
    source: { kind: "fixture" as const, id: "FX-2" },
    kind: "step" as const,
    edge: null,
    onset: { lot: "L-0230", at: 0, from: "L-0230", to: "L-0230", posterior: [] },
    magnitude: { value, unit: "mm", standardError: null, shareOfTolerance: value / 0.4, inSigma: 2 },
    features: [shift("bore", 0.02), shift("depth", 0.04)],
    forecast: null,
    alternatives: [],
    telling: { variant: "" as const, fromStart: false, inScope: 2, resolution: 0.001 },
  };
  return sentenceOf(flag, ENGLISH).replaceAll("\u00a0", " ");
}

describe("by hand: the figure of a source that moved two features", () => {
  test("between them it is said to be an average over both", () => {
    expect(told(0.03)).toBe(
      "FX-2 has moved +0.030 mm (7.5 % of tolerance, on average over 2 features) since lot L-0230; all 2 features it holds agree.",
    );
  });

  test("a feature's own is said to be the middle one", () => {
    expect(told(0.04)).toMatch(/moved \+0\.040 mm \(10 % of tolerance, the middle one of 2 features\) since/);
  });
});
