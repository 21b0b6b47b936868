import type { ChartKind } from "../plan/feature-plan";
import { RULES } from "../rules/known-rules";
import { signalRule } from "../rules/memory-rules";
import type { ExcursionRule } from "./progress";

const SPREAD: Record<ChartKind, string> = {
  "xbar-r": "range",
  "xbar-s": "standard deviation",
  "i-mr": "moving range",
};

/**
 * What happened, in a few words: "Beyond 3 sigma above; 9 above centre; range beyond 3 sigma above".
 *
 * In the order of the rules, so that the plainest comes first whatever came first in time.
 */
export function excursionWords(rules: readonly ExcursionRule[], chart: ChartKind): string {
  const words: string[] = [];
  for (const part of ["location", "spread"] as const) {
    for (const rule of RULES) {
      for (const seen of rules) {
        if (seen.rule !== rule.slug || seen.chart !== part) continue;
        words.push(`${part === "spread" ? `${SPREAD[chart]} ` : ""}${rule.phrase(seen.direction)}`);
      }
    }
  }
  for (const { rule, chart: part, direction } of rules) {
    if (part === "memory") words.push(signalRule(rule).phrase(direction));
  }
  const text = words.join("; ");
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}`;
}
