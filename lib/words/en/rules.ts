import type { Direction, RulePattern } from "../../rules/pattern";

type Zone = RulePattern & { kind: "zone" };

function zonePlace({ where, distance, of }: Zone): string {
  if (where === "within") return `within ${distance} sigma of the centre line`;
  if (where === "beyond any side") return `more than ${distance} sigma from the centre line, on either side`;
  const side = of === 1 ? "" : ", on the same side";
  if (distance === 0) return of === 1 ? "off the centre line" : "on one side of the centre line";
  return `more than ${distance} sigma from the centre line${side}`;
}

function zoneSubject({ count, of }: Zone): string {
  if (of === 1) return "One point lies";
  return count === of
    ? `${of} points in a row lie`
    : `At least ${count} of the last ${of} points, the latest among them, lie`;
}

function zonePhrase({ where, distance, count, of }: Zone, direction: Direction): string {
  const many = of === 1 ? "" : count === of ? `${of} ` : `${count} of ${of} `;
  const side = direction === "up" ? "above" : direction === "down" ? "below" : "";
  if (where === "within") return `${many}within ${distance} sigma`;
  if (where === "beyond any side") return `${many}outside ${distance} sigma`;
  if (distance === 0)
    return `${many}${side === "" ? "on one side" : side} ${side === "" ? "" : "centre"}`.trim();
  return `${many}beyond ${distance} sigma ${side}`.trim();
}

/** What the run rules and the charts with a memory say. */
export const rules = {
  /** One sentence that says when the pattern is complete. */
  statement: (pattern: RulePattern): string => {
    switch (pattern.kind) {
      case "trend":
        return `${pattern.of} points in a row rise, or ${pattern.of} in a row fall.`;
      case "alternation":
        return `${pattern.of} points in a row go up and down by turns.`;
      case "zone":
        return `${zoneSubject(pattern)} ${zonePlace(pattern)}.`;
    }
  },
  /** A few words for the bracket on the chart: "6 rising", "2 of 3 beyond 2 sigma above". */
  phrase: (pattern: RulePattern, direction: Direction): string => {
    switch (pattern.kind) {
      case "trend":
        return `${pattern.of} ${direction === "down" ? "falling" : direction === "up" ? "rising" : "rising or falling"}`;
      case "alternation":
        return `${pattern.of} alternating`;
      case "zone":
        return zonePhrase(pattern, direction);
    }
  },
  memory: { "ewma-limit": "weighted average", "cusum-limit": "cumulative sum" },
  memoryStatement: (what: string): string => `The ${what} lies beyond its limit.`,
  memoryPhrase: (what: string, direction: Direction): string =>
    `${what} beyond its limit${direction === "up" ? " above" : direction === "down" ? " below" : ""}`,
  /** Where a rule comes from: the citation that stands with the rule. */
  source: (citation: string): string => citation,
  spread: { "xbar-r": "range", "xbar-s": "standard deviation", "i-mr": "moving range" },
};
