import { INDEX_NAMES } from "../capability/indices";
import type { StatedFeature, StatementContent } from "./content";
import { gaugeWords, quotedIndex, statedWords } from "./words";

/*
 * A statement as tables with full-precision numbers, for a workbook or a CSV file. Null is an empty cell.
 */

export type Cell = string | number | null;
export type StatementTable = { name: string; head: string[]; rows: Cell[][] };

/** One line a feature: claim, indices, bounds, fractions. */
export function capabilityTable({ features }: StatementContent): StatementTable {
  return {
    name: "Capability",
    head: [
      "feature",
      "key",
      "kind",
      "unit",
      "lower limit",
      "upper limit",
      "standing",
      "what can be said",
      "model",
      "readings",
      "pieces",
      "subgroups",
      "lots",
      "unresolved signals",
      "mean",
      "sigma within",
      "sd overall",
      ...INDEX_NAMES,
      ...INDEX_NAMES.map((name) => `${name} at least`),
      "quoted index",
      "counted below",
      "counted above",
      "expected below",
      "expected above",
      "Anderson-Darling A²",
      "p",
      "gauge share of tolerance",
    ],
    rows: features.map((feature) => {
      const { study, plan } = feature;
      const test = study.modelStudy?.fit ?? study.normality;
      return [
        feature.name,
        feature.keyCharacteristic ? "yes" : "no",
        feature.kind,
        feature.unit,
        plan.tolerance.lower,
        plan.tolerance.upper,
        statedWords(feature).standing,
        study.claim,
        study.model,
        study.count,
        feature.pieces,
        feature.subgroups,
        feature.lots,
        feature.unresolvedSignals,
        study.mean,
        feature.within?.sigma ?? null,
        study.sdOverall,
        ...INDEX_NAMES.map((name) => study[name]),
        ...INDEX_NAMES.map((name) => study.lowerBounds[name]),
        quotedIndex(feature)?.name ?? null,
        study.observedOutside.below,
        study.observedOutside.above,
        study.expectedOutside.below,
        study.expectedOutside.above,
        test?.A2 ?? null,
        test?.p ?? null,
        feature.gaugeShare,
      ];
    }),
  };
}

/** Dimensional results for a first-article or sample submission. */
export function listingTable({ features }: StatementContent): StatementTable {
  return {
    name: "Dimensional results",
    head: [
      "feature",
      "key",
      "unit",
      "nominal",
      "lower limit",
      "upper limit",
      "n",
      "min",
      "max",
      "mean",
      "inside",
      "outside",
      "result",
      "gauge",
    ],
    rows: features.map(({ name, keyCharacteristic, unit, nominal, plan, listing }) => [
      name,
      keyCharacteristic ? "yes" : "no",
      unit,
      nominal,
      plan.tolerance.lower,
      plan.tolerance.upper,
      listing?.count ?? 0,
      listing?.min ?? null,
      listing?.max ?? null,
      listing?.mean ?? null,
      listing?.inside ?? null,
      listing?.outside ?? null,
      listing === null ? "not measured" : listing.outside === 0 ? "in" : "out",
      listing === null ? null : gaugeWords(listing.gauges.map(({ code }) => code)),
    ]),
  };
}

/** Every gate of every feature with its reason. */
export function gateTable({ features }: StatementContent): StatementTable {
  return {
    name: "Gates",
    head: ["feature", "gate", "outcome", "reason"],
    rows: features.flatMap((feature) =>
      statedWords(feature).gates.map(({ gate, word, reason }): Cell[] => [feature.name, gate, word, reason]),
    ),
  };
}

/** What was left out, by feature, with its assigned cause. Times in UTC. */
export function exclusionTable(features: readonly StatedFeature[]): StatementTable {
  return {
    name: "Exclusions",
    head: ["feature", "from", "to", "assigned cause", "left out by"],
    rows: features.flatMap(({ name, exclusions }) =>
      exclusions.map(({ from, to, cause, by }): Cell[] => [name, utc(from), utc(to), cause, by]),
    ),
  };
}

export function utc(at: number): string {
  return new Date(at).toISOString();
}
