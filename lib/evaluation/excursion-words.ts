import type { ChartKind } from "../plan/feature-plan";
import { RULES } from "../rules/known-rules";
import { MEMORY_RULES, signalRule } from "../rules/memory-rules";
import type { RuleWords } from "../rules/rule";
import { rules as english } from "../words/en/rules";
import type { ExcursionRule } from "./progress";

/**
 * What happened, in a few words: "Beyond 3 sigma above; 9 above centre; range beyond 3 sigma above".
 *
 * In the order of the rules, so that the plainest comes first whatever came first in time.
 */
export function excursionWords(
  rules: readonly ExcursionRule[],
  chart: ChartKind,
  words: RuleWords = english,
): string {
  const said: string[] = [];
  for (const part of ["location", "spread"] as const) {
    for (const rule of RULES) {
      for (const seen of rules) {
        if (seen.rule !== rule.slug || seen.chart !== part) continue;
        said.push(
          `${part === "spread" ? `${words.spread[chart]} ` : ""}${rule.phrase(seen.direction, words)}`,
        );
      }
    }
  }
  for (const { rule, chart: part, direction } of rules) {
    if (part === "memory") said.push(signalRule(rule).phrase(direction, words));
  }
  return capital(said.join("; "));
}

/**
 * What an alarm keeps of `excursionWords`, in another language. Alarms keep the English of the moment at which they
 * were raised, and its phrases are those of the known rules; a phrase that is none stays as it was stored.
 */
export function storedExcursionIn(stored: string, words: RuleWords): string {
  if (words === english) return stored;
  const said = stored.split("; ").map((phrase) => {
    const plain = phrase.charAt(0).toLowerCase() + phrase.slice(1);
    const chart = SPREAD_CHARTS.find((kind) => plain.startsWith(`${english.spread[kind]} `));
    const rest = chart === undefined ? plain : plain.slice(english.spread[chart].length + 1);
    for (const rule of [...RULES, ...Object.values(MEMORY_RULES)]) {
      const direction = DIRECTIONS.find((each) => rule.phrase(each) === rest);
      if (direction === undefined) continue;
      return `${chart === undefined ? "" : `${words.spread[chart]} `}${rule.phrase(direction, words)}`;
    }
    return phrase;
  });
  return capital(said.join("; "));
}

const SPREAD_CHARTS = Object.keys(english.spread) as (keyof typeof english.spread)[];
const DIRECTIONS = ["up", "down", "either"] as const;

function capital(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
