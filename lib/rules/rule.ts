import { InvalidInput } from "../checks";
import { rules as english } from "../words/en/rules";
import { type Direction, type RulePattern, requirePattern } from "./pattern";

/** What rules say in a language. */
export type RuleWords = typeof english;

/** A run rule: its pattern as data, and the words in which people meet it. */
export type RunRule = {
  /** The name under which plans, files and the command line know it. */
  slug: string;
  /** One sentence: when it fires, in English. */
  statement: string;
  statementIn: (words: RuleWords) => string;
  /** A few words for the bracket on the chart, by the direction of a firing. */
  phrase: (direction: Direction, words?: RuleWords) => string;
  source: string;
  /** Whether it holds on spread charts as well, whose points are skewed. */
  appliesToSpread: boolean;
  pattern: RulePattern;
};

/**
 * A rule from its pattern; its statement and phrase follow from the pattern. Shops make their own so.
 *
 * It applies to spread charts when it is about single points beyond a limit or about a run on one side of
 * the centre, unless the caller says otherwise: zones at one and two sigma and trends presume symmetry.
 *
 * @throws InvalidInput when the slug is not of small letters, digits and hyphens, the source is empty, or
 *   the pattern does not fit
 */
export function runRule({
  slug,
  source,
  pattern,
  appliesToSpread = suitsSpread(pattern),
}: {
  slug: string;
  source: string;
  pattern: RulePattern;
  appliesToSpread?: boolean;
}): RunRule {
  if (!/^[a-z0-9]+(-[a-z0-9]+)*$/.test(slug)) {
    throw new InvalidInput("runRule", "slug", slug, "small letters, digits and single hyphens");
  }
  if (source.trim() === "") throw new InvalidInput("runRule", "source", source, "where the rule comes from");
  requirePattern("runRule", pattern);
  return {
    slug,
    source,
    pattern,
    appliesToSpread,
    statement: english.statement(pattern),
    statementIn: (words) => words.statement(pattern),
    phrase: (direction, words = english) => words.phrase(pattern, direction),
  };
}

function suitsSpread(pattern: RulePattern): boolean {
  if (pattern.kind !== "zone" || pattern.where !== "beyond one side") return false;
  return pattern.of === 1 || (pattern.distance === 0 && pattern.count === pattern.of);
}
