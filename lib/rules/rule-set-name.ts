import { performance as english } from "../words/en/performance";
import { RULE_SETS } from "./known-rules";

/** "limits only", "Western Electric 1956", "Nelson 1984", or how many rules of the shop's own choice there are. */
export function ruleSetName(slugs: readonly string[], words: typeof english.sets = english.sets): string {
  if (isSame(slugs, RULE_SETS.LIMITS_ONLY)) return words.limits;
  if (isSame(slugs, RULE_SETS.WESTERN)) return "Western Electric 1956";
  if (isSame(slugs, RULE_SETS.NELSON)) return "Nelson 1984";
  return words.rules(slugs.length);
}

function isSame(a: readonly string[], b: readonly string[]): boolean {
  return a.length === b.length && a.every((slug) => b.includes(slug));
}
