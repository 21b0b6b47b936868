import { INDEX_NAMES } from "../capability/indices";
import { ENGLISH } from "../words/words";
import type { StatedFeature, StatementContent } from "./content";
import { gaugeWords, quotedIndex, type StatementWords, statedWords } from "./words";

/*
 * A statement as tables with full-precision numbers, for a workbook or a CSV file. Null is an empty cell.
 */

export type Cell = string | number | null;
export type StatementTable = { name: string; head: string[]; rows: Cell[][] };

/** One line a feature: claim, indices, bounds, fractions. */
export function capabilityTable(
  { features }: StatementContent,
  words: StatementWords = ENGLISH,
): StatementTable {
  const { sheets, heads, atLeast, yes, no } = words.statements.workbook;
  return {
    name: sheets.capability,
    head: [
      heads.feature,
      heads.key,
      heads.kind,
      heads.unit,
      heads.lower,
      heads.upper,
      heads.standing,
      heads.said,
      heads.model,
      heads.readings,
      heads.pieces,
      heads.subgroups,
      heads.lots,
      heads.signals,
      heads.mean,
      heads.within,
      heads.overall,
      ...INDEX_NAMES,
      ...INDEX_NAMES.map((name) => atLeast(name)),
      heads.quoted,
      heads.countedBelow,
      heads.countedAbove,
      heads.expectedBelow,
      heads.expectedAbove,
      "Anderson-Darling A²",
      "p",
      heads.share,
    ],
    rows: features.map((feature) => {
      const { study, plan } = feature;
      const said = statedWords(feature, words);
      const test = study.modelStudy?.fit ?? study.normality;
      return [
        feature.name,
        feature.keyCharacteristic ? yes : no,
        words.charts.features[feature.kind],
        feature.unit,
        plan.tolerance.lower,
        plan.tolerance.upper,
        said.standing,
        said.plainClaim,
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
export function listingTable(
  { features }: StatementContent,
  words: StatementWords = ENGLISH,
): StatementTable {
  const { workbook } = words.statements;
  const { sheets, heads, yes, no } = workbook;
  return {
    name: sheets.listing,
    head: [
      heads.feature,
      heads.key,
      heads.unit,
      heads.nominal,
      heads.lower,
      heads.upper,
      "n",
      heads.min,
      heads.max,
      heads.mean,
      heads.inside,
      heads.outside,
      heads.result,
      heads.gauge,
    ],
    rows: features.map(({ name, keyCharacteristic, unit, nominal, plan, listing }) => [
      name,
      keyCharacteristic ? yes : no,
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
      listing === null ? workbook.notMeasured : listing.outside === 0 ? workbook.in : workbook.out,
      listing === null
        ? null
        : gaugeWords(
            listing.gauges.map(({ code }) => code),
            words,
          ),
    ]),
  };
}

/** Every gate of every feature with its reason. */
export function gateTable({ features }: StatementContent, words: StatementWords = ENGLISH): StatementTable {
  const { sheets, heads } = words.statements.workbook;
  return {
    name: sheets.gates,
    head: [heads.feature, heads.gate, heads.outcome, heads.reason],
    rows: features.flatMap((feature) =>
      statedWords(feature, words).gates.map(({ name, word, reason }): Cell[] => [
        feature.name,
        name,
        word,
        reason,
      ]),
    ),
  };
}

/** What was left out, by feature, with its assigned cause. Times in UTC. */
export function exclusionTable(
  features: readonly StatedFeature[],
  { statements: { workbook } }: StatementWords = ENGLISH,
): StatementTable {
  const { sheets, heads } = workbook;
  return {
    name: sheets.exclusions,
    head: [heads.feature, heads.from, heads.to, heads.cause, heads.by],
    rows: features.flatMap(({ name, exclusions }) =>
      exclusions.map(({ from, to, cause, by }): Cell[] => [name, utc(from), utc(to), cause, by]),
    ),
  };
}

export function utc(at: number): string {
  return new Date(at).toISOString();
}
