import { rules as english } from "../words/en/rules";
import { ruleBySlug } from "./known-rules";
import type { Direction } from "./pattern";
import type { RuleWords, RunRule } from "./rule";

/** What can signal: a run rule, or the limit of a chart with a memory. */
export type SignalRule = Pick<RunRule, "slug" | "statement" | "statementIn" | "phrase" | "source">;

function limitRule(slug: keyof RuleWords["memory"], source: string): SignalRule {
  const statementIn = (words: RuleWords) => words.memoryStatement(words.memory[slug]);
  return {
    slug,
    source,
    statement: statementIn(english),
    statementIn,
    phrase: (direction: Direction, words = english) => words.memoryPhrase(words.memory[slug], direction),
  };
}

/** Signals of the charts that the control plan lets watch beside a feature's own; no run rules to choose. */
export const MEMORY_RULES = {
  ewma: limitRule(
    "ewma-limit",
    "ISO 7870-6; S. W. Roberts, Technometrics 1 (1959) 239-250 (both from memory)",
  ),
  cusum: limitRule("cusum-limit", "ISO 7870-4; E. S. Page, Biometrika 41 (1954) 100-115 (both from memory)"),
} as const satisfies Record<string, SignalRule>;

/**
 * What stands behind a signal's name.
 *
 * @throws InvalidInput when there is neither a run rule nor a chart of that name
 */
export function signalRule(slug: string): SignalRule {
  return Object.values(MEMORY_RULES).find((rule) => rule.slug === slug) ?? ruleBySlug(slug);
}
