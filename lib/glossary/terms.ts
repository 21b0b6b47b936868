import type { glossary } from "../words/en/glossary";
import type { terms } from "../words/en/terms";

/** A word of the trade by the name under which lib/words says it, and what it means. */
export type TermSlug = keyof typeof terms;

export type Term = {
  slug: TermSlug;
  /** Words that say more. */
  see: readonly TermSlug[];
};

/** Grouped by the question that leads to them; in the order in which a newcomer meets them. */
export const GLOSSARY: readonly { group: keyof (typeof glossary)["groups"]; terms: readonly Term[] }[] = [
  {
    group: "measured",
    terms: [
      { slug: "feature", see: ["tolerance", "key-characteristic"] },
      { slug: "tolerance", see: ["control-limits"] },
      { slug: "key-characteristic", see: ["feature"] },
      { slug: "subgroup", see: ["control-chart", "sigma"] },
      { slug: "lot", see: ["sources"] },
      { slug: "sources", see: ["drift", "source-event"] },
      { slug: "source-event", see: ["sources"] },
      { slug: "reference-temperature", see: ["feature"] },
    ],
  },
  {
    group: "steady",
    terms: [
      { slug: "control-chart", see: ["control-limits", "run-rule", "subgroup"] },
      { slug: "control-limits", see: ["trial-limits", "baseline", "tolerance"] },
      { slug: "trial-limits", see: ["baseline"] },
      { slug: "baseline", see: ["control-limits", "assigned-cause"] },
      { slug: "sigma", see: ["performance", "capability"] },
      { slug: "run-rule", see: ["average-run-length", "assigned-cause"] },
      { slug: "average-run-length", see: ["run-rule", "alarm-budget"] },
      { slug: "ewma", see: ["control-chart"] },
      { slug: "assigned-cause", see: ["baseline"] },
    ],
  },
  {
    group: "moved",
    terms: [
      { slug: "drift", see: ["sources", "confounded", "change-point"] },
      { slug: "change-point", see: ["drift"] },
      { slug: "confounded", see: ["drift"] },
      { slug: "forecast", see: ["drift"] },
    ],
  },
  {
    group: "enough",
    terms: [
      { slug: "capability", see: ["performance", "sigma", "confidence-bound"] },
      { slug: "performance", see: ["capability"] },
      { slug: "confidence-bound", see: ["capability"] },
      { slug: "gate", see: ["capability", "gauge-share"] },
      { slug: "normality", see: ["gate"] },
    ],
  },
  {
    group: "gauge",
    terms: [
      { slug: "resolution", see: ["gauge-share"] },
      { slug: "mpe", see: ["gauge-share"] },
      { slug: "gauge-study", see: ["gauge-share", "ndc"] },
      { slug: "gauge-share", see: ["gauge-study"] },
      { slug: "ndc", see: ["gauge-study"] },
      { slug: "bias", see: ["gauge-study"] },
    ],
  },
  {
    group: "people",
    terms: [
      { slug: "alarm", see: ["reaction-plan", "run-rule"] },
      { slug: "reaction-plan", see: ["containment", "control-plan"] },
      { slug: "containment", see: ["reaction-plan"] },
      { slug: "control-plan", see: ["reaction-plan", "alarm-budget"] },
      { slug: "alarm-budget", see: ["average-run-length"] },
    ],
  },
];
