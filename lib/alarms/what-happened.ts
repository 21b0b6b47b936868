import type { ExcursionRule } from "../evaluation/progress";
import type { ChartKind } from "../plan/feature-plan";
import { ruleBySlug } from "../rules/known-rules";
import type { RulePattern } from "../rules/pattern";
import { alarms as english } from "../words/en/alarms";

type HappenedWords = typeof english.happened;

/**
 * What fired, as sentences for somebody who never asks for a formula: "A subgroup's mean lay above its upper
 * control limit. 9 subgroup means in a row lay above the centre line." One sentence for each rule and side, in
 * the order in which they first fired. "counts" for charts of these, whose points are samples.
 */
export function whatHappened(
  rules: readonly ExcursionRule[],
  chart: ChartKind | "counts",
  words: HappenedWords = english.happened,
): string[] {
  const sentences = rules.map(({ rule, chart: part, direction }) => {
    if (part === "memory") return words.memory(words.points[chart].many, direction === "down");
    const { pattern } = ruleBySlug(rule);
    return part === "location"
      ? locationSentence(pattern, direction === "up", { chart, words })
      : spreadSentence(pattern, direction === "down", { chart, words });
  });
  return [...new Set(sentences)];
}

/** The first of these sentences and how many more there are, for a list; the alarm's own words where nothing is left. */
export function happenedInShort(
  rules: readonly ExcursionRule[],
  { chart, words: own }: { chart: ChartKind | "counts"; words: string },
  words: HappenedWords = english.happened,
): string {
  const [first, ...others] = whatHappened(rules, chart, words);
  if (first === undefined) return `${own}.`;
  return others.length === 0 ? first : `${first} ${words.morePatterns(others.length)}`;
}

function locationSentence(
  pattern: RulePattern,
  up: boolean,
  { chart, words }: { chart: ChartKind | "counts"; words: HappenedWords },
): string {
  const { one, many } = words.points[chart];
  switch (pattern.kind) {
    case "trend":
      return words.trend(pattern.of, many, up);
    case "alternation":
      return words.alternation(pattern.of, many);
    case "zone": {
      const { where, distance, count, of } = pattern;
      if (where === "within") return words.within(of, many);
      if (where === "beyond any side") return words.away(of, many);
      if (of === 1 && distance === 3) return words.limit(one, up);
      if (distance === 0) return words.run(of, many, up);
      return words.far({ count, of }, many, up, words.near(distance));
    }
  }
}

function spreadSentence(
  pattern: RulePattern,
  less: boolean,
  { chart, words }: { chart: ChartKind | "counts"; words: HappenedWords },
): string {
  const isMany = pattern.kind !== "zone" || pattern.of > 1;
  return words.spread(chart === "i-mr", less, isMany ? pattern.of : null);
}
