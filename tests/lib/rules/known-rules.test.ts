import { describe, expect, test } from "vitest";
import { RULE_SETS, RULES, ruleBySlug, rulesForSpread } from "../../../lib/rules/known-rules";
import type { RulePattern } from "../../../lib/rules/pattern";
import { runRule } from "../../../lib/rules/rule";

test("every rule has a name of its own, a sentence and a source", () => {
  expect(new Set(RULES.map((rule) => rule.slug)).size).toBe(9);
  for (const rule of RULES) {
    expect(rule.statement).toMatch(/^\S.*\.$/);
    expect(rule.source).toMatch(/19(56|84)/);
    expect(ruleBySlug(rule.slug)).toBe(rule);
  }
});

test("rule sets name known rules only", () => {
  for (const slugs of Object.values(RULE_SETS)) {
    expect(slugs.map((slug) => ruleBySlug(slug).slug)).toEqual(slugs);
  }
  // Nelson (1984) has eight tests, the handbook of 1956 four for one side of the chart.
  expect(RULE_SETS.NELSON).toHaveLength(8);
  expect(RULE_SETS.WESTERN).toHaveLength(4);
});

test("spread charts take the limit and the one-side runs", () => {
  expect(rulesForSpread(RULES).map((rule) => rule.slug)).toEqual([
    "beyond-3s",
    "eight-one-side",
    "nine-one-side",
  ]);
});

describe("words for the bracket", () => {
  test.each([
    ["beyond-3s", "up", "beyond 3 sigma above"],
    ["two-of-three-2s", "up", "2 of 3 beyond 2 sigma above"],
    ["four-of-five-1s", "down", "4 of 5 beyond 1 sigma below"],
    ["eight-one-side", "down", "8 below centre"],
    ["nine-one-side", "up", "9 above centre"],
    ["nine-one-side", "either", "9 on one side"],
    ["six-trend", "up", "6 rising"],
    ["six-trend", "down", "6 falling"],
    ["fourteen-alternating", "either", "14 alternating"],
    ["fifteen-within-1s", "either", "15 within 1 sigma"],
    ["eight-outside-1s", "either", "8 outside 1 sigma"],
  ] as const)("%s %s: %s", (slug, direction, words) => {
    expect(ruleBySlug(slug).phrase(direction)).toBe(words);
  });
});

describe("a shop's own rule", () => {
  test("gets its words from its pattern", () => {
    const rule = runRule({
      slug: "seven-of-ten-half",
      source: "common practice, no source",
      pattern: { kind: "zone", where: "beyond one side", distance: 0.5, count: 7, of: 10 },
    });
    expect(rule.statement).toBe(
      "At least 7 of the last 10 points, the latest among them, lie more than 0.5 sigma from the centre line, on the same side.",
    );
    expect(rule.phrase("up")).toBe("7 of 10 beyond 0.5 sigma above");
    expect(rule.appliesToSpread).toBe(false);
  });

  test("may claim a spread chart against the usual", () => {
    const pattern: RulePattern = { kind: "trend", of: 7 };
    expect(
      runRule({ slug: "seven-trend", source: "s", pattern, appliesToSpread: true }).appliesToSpread,
    ).toBe(true);
  });

  const zone = { kind: "zone", where: "beyond one side", distance: 2, count: 2, of: 3 };
  test.each<[string, unknown]>([
    ["pattern.of", { kind: "trend", of: 2 }],
    ["pattern.of", { kind: "alternation", of: 31 }],
    ["pattern.of", { ...zone, of: 31 }],
    ["pattern.count", { ...zone, count: 4 }],
    ["pattern.count", { ...zone, count: 0 }],
    ["pattern.distance", { ...zone, distance: -1 }],
    ["pattern.distance", { ...zone, distance: Number.NaN }],
    ["pattern.distance", { ...zone, where: "within", distance: 0 }],
    ["pattern.where", { ...zone, where: "somewhere" }],
    ["pattern.kind", { kind: "colour" }],
  ])("with a broken %s is refused by name", (field, pattern) => {
    expect(() => runRule({ slug: "ours", source: "s", pattern: pattern as RulePattern })).toThrow(
      expect.objectContaining({ name: "InvalidInput", field }),
    );
  });

  test("with a name that no file could carry, or without a source, is refused", () => {
    const pattern: RulePattern = { kind: "trend", of: 7 };
    expect(() => runRule({ slug: "Seven Trend", source: "s", pattern })).toThrow(/slug/);
    expect(() => runRule({ slug: "seven", source: " ", pattern })).toThrow(/source/);
  });
});

test("an unknown rule is refused with the known names", () => {
  expect(() => ruleBySlug("ten-one-side")).toThrow(
    expect.objectContaining({ name: "InvalidInput", field: "slug", value: "ten-one-side" }),
  );
  expect(() => ruleBySlug("ten-one-side")).toThrow(/beyond-3s, two-of-three-2s/);
});
