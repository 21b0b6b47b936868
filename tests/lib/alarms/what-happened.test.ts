import { describe, expect, test } from "vitest";
import { DEFAULT_REACTIONS } from "../../../lib/alarms/default-reactions";
import { happenedInShort, whatHappened } from "../../../lib/alarms/what-happened";
import { FEATURE_KINDS } from "../../../lib/plan/feature-plan";
import { RULES } from "../../../lib/rules/known-rules";
import { WORDS } from "../../../lib/words/words";

describe("what fired, in words without a formula", () => {
  test("means and pieces", () => {
    expect(
      whatHappened(
        [
          { chart: "location", rule: "beyond-3s", direction: "up" },
          { chart: "location", rule: "nine-one-side", direction: "up" },
          { chart: "spread", rule: "beyond-3s", direction: "up" },
        ],
        "xbar-r",
      ),
    ).toEqual([
      "A subgroup's mean lay above its upper control limit.",
      "9 subgroup means in a row lay above the centre line.",
      "The pieces of a subgroup differed among each other more than control limits allow.",
    ]);
    expect(whatHappened([{ chart: "location", rule: "six-trend", direction: "down" }], "i-mr")).toEqual([
      "6 pieces in a row fell, each beyond the one before.",
    ]);
  });

  test("every rule of the product has a sentence on both charts and sides, and none names sigma", () => {
    for (const { slug } of RULES)
      for (const direction of ["up", "down", "either"] as const)
        for (const chart of ["location", "spread"] as const) {
          const [sentence, ...others] = whatHappened([{ chart, rule: slug, direction }], "xbar-s");
          expect(others).toEqual([]);
          expect(sentence).toMatch(/^[A-Z0-9].*\.$/);
          expect(sentence).not.toMatch(/sigma|undefined|NaN/);
        }
  });
});

test("every kind of feature has a reaction plan before anybody wrote one: first measure again, then contain", () => {
  for (const kind of FEATURE_KINDS) {
    const steps = DEFAULT_REACTIONS[kind];
    expect(steps.length).toBeGreaterThan(3);
    expect(steps[0]).toMatch(/measure the last piece again/);
    expect(steps[1]).toMatch(/on hold/);
    expect(new Set(steps).size).toBe(steps.length);
  }
});

test("for a list: the first sentence and how many more", () => {
  const beyond = { chart: "location", rule: "beyond-3s", direction: "up" } as const;
  const nine = { chart: "location", rule: "nine-one-side", direction: "up" } as const;
  const told = { chart: "xbar-r", words: "Beyond 3 sigma above" } as const;
  expect(happenedInShort([beyond], told)).toBe("A subgroup's mean lay above its upper control limit.");
  expect(happenedInShort([beyond, nine], told)).toBe(
    "A subgroup's mean lay above its upper control limit. One more pattern.",
  );
  expect(happenedInShort([], told)).toBe("Beyond 3 sigma above.");
});

test("a chart with a memory that signals is told as a small shift that lasts", () => {
  const rules = [{ chart: "memory", rule: "cusum-limit", direction: "down" }] as const;
  expect(whatHappened(rules, "xbar-r")).toEqual([
    "The latest subgroup means, taken together, lie below the centre line by more than chance: a small shift that lasts.",
  ]);
});

test("points of a chart of counts are samples, not pieces, in German as well", () => {
  const rules = [
    { chart: "location", rule: "beyond-3s", direction: "up" },
    { chart: "location", rule: "two-of-three-2s", direction: "down" },
  ] as const;
  expect(whatHappened(rules, "counts")).toEqual([
    "A sample lay above its upper control limit.",
    "2 of 3 samples lay far below the centre line (past two thirds of the way to the limit).",
  ]);
  expect(whatHappened(rules, "counts", WORDS.de.alarms.happened)[1]).toMatch(
    /^2 von 3 Stichproben lagen weit/,
  );
});
