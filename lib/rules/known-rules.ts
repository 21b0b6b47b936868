import { InvalidInput } from "../checks";
import { type RunRule, runRule } from "./rule";

const WE = "Western Electric, Statistical Quality Control Handbook, 1956 (from memory)";
const NELSON_1984 = "L. S. Nelson, Journal of Quality Technology 16 (1984) 237-239 (from memory)";
const BOTH = `${WE}; ${NELSON_1984}`;

/** The rules that come with the product, in the order in which lists and tables show them. */
export const RULES: readonly RunRule[] = [
  runRule({
    slug: "beyond-3s",
    source: BOTH,
    pattern: { kind: "zone", where: "beyond one side", distance: 3, count: 1, of: 1 },
  }),
  runRule({
    slug: "two-of-three-2s",
    source: BOTH,
    pattern: { kind: "zone", where: "beyond one side", distance: 2, count: 2, of: 3 },
  }),
  runRule({
    slug: "four-of-five-1s",
    source: BOTH,
    pattern: { kind: "zone", where: "beyond one side", distance: 1, count: 4, of: 5 },
  }),
  runRule({
    slug: "eight-one-side",
    source: WE,
    pattern: { kind: "zone", where: "beyond one side", distance: 0, count: 8, of: 8 },
  }),
  runRule({
    slug: "nine-one-side",
    source: NELSON_1984,
    pattern: { kind: "zone", where: "beyond one side", distance: 0, count: 9, of: 9 },
  }),
  runRule({ slug: "six-trend", source: NELSON_1984, pattern: { kind: "trend", of: 6 } }),
  runRule({ slug: "fourteen-alternating", source: NELSON_1984, pattern: { kind: "alternation", of: 14 } }),
  runRule({
    slug: "fifteen-within-1s",
    source: NELSON_1984,
    pattern: { kind: "zone", where: "within", distance: 1, count: 15, of: 15 },
  }),
  runRule({
    slug: "eight-outside-1s",
    source: NELSON_1984,
    pattern: { kind: "zone", where: "beyond any side", distance: 1, count: 8, of: 8 },
  }),
];

/** Rule sets by the work they come from, as slugs. */
export const RULE_SETS = {
  LIMITS_ONLY: ["beyond-3s"],
  WESTERN: ["beyond-3s", "two-of-three-2s", "four-of-five-1s", "eight-one-side"],
  NELSON: [
    "beyond-3s",
    "nine-one-side",
    "six-trend",
    "fourteen-alternating",
    "two-of-three-2s",
    "four-of-five-1s",
    "fifteen-within-1s",
    "eight-outside-1s",
  ],
} as const satisfies Record<string, readonly string[]>;

/**
 * The rule of that name.
 *
 * @throws InvalidInput that lists the known names when there is none
 */
export function ruleBySlug(slug: string): RunRule {
  const rule = RULES.find((known) => known.slug === slug);
  if (rule) return rule;
  const names = RULES.map((known) => known.slug).join(", ");
  throw new InvalidInput("ruleBySlug", "slug", slug, `one of ${names}`);
}

/** Those of the rules that hold on a spread chart. */
export function rulesForSpread(rules: readonly RunRule[]): RunRule[] {
  return rules.filter((rule) => rule.appliesToSpread);
}
