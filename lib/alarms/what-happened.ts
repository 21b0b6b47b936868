import type { ExcursionRule } from "../evaluation/progress";
import type { ChartKind } from "../plan/feature-plan";
import { ruleBySlug } from "../rules/known-rules";
import type { Direction, RulePattern } from "../rules/pattern";

const POINTS: Record<ChartKind, { one: string; many: string }> = {
  "xbar-r": { one: "A subgroup's mean", many: "subgroup means" },
  "xbar-s": { one: "A subgroup's mean", many: "subgroup means" },
  "i-mr": { one: "A piece", many: "pieces" },
};

/**
 * What fired, as sentences for somebody who never asks for a formula: "A subgroup's mean lay above its upper
 * control limit. 9 subgroup means in a row lay above the centre line." One sentence for each rule and side, in
 * the order in which they first fired.
 */
export function whatHappened(rules: readonly ExcursionRule[], chart: ChartKind): string[] {
  const sentences = rules.map(({ rule, chart: part, direction }) => {
    if (part === "memory") return memorySentence(direction, POINTS[chart].many);
    const { pattern } = ruleBySlug(rule);
    return part === "location"
      ? locationSentence(pattern, direction, POINTS[chart])
      : spreadSentence(pattern, direction, chart);
  });
  return [...new Set(sentences)];
}

/** The first of these sentences and how many more there are, for a list; the alarm's own words where nothing is left. */
export function happenedInShort(
  rules: readonly ExcursionRule[],
  { chart, words }: { chart: ChartKind; words: string },
): string {
  const [first, ...others] = whatHappened(rules, chart);
  if (first === undefined) return `${words}.`;
  return others.length === 0
    ? first
    : `${first} ${others.length === 1 ? "One more pattern" : `${others.length} more patterns`}.`;
}

/** Both charts with a memory find the same: something small that lasts. */
function memorySentence(direction: Direction, many: string): string {
  return `The latest ${many}, taken together, lie ${direction === "down" ? "below" : "above"} the centre line by more than chance: a small shift that lasts.`;
}

function locationSentence(
  pattern: RulePattern,
  direction: Direction,
  { one, many }: { one: string; many: string },
): string {
  const side = direction === "up" ? "above" : "below";
  switch (pattern.kind) {
    case "trend":
      return `${pattern.of} ${many} in a row ${direction === "up" ? "rose" : "fell"}, each beyond the one before.`;
    case "alternation":
      return `${pattern.of} ${many} went up and down by turns, as when two sources alternate.`;
    case "zone": {
      const { where, distance, count, of } = pattern;
      if (where === "within") return `${of} ${many} in a row kept closer to the centre than chance gives.`;
      if (where === "beyond any side")
        return `${of} ${many} in a row kept away from the centre, on either side.`;
      if (of === 1 && distance === 3)
        return `${one} lay ${side} its ${direction === "up" ? "upper" : "lower"} control limit.`;
      if (distance === 0) return `${of} ${many} in a row lay ${side} the centre line.`;
      const share = count === of ? `${of} ${many} in a row` : `${count} of ${of} ${many}`;
      return `${share} lay far ${side} the centre line (${NEAR[distance] ?? `beyond ${distance} sigma`}).`;
    }
  }
}

const NEAR: Record<number, string> = {
  1: "past a third of the way to the limit",
  2: "past two thirds of the way to the limit",
};

function spreadSentence(pattern: RulePattern, direction: Direction, chart: ChartKind): string {
  const isMany = pattern.kind !== "zone" || pattern.of > 1;
  const what = chart === "i-mr" ? "One piece to the next" : "The pieces of a subgroup";
  const more = direction === "down" ? "less" : "more";
  const verb = chart === "i-mr" ? "differed" : "differed among each other";
  return isMany
    ? `${what} ${verb} ${more} than usual, ${pattern.of} times in a row.`
    : `${what} ${verb} ${more} than control limits allow.`;
}
