import { expect, test } from "vitest";
import { movedWords, rivalWords, unmovedWords, type WordedFeature } from "../../../lib/sources/change-words";
import type { FeatureStep } from "../../../lib/sources/find-step";
import type { Change } from "../../../lib/sources/recent-change";

const FEATURES: WordedFeature[] = [
  { id: 1, name: "Bore depth", unit: "mm", resolution: 0.001, width: 0.1 },
  { id: 2, name: "Face height", unit: "mm", resolution: 0.001, width: 0.4 },
  { id: 3, name: "Edge break", unit: "mm", resolution: 0.01, width: null },
];

const names = {
  source: (id: number) => `FX-${id}`,
  lot: (id: number) => `L-${id}`,
  feature: (id: number) => FEATURES[id - 1]!,
};

function step(feature: number, difference: number, moved: boolean): FeatureStep {
  return {
    feature,
    sigma: 0.01,
    difference,
    standardError: 0.001,
    differenceInSigma: difference / 0.01,
    now: difference - 0.002,
    lotsBefore: 30,
    lotsAfter: 6,
    moved,
  };
}

const change: Change = {
  since: 231,
  lastBefore: 230,
  sinceAt: 0,
  lotsBefore: 30,
  lotsAfter: 6,
  direction: 1,
  difference: 1.12,
  standardError: 0.14,
  now: 0.93,
  features: [step(1, 0.016, true), step(2, 0.02, true), step(3, 0.001, false)],
  agree: 2,
  neighbours: [],
  rivals: [],
};

test("a source that moved: now, on the feature it takes most tolerance of, since when, how many agree", () => {
  expect(movedWords(2, change, names)).toBe(
    "FX-2 now lies +0.9\u00a0sigma (+0.0140\u00a0mm on Bore depth, 14\u00a0% of tolerance) from the others in the same lots, 1.1 ± 0.1 sigma higher than before lot L-231; 2 of 3 features agree.",
  );
});

test("downwards, on a feature without a tolerance width, with one that went the other way", () => {
  const down = {
    ...change,
    direction: -1 as const,
    difference: -1.12,
    now: -0.93,
    agree: 1,
    features: [step(3, -0.016, true), step(1, 0.02, true)],
  };
  expect(movedWords(2, down, names)).toBe(
    "FX-2 now lies \u22120.9\u00a0sigma (\u22120.018\u00a0mm on Edge break) from the others in the same lots, 1.1 ± 0.1 sigma lower than before lot L-231; 1 of 2 features agrees, 1 moved the other way.",
  );
});

test("a quiet source says what would have been named, one without company what it needs", () => {
  const extent = { source: 1, historyFrom: null, lots: 12, lotsCompared: 10, features: 4 };
  const quiet = { ...extent, state: "quiet" as const, reach: { lots: 5, sigma: 1.23 } };
  expect(unmovedWords(quiet, { kind: "fixture", since: null })).toBe(
    "No change in 10 compared lots. Two features that shift by about 1.2 sigma would be named within 5 lots.",
  );
  expect(unmovedWords(quiet, { kind: "tool", since: "the event of 3 May 2026" })).toBe(
    "No change in 10 compared lots since the event of 3 May 2026. A feature that shifts by about 1.2 sigma would be named within 5 lots.",
  );
  const few = { ...extent, lotsCompared: 2, state: "too-few" as const, needed: 5 };
  expect(unmovedWords(few, { kind: "fixture", since: null })).toBe(
    "Compared in 2 of at least 5 lots: too few to tell. More lots with another fixture beside it bring it in.",
  );
  expect(unmovedWords({ ...extent, state: "alone" }, { kind: "gauge", since: null })).toBe(
    "Alone in all 12 of its lots, so it and the lots cannot be told apart. Measure five pieces of a lot with another gauge as well to compare them.",
  );
});

test("what explains a change as well is said, with what would tell", () => {
  expect(rivalWords(["FX-1"], "fixture")).toBe(
    "FX-1 may have moved the other way instead: nothing else ran in these lots. Run some pieces of a lot in a third fixture to compare them.",
  );
});
